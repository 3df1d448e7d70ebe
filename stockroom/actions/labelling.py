"""What a lot's label says, taken from the books."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate

from stockroom.domain.lots import Lot
from stockroom.errors import Refused
from stockroom.labels.content import LabelContent
from stockroom.planning.fitness import spoken
from stockroom.science.quantities import Dimension
from stockroom.store.history import actions_of_lot
from stockroom.store.ledger import entries_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


def label_of(store: Store, code: str, *, with_place: bool = False) -> LabelContent:
    """Return the label of a lot. Raises Refused for a lot that has ended, and what `find_lot` raises.

    The place is left off unless asked for, so that moving a jar makes no label false.
    """
    lot = find_lot(store, code)
    if lot.ended:
        raise Refused(
            f"{lot.code} ({lot.material.name}) ended on {lot.ended_on}: {lot.ended_why}. It needs no label; "
            "take the old one off."
        )
    if lot.kind == "waste can":
        from stockroom.actions.waste_cans import as_labelled

        content = content_of(as_labelled(store, lot), with_place=with_place)
        return replace(content, note=f"begun {lot.received_on}")
    topped_up = [done.day for done in actions_of_lot(store, lot.id) if done.kind == "top-up" and done.in_effect]
    return content_of(lot, with_place=with_place, topped_up=topped_up[-1] if topped_up else None)


def warn_of_label_size(store: Store, code: str, label_mm: tuple[float, float]) -> tuple[str, ...]:
    """Say where the label of a jar with hazards is smaller than is good practice for the most it has held.

    What was bought has its supplier's label, and its containers are not known.
    """
    from stockroom.science.label_rules import warn_of_size

    lot = find_lot(store, code)
    most = max(accumulate(entry.quantity for entry in entries_of_lot(store, lot.id)), default=0)
    if not lot.is_jar or lot.material.dimension is not Dimension.VOLUME or not lot.material.hazards or most <= 0:
        return ()
    return tuple(f"{lot.code}: {words}" for words in warn_of_size(lot.material.quantity(most), label_mm))


def content_of(lot: Lot, *, with_place: bool = False, topped_up: str | None = None) -> LabelContent:
    """Return what a lot's label says; `topped_up` is the day on which water was last put on its solid."""
    material = lot.material
    fresh = lot.use_by if lot.use_by and "T" in lot.use_by else None
    dated_by_check = lot.check_by is not None and (lot.use_by is None or lot.check_by[:10] < lot.use_by[:10])
    last_day = lot.check_by if dated_by_check else lot.use_by
    name = f"{material.name}, {material.grade}" if material.grade and not lot.is_jar else material.name
    return LabelContent(
        code=lot.code,
        name=name,
        strength=lot.strength or (lot.purity if not lot.is_jar else None),
        made=spoken(lot.made_at[:16]) if lot.made_at else None,
        use_by=spoken(last_day) if last_day and not fresh else None,
        use_by_word="check by" if dated_by_check else "use by",
        opened=lot.opened_on,
        received=lot.received_on if not lot.is_jar else None,
        initials=lot.initials,
        place=lot.place if with_place else None,
        storage=material.storage,
        vented=material.vented,
        signal_word=material.signal_word,
        hazards=material.hazards,
        precautions=material.precautions,
        pictograms=material.pictograms,
        note=f"topped up {topped_up}" if topped_up else None,
        fresh_until=spoken(fresh) if fresh else None,
    )
