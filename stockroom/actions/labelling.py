"""What a lot's label says, taken from the books."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from stockroom.actions.jar_sizes import most_held
from stockroom.domain.lots import Lot
from stockroom.domain.sizes import show_sheet
from stockroom.errors import Refused
from stockroom.labels.content import LabelContent
from stockroom.planning.fitness import spoken
from stockroom.science.hazard_words import choose_pictograms
from stockroom.store.history import actions_of_lot
from stockroom.store.labels import solvent_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


def label_of(
    store: Store,
    code: str,
    *,
    with_place: bool = False,
    with_pictograms: bool = True,
    words_in_symbol: bool = False,
) -> LabelContent:
    """Return the label of a lot. Raises Refused for a lot that has ended, and what `find_lot` raises.

    The place is left off unless asked for, so that moving a jar makes no label false.
    """
    lot = find_lot(store, code)
    if lot.ended:
        raise Refused(
            f"{lot.code} ({lot.material.name}) ended on {lot.ended_on}: {lot.ended_why}. It needs no label; "
            "take the old one off."
        )
    content = _can_content(store, lot, with_place) if lot.kind == "waste can" else _content(store, lot, with_place)
    if words_in_symbol:
        content = replace(content, in_symbol=", ".join(filter(None, (content.name, content.strength))))
    if with_pictograms or not content.pictograms:
        return content
    left_off = f"pictograms {', '.join(content.pictograms)}, as asked: signal word and statements stay"
    return replace(content, pictograms=(), left_off=(*content.left_off, left_off))


def _content(store: Store, lot: Lot, with_place: bool) -> LabelContent:
    topped_up = [done.day for done in actions_of_lot(store, lot.id) if done.kind == "top-up" and done.in_effect]
    return replace(
        content_of(lot, with_place=with_place, topped_up=topped_up[-1] if topped_up else None),
        solvent=solvent_of_lot(store, lot.id) if lot.kind == "jar" else None,
        may_leave_off=_relieved(store, lot),
    )


def _can_content(store: Store, lot: Lot, with_place: bool) -> LabelContent:
    from stockroom.actions.waste_cans import as_labelled

    return replace(content_of(as_labelled(store, lot), with_place=with_place), note=f"begun {lot.received_on}")


def warn_of_label_size(
    store: Store, code: str, label_mm: tuple[float, float], pictogram_mm: float | None = None
) -> tuple[str, ...]:
    """Say where the label of a jar with hazards is smaller than is good practice for the most it has held.

    What was bought has its supplier's label, and its containers are not known.
    """
    from stockroom.science.label_rules import find_label_rule, warn_of_size

    lot = find_lot(store, code)
    held = most_held(store, lot)
    if held is None or not lot.material.hazards:
        return ()
    # up to 3 L the full size is asked for where it is possible, and a label never draws one below the least
    pictogram = None if find_label_rule(held).if_possible else pictogram_mm
    return tuple(f"{lot.code}: {words}" for words in warn_of_size(held, label_mm, pictogram_mm=pictogram))


def _relieved(store: Store, lot: Lot) -> tuple[str, ...]:
    from stockroom.science.label_rules import find_relief

    held = most_held(store, lot) if lot.material.hazards else None
    return find_relief(held, lot.material.hazards).may_leave_off if held else ()


def _give_way(pictograms: tuple[str, ...], hazards: tuple[str, ...]) -> tuple[str, ...]:
    """Leave the exclamation mark off where corrosion or the skull says more (CLP Article 26); all else stays."""
    says_more = [code for code in ("GHS05", "GHS06") if code in pictograms]
    if not says_more or not hazards or "GHS07" in choose_pictograms(hazards):
        return pictograms
    return tuple(code for code in pictograms if code != "GHS07")


def content_of(lot: Lot, *, with_place: bool = False, topped_up: str | None = None) -> LabelContent:
    """Return what a lot's label says; `topped_up` is the day on which water was last put on its solid."""
    material = lot.material
    used = lot.kind == "used bath"
    fresh = lot.use_by if lot.use_by and "T" in lot.use_by and not used else None
    dated_by_check = lot.check_by is not None and (lot.use_by is None or lot.check_by[:10] < lot.use_by[:10])
    last_day = lot.check_by if dated_by_check else lot.use_by
    name = f"{material.name}, {material.grade}" if material.grade and not lot.is_jar else material.name
    return LabelContent(
        code=lot.code,
        name=f"Used bath: {name}" if used else name,
        strength=_about(lot.strength)
        or (None if lot.is_jar else lot.purity or show_sheet(lot.length_um, lot.width_um, lot.grain)),
        made=spoken(lot.made_at[:16]) if lot.made_at else None,
        use_by=spoken(last_day) if last_day and not fresh else None,
        use_by_word="discard by" if used else "check by" if dated_by_check else "use by",
        opened=lot.opened_on,
        received=lot.received_on if not lot.is_jar else None,
        initials=lot.initials,
        place=lot.place if with_place else None,
        storage=material.storage,
        vented=material.vented,
        signal_word=material.signal_word,
        hazards=material.hazards,
        precautions=material.precautions,
        pictograms=_give_way(material.pictograms, material.hazards),
        write_in=_write_in(lot),
        topped_up=topped_up,
        fresh_until=spoken(fresh) if fresh else None,
    )


def _about(strength: str | None) -> str | None:
    """Write an uncertain strength with two digits at most, and a capital: `About 1.6 g/L (saturated)`."""
    found = re.match(r"about (\d+(?:\.\d+)?)", strength or "")
    if strength is None or not found:
        return strength
    number = Decimal(found[1])
    places = max(0, 1 - number.adjusted()) if number else 0
    return f"About {round(number, places):f}{strength[found.end() :]}"


def _write_in(lot: Lot) -> tuple[str, ...]:
    """Name the boxes: opened where it is not yet, checked where a check can be written in."""
    if lot.kind not in ("jar", "bought", "found") or (lot.use_by and "T" in lot.use_by):
        return ()
    checked = ("checked",) if lot.kind == "jar" else ()
    return checked if lot.opened_on else ("opened", *checked)
