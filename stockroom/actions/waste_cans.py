"""Waste cans: begin one, say what is in it, pour into it with care, and end it when it was collected or emptied.

A can has no value: what a lot was worth is wasted when it is thrown away, wherever it goes. What may go into which
can, and who may collect it, is for local rules and licensed practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from math import ceil

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.lots_here import refuse_ended
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import Lot, NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.waste import WASTE_KEY, Poured, WasteCan
from stockroom.errors import BadInput, Refused
from stockroom.science.cautions import Caution
from stockroom.science.hazard_words import choose_pictograms, choose_precautions, choose_signal_word, drop_covered
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.science.substance_groups import codes_of
from stockroom.store.lots import find_lot
from stockroom.store.materials import add_material, all_materials, find_material
from stockroom.store.open import Store
from stockroom.store.studio import find_place
from stockroom.store.waste_cans import add_waste_can, find_waste_can, poured_into

ENDS = ("collected", "emptied")
"""How a can ends."""
_UG_PER_ML = 1_000_000
"""At 1 g/mL."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CanChanged(ActionOutcome):
    """A can that was begun or has ended."""

    can: WasteCan
    poured: tuple[Poured, ...] = ()
    """What ended with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CanPage:
    """A can with what was poured into it and what its label warns of."""

    can: WasteCan
    poured: tuple[Poured, ...]
    label: Material
    """The can's name with the hazards of all that is in it."""


def new_waste_can(
    store: Store,
    occasion: Occasion,
    title: str,
    capacity: str,
    *,
    vented: bool = False,
    place: str | None = None,
    dry_run: bool = False,
) -> CanChanged:
    """Begin an empty can of a capacity as typed. Raises BadInput, Unreadable, NotFound for the place."""
    words = " ".join(title.split())
    if not words or not words.isprintable():
        raise BadInput("What is to be written on the can? For example: stockroom waste-can new 'Alcohol waste'.")
    holds = read_quantity(capacity, expect=Dimension.VOLUME).quantity

    def build(booked_at: datetime) -> CanChanged:
        fields: dict[str, str | int | None] = {"received_on": occasion.day.isoformat()}
        if place:
            fields["place_id"] = find_place(store, place).id
        lot = NewLot(key=-1, material=_waste(store), kind="waste can", fields=fields)
        details = {"title": words, "capacity": holds.quanta, "vented": "vented" if vented else "closed"}
        draft = Draft(kind="waste-can", occasion=occasion, new_lots=(lot,), details=details)
        posted = post(store, draft, booked_at)
        add_waste_can(store, find_lot(store, posted.lots[-1]).id, words, holds, vented=vented)
        return CanChanged(can=find_waste_can(store, posted.lots[-1]), action=posted.code)

    return carry_out(store, build, dry_run=dry_run)


def end_waste_can(
    store: Store,
    occasion: Occasion,
    typed: str,
    how: str,
    *,
    dry_run: bool = False,
    confirmed: CanChanged | None = None,
) -> CanChanged:
    """End a can that was collected or emptied, with all that is in it; the reason says by whom. Raises BadInput."""
    if how not in ENDS:
        raise BadInput(f"'{how}' is not how a can ends. Accepted are {' and '.join(ENDS)}.")

    def build(booked_at: datetime) -> CanChanged:
        can = find_waste_can(store, typed)
        refuse_ended(can.lot)
        day, held = occasion.day.isoformat(), can.lot.balance.quantity
        why = f"{how}: {occasion.reason}" if occasion.reason else how
        out = Movement(lot=can.lot.id, quantity=-held, other_end="waste", reason=how)
        draft = Draft(
            kind="waste-can-ended",
            occasion=occasion,
            movements=(out,) if held else (),
            facts=((can.lot.id, "state", "ended"), (can.lot.id, "ended_on", day), (can.lot.id, "ended_why", why)),
            details={"how": how},
        )
        posted = post(store, draft, booked_at)
        ended = find_waste_can(store, can.lot.code)
        return CanChanged(can=ended, poured=tuple(poured_into(store, ended)), action=posted.code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def waste_can_page(store: Store, typed: str) -> CanPage:
    """Return a can, what is in it, and what its label warns of. Raises NotFound, BadInput."""
    can = find_waste_can(store, typed)
    poured = poured_into(store, can)
    return CanPage(can=can, poured=tuple(poured), label=_warned(can.lot.material, [one.lot for one in poured]))


def as_labelled(store: Store, lot: Lot) -> Lot:
    """Return a can's lot as its label tells it: its contents as what is in it, their hazards as its own."""
    page = waste_can_page(store, lot.code)
    names = dict.fromkeys(one.lot.material.name for one in page.poured)
    return replace(lot, material=page.label, strength=f"contents: {', '.join(names) or 'nothing yet'}")


def room_for(lot: Lot, quantity: int, room: str | None) -> Quantity:
    """Return the room that some of a lot takes up in a can: as typed, else its volume, or that of its solid.

    A powder counts to the next millilitre; one whose density is not known, as water. Raises BadInput for sheets and
    pieces without `room`.
    """
    if room:
        return read_quantity(room, expect=Dimension.VOLUME).quantity
    if lot.material.dimension is Dimension.VOLUME:
        return lot.material.quantity(quantity)
    if lot.material.dimension is Dimension.MASS:
        millilitres = ceil(quantity / (_UG_PER_ML * Fraction(lot.material.density or 1)))
        return Quantity(Dimension.VOLUME, 1000 * millilitres)
    raise BadInput(
        f"How much room does {lot.material.name} take up in the can? Say --room, for example --room '200 mL'."
    )


def refuse_full(can: WasteCan, room: Quantity, occasion: Occasion) -> None:
    """Raise Refused for a can that has ended, was not here yet, or does not hold that much more."""
    refuse_ended(can.lot)
    if can.lot.received_on and occasion.day.isoformat() < can.lot.received_on:
        raise Refused(f"{can.lot.code} ({can.lot.material.name}) was begun on {can.lot.received_on}, not before.")
    if room.quanta > can.room.quanta:
        raise Refused(
            f"{can.lot.code} ({can.lot.material.name}) takes {show(can.room)} more, not {show(room)}. Pour less, or "
            f"begin another can; 'stockroom waste-can collected {can.lot.code}' ends this one. Nothing was changed."
        )


def refuse_against(cautions: Sequence[Caution], all_the_same: str | None) -> dict[str, object]:
    """Return what an action keeps of cautions it goes against; raise Refused where no reason is given for that."""
    stopping = [caution.words for caution in cautions if caution.stops]
    if stopping and not all_the_same:
        raise Refused(
            f"Not into this can: {' '.join(stopping)} Take another can; or, where local rules and licensed practice "
            "allow it, say why with --all-the-same REASON, which stays in the record. Nothing was changed."
        )
    return {"against_cautions": stopping, "all_the_same": all_the_same} if stopping else {}


def _warned(material: Material, lots: Sequence[Lot]) -> Material:
    """Give a can the statements of all that is in it, at full weight: no thinning and no reaction is reckoned with."""
    said = {words.split()[0]: words for lot in lots for words in lot.material.hazards if words.strip()}
    kept = drop_covered(sorted(codes_of(said.values())))
    hazards = tuple(said[code] for code in kept)
    precautions, _ = choose_precautions(hazards)
    return replace(
        material,
        hazards=hazards,
        signal_word=choose_signal_word(hazards),
        pictograms=choose_pictograms(hazards),
        precautions=tuple(words for words in precautions if not (material.vented and words.startswith("P233"))),
        hazard_ground="The statements of all that was poured in, at full weight. Local rules come first.",
    )


def _waste(store: Store) -> Material:
    """Return the material that cans are lots of, beginning it where there is none."""
    if not any(material.key == WASTE_KEY for material in all_materials(store, retired=True)):
        add_material(store, Material(key=WASTE_KEY, name="Waste", kind="waste", dimension=Dimension.VOLUME))
    return find_material(store, WASTE_KEY)
