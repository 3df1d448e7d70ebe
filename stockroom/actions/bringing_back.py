"""Bring back part of what was taken; keep what is left of a bath."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Self

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.material_hazards import BATH, suggested_for
from stockroom.actions.posting import post
from stockroom.actions.taking import read_amount_of
from stockroom.domain.ledger import Draft, Entry, Movement
from stockroom.domain.lots import Lot, NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.planning.fitness import mark_of_withdrawn
from stockroom.planning.shelf_life import made_limits
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.science.sharing import round_half_even_ratio
from stockroom.store import ledger
from stockroom.store.edits import edits_of
from stockroom.store.history import WorkDone, find_action, kept_of_bath
from stockroom.store.jobs import find_job, job_by_id
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.materials import add_material, all_materials, change_material, find_material
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class BroughtBack(ActionOutcome):
    """What came back, or what was kept of a bath."""

    kind: str
    """bring-back, remainder or used bath."""
    code: str | None
    name: str
    quantity: Quantity
    value: int
    job: str | None

    def as_plan(self) -> Self:
        return replace(self, code=self.code if self.kind == "bring-back" else None, action=None)


def bring_back(
    store: Store,
    occasion: Occasion,
    named: str,
    typed: str,
    *,
    job: str | None = None,
    used_bath: bool = False,
    dry_run: bool = False,
    confirmed: BroughtBack | None = None,
) -> BroughtBack:
    """Bring back some of a lot, by its code or by the action that took it; or keep what a bath left over.

    By a lot's code, the newest take of that lot (and job) that is still open is meant. Never more comes back than
    went; its value is in that take's proportion, and the last return takes the rest. For the action of a use, the
    amount is of its bath: unused it becomes a jar that takes its share of the cost back from the job, used it
    becomes a used bath without value, to be discarded. Raises NotFound, Refused.
    """

    def build(booked_at: datetime) -> BroughtBack:
        by_action = named.strip().upper().startswith("A")
        if not by_action:
            lot = find_lot(store, named)
            return _lot_back(store, occasion, _newest_take(store, lot, job), lot, typed, booked_at)
        done = find_action(store, named)
        if not done.in_effect:
            raise Refused(f"Action {done.code} is not in effect: it was undone.")
        if done.kind == "use":
            return _bath_left(store, occasion, done, typed, used_bath, booked_at)
        draws = [entry for entry in ledger.entries_of_action(store, done.number) if _is_taken(entry)]
        if not draws:
            raise Refused(f"Action {done.code} ({done.kind}) took nothing that could come back.")
        return _lot_back(store, occasion, draws[0], lot_by_id(store, draws[0].lot), typed, booked_at)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _is_taken(entry: Entry) -> bool:
    return entry.effect == "draw" and entry.other_end in ("job", "studio") and entry.count_action is None


def _still_out(store: Store, entry: Entry) -> tuple[int, int]:
    """Return the quantity and value of a draw that has not come back."""
    back = ledger.entries_referring(store, entry.place)
    return -entry.quantity - sum(one.quantity for one in back), -entry.value - sum(one.value for one in back)


def _newest_take(store: Store, lot: Lot, job: str | None) -> Entry:
    job_id = find_job(store, job).id if job else None
    gone = ledger.reversed_places(store, lot.id)
    for entry in reversed(ledger.entries_of_lot(store, lot.id)):
        if not _is_taken(entry) or entry.place in gone or (job_id is not None and entry.job_id != job_id):
            continue
        if _still_out(store, entry)[0] > 0:
            return entry
    for_job = f" for job {job}" if job else ""
    raise NotFound(f"Nothing of {lot.code} ({lot.material.name}) was taken{for_job} and is still out.")


def _lot_back(store: Store, occasion: Occasion, entry: Entry, lot: Lot, typed: str, booked_at: datetime) -> BroughtBack:
    quantity = read_amount_of(lot, typed).quantity.quanta
    out, value_out = _still_out(store, entry)
    if quantity > out:
        raise Refused(
            f"{show(lot.material.quantity(quantity))} cannot come back: {show(lot.material.quantity(out))} of "
            f"{lot.code} is still out of that take. More found in the bottle is a count.",
        )
    if occasion.at_text < entry.at:
        raise BadInput("It cannot come back before it went. Give a later --day.")
    value = value_out if quantity == out else round_half_even_ratio(value_out * quantity, out)
    back = Movement(
        lot=lot.id,
        quantity=quantity,
        value=value,
        other_end=entry.other_end,
        job_id=entry.job_id,
        effect="base",
        refers=entry.place,
    )
    draft = Draft(
        kind="bring-back", occasion=occasion, movements=(back,), job_id=entry.job_id, details={"typed": typed}
    )
    posted = post(store, draft, booked_at)
    return BroughtBack(
        kind="bring-back",
        code=lot.code,
        name=lot.material.name,
        quantity=lot.material.quantity(quantity),
        value=value,
        job=job_by_id(store, entry.job_id).code if entry.job_id else None,
        action=posted.code,
    )


def _bath_left(
    store: Store, occasion: Occasion, done: WorkDone, typed: str, used_bath: bool, booked_at: datetime
) -> BroughtBack:
    details = json.loads(done.details)
    recipe = find_recipe(store, details["recipe"])
    baths = (
        [recipe]
        if recipe.kind == "bath"
        else [find_recipe(store, line.recipe) for line in recipe.version.lines if line.recipe]
    )
    if not baths:
        raise Refused(f"{recipe.name} fills no bath, so none can be left over.")
    bath = baths[0]
    batch = bath.version.batch.quanta if bath.version.batch else 0
    poured = (details.get("fill") or (recipe.version.batch.quanta if recipe.version.batch else batch)) * details[
        "fills"
    ]
    quantity = read_quantity(typed, expect=Dimension.VOLUME).quantity
    kept = kept_of_bath(store, done)
    if quantity.quanta > poured - kept:
        raise Refused(
            f"{show(quantity)} is more than is left of that bath: {show(Quantity(Dimension.VOLUME, poured - kept))}."
        )
    value = 0 if used_bath else _share_of(store, done, quantity.quanta, poured)
    kind = "used bath" if used_bath else "remainder"
    use_by, rule = made_limits(occasion.local, bath.version.life or "8 h", [])
    strength = details.get("strength") or bath.version.strength
    drawn = [lot_by_id(store, entry.lot) for entry in ledger.entries_of_action(store, done.number) if _is_taken(entry)]
    mixed = f"mixed as {strength}, strength not known since" if strength else "strength not known"
    lot = NewLot(
        key=-1,
        material=_bath_material(store, bath),
        kind=kind,
        fields={
            "job_id": done.job_id,
            "made_at": occasion.minute_text,
            "strength": mixed,
            "unfit": mark_of_withdrawn(drawn),
            "use_by": use_by,
            "own_use_by": use_by,
            "use_by_rule": rule,
        },
    )
    end = Movement(lot=-1, quantity=quantity.quanta, value=value, other_end="job", job_id=done.job_id, effect="base")
    if used_bath:
        end = replace(end, other_end="found", job_id=None)
    draft = Draft(
        kind="keep-bath",
        occasion=occasion,
        movements=(end,),
        new_lots=(lot,),
        job_id=done.job_id,
        details={"of": done.code, "typed": typed, "kind": kind},
    )
    posted = post(store, draft, booked_at)
    return BroughtBack(
        kind=kind,
        code=posted.lots[-1],
        name=bath.name,
        quantity=quantity,
        value=value,
        job=job_by_id(store, done.job_id).code if done.job_id else None,
        action=posted.code,
    )


def _share_of(store: Store, done: WorkDone, quantity: int, poured: int) -> int:
    """Return the share of a bath's cost that goes with what is left of it: its liquids and solids, not the sheets."""
    cost = 0
    for entry in ledger.entries_of_action(store, done.number):
        dimension = lot_by_id(store, entry.lot).material.dimension
        if _is_taken(entry) and dimension in (Dimension.VOLUME, Dimension.MASS):
            cost -= entry.value
    return round_half_even_ratio(cost * quantity, poured) if poured else 0


def _bath_material(store: Store, bath: Recipe) -> Material:
    """Return the material that a recipe's leftover bath is kept as, beginning it where there is none.

    Its hazards are those suggested for the recipe as it is now, until the studio edits them.
    """
    wanted = f"{BATH}{bath.key}"
    there = next((one for one in all_materials(store, retired=True) if one.key == wanted), None)
    if there is None:
        add_material(store, Material(key=wanted, name=bath.name, kind="bath", dimension=Dimension.VOLUME))
        there = find_material(store, wanted)
    suggested = suggested_for(store, there)
    if suggested and not edits_of(store, "material", wanted):
        there = replace(
            there,
            hazards=suggested.hazards,
            signal_word=suggested.signal_word,
            pictograms=suggested.pictograms,
            precautions=suggested.precautions,
            hazard_ground=suggested.ground,
        )
        change_material(store, there)
    return there
