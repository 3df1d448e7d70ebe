"""Take a little of one lot, or send it back to where it was bought."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Self

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.contents import thing_of
from stockroom.actions.drawn import Drawn, Missing, drawn_lines, refuse_short
from stockroom.actions.jobs import refuse_closed
from stockroom.actions.lots_here import lot_here, unfit_all_the_same
from stockroom.actions.offcuts import NO_OFFCUTS, KeptOffcut, Offcuts, kept_offcuts, plan_offcuts, read_piece
from stockroom.actions.opening import opened_by_drawing
from stockroom.actions.posting import post
from stockroom.actions.precautions import met_earlier
from stockroom.domain.jobs import Job, JobObject
from stockroom.domain.ledger import Draft, Movement, Reworked, price_draw
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.science.cautions import Caution, cautions_for_same_day, cautions_for_spill
from stockroom.science.days import read_day
from stockroom.science.quantities import Quantity, show
from stockroom.science.reading import Read, read_quantity
from stockroom.store import ledger
from stockroom.store.jobs import find_job, find_object
from stockroom.store.lots import find_lot
from stockroom.store.open import Store

REASONS = {
    "spilled": "waste",
    "broken": "waste",
    "lent": "studio",
    "given": "studio",
    "test": "studio",
    "cleaning": "studio",
}
"""Why a little is taken without a job, and where its value goes."""

SPILT = ("spilled", "broken")
"""The reasons after which something has to be done first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking(ActionOutcome):
    """What was taken from one lot."""

    kind: str
    code: str
    name: str
    drawn: tuple[Drawn, ...]
    cost: int
    left: Quantity
    job: str | None = None
    ended: bool = False
    offcuts: tuple[KeptOffcut, ...] = ()
    reworked: tuple[Reworked, ...] = ()
    """Later counts that were kept as counted."""
    to: str | None = None
    """Where it was thrown away: drain, bin, or the code of a waste can."""
    cautions: tuple[Caution, ...] = ()
    loan: tuple[str, str | None] | None = None
    """Whom it is lent to, and the day it is to be back."""

    def as_plan(self) -> Self:
        return replace(self, action=None, offcuts=tuple(replace(one, code=None) for one in self.offcuts))


def read_amount_of(lot: Lot, typed: str, *, allow_zero: bool = False) -> Read:
    """Read an amount of a lot's material: its own pack words, its density. Raises Unreadable."""
    material = lot.material
    packs = dict(material.packs)
    if lot.sheet_mm2:
        packs["sheet"] = Quantity(material.dimension, lot.sheet_mm2)
    return read_quantity(
        typed, expect=material.dimension, packs=packs, density_g_per_ml=material.liquid_density, allow_zero=allow_zero
    )


def take(
    store: Store,
    occasion: Occasion,
    code: str,
    typed: str,
    *,
    job: str | None = None,
    objects: tuple[str, ...] = (),
    reason: str | None = None,
    to_whom: str | None = None,
    back_on: str | None = None,
    count_first: bool = False,
    keep_offcuts: tuple[str, ...] = (),
    dry_run: bool = False,
    confirmed: Taking | None = None,
) -> Taking:
    """Take some of a lot for a job, or for a reason of `REASONS`.

    With `count_first`, what is taken beyond the books is booked as found. `keep_offcuts` are the sizes of what goes
    back to the shelf of the sheet that a piece is cut from; what is left of it goes with the piece. Raises Short where
    the lot does not hold it, Refused for a lot that is not fit and no reason given, BadInput where neither job nor
    reason is known, or the sheet does not give that.
    """
    if job is None and reason not in REASONS:
        given = f"'{reason}' is not one of the reasons. " if reason else ""
        raise BadInput(f"{given}What is it taken for? Say --job J, or --why {'|'.join(REASONS)}.")
    if objects and job is None:
        raise BadInput("--object goes with --job: say which job it belongs to.")
    if (to_whom or back_on) and reason != "lent":
        raise BadInput("--to and --back go with --why lent.")
    back = read_day(back_on, today=occasion.today).isoformat() if back_on else None

    def build(booked_at: datetime) -> Taking:
        lot = lot_here(store, occasion, code)
        if lot.kind == "waste can":
            raise Refused(f"{lot.code} ({lot.material.name}) is a waste can: nothing is taken from it.")
        wanted = find_job(store, job) if job else None
        if wanted:
            refuse_closed(wanted)
        named = tuple(find_object(wanted, words) for words in objects) if wanted else ()
        quantity = read_amount_of(lot, typed).quantity.quanta
        cautions = _cautions(store, occasion, lot, wanted, named, reason)
        override = unfit_all_the_same(lot, occasion) if wanted else None
        found = beyond_the_books(store, occasion, lot, quantity, count_first)
        held = found + ledger.available(store, lot.id, occasion)
        cut = plan_offcuts(lot, held, quantity, [read_piece(typed)] if keep_offcuts else [], keep_offcuts)
        movements = [found_movement(lot.id, found)] if found else []
        movements += cut.movements
        movements.append(
            Movement(
                lot=lot.id,
                quantity=-quantity - cut.trim,
                other_end="job" if wanted else REASONS[reason or ""],
                job_id=wanted.id if wanted else None,
                reason=None if wanted else reason,
            )
        )
        draft = Draft(
            kind="take",
            occasion=occasion,
            movements=tuple(movements),
            new_lots=cut.lots,
            facts=tuple(opened_by_drawing([lot], occasion)),
            objects=tuple(thing.id for thing in named),
            job_id=wanted.id if wanted else None,
            loan=(to_whom or "someone not named", back) if reason == "lent" and not wanted else None,
            details={"typed": typed, **({"overrides": {lot.code: override}} if override else {})},
        )
        done = taken(store, draft, lot, wanted, override, booked_at, cut)
        return replace(done, cautions=cautions, loan=draft.loan)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _cautions(
    store: Store, occasion: Occasion, lot: Lot, job: Job | None, objects: Sequence[JobObject], reason: str | None
) -> tuple[Caution, ...]:
    """Say what to do first where something was spilt or broken, and what the job's objects met earlier that day."""
    if job:
        earlier = met_earlier(store, occasion, job, objects or job.objects)
        return cautions_for_same_day(earlier, [thing_of(store, lot)])
    return cautions_for_spill(thing_of(store, lot)) if reason in SPILT else ()


def return_lot(
    store: Store,
    occasion: Occasion,
    code: str,
    typed: str,
    credit: int,
    *,
    dry_run: bool = False,
    confirmed: Taking | None = None,
) -> Taking:
    """Send some of a bought lot back: what was bought falls by the credit, the rest of its value is waste.

    A credit above the lot's value leaves the surplus as a difference. Raises Refused for what was not bought.
    """
    if not occasion.reason:
        raise BadInput("Why does it go back? Say --why.")
    if credit < 0:
        raise BadInput("A credit cannot be less than nothing.")

    def build(booked_at: datetime) -> Taking:
        lot = lot_here(store, occasion, code)
        if lot.kind != "bought":
            raise Refused(f"{lot.code} was not bought, so it cannot go back to a supplier. Discard it instead.")
        quantity = read_amount_of(lot, typed).quantity.quanta
        beyond_the_books(store, occasion, lot, quantity)
        value = price_draw(lot.balance, quantity)
        movements = [Movement(lot=lot.id, quantity=-quantity, value=-credit, other_end="supplier", effect="base")]
        if credit > value:
            movements.append(
                Movement(lot=lot.id, quantity=0, value=credit - value, other_end="difference", effect="base")
            )
        elif credit < value:
            rest = Movement(lot=lot.id, quantity=0, value=credit - value, other_end="waste", effect="base")
            movements.append(replace(rest, reason=occasion.reason))
        draft = Draft(kind="return", occasion=occasion, movements=tuple(movements), details={"typed": typed})
        sent = Drawn(
            code=lot.code,
            material=lot.material.key,
            name=lot.material.name,
            quantity=lot.material.quantity(quantity),
            value=value,
            cost_known=lot.cost_known,
        )
        return replace(taken(store, draft, lot, None, None, booked_at), drawn=(sent,), cost=value)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def found_movement(lot_id: int, quantity: int) -> Movement:
    """Return the movement that books more than the books held as found, without value."""
    return Movement(lot=lot_id, quantity=quantity, value=0, other_end="found", effect="base", reason="counted first")


def beyond_the_books(store: Store, occasion: Occasion, lot: Lot, quantity: int, count_first: bool | None = None) -> int:
    """Return how much more than the books hold is asked for; None for `count_first` is where that is no way out.

    Raises Short unless it is to be booked as found.
    """
    held = ledger.available(store, lot.id, occasion)
    if quantity <= held:
        return 0
    if not count_first:
        missing = Missing(
            material=lot.material.key,
            name=f"{lot.material.name} in {lot.code}",
            needed=lot.material.quantity(quantity),
            available=lot.material.quantity(held),
        )
        way_out = f"count it first: 'stockroom count {lot.code} QTY'."
        if count_first is not None:
            way_out = "--count-first books the rest as found and then draws."
        refuse_short([missing], f"If it does hold that much, {way_out}")
    return quantity - held


def taken(
    store: Store,
    draft: Draft,
    lot: Lot,
    job: Job | None,
    override: str | None,
    booked_at: datetime,
    cut: Offcuts = NO_OFFCUTS,
) -> Taking:
    posted = post(store, draft, booked_at)
    entries = [entry for entry in posted.entries if not (cut.lots and entry.other_end == "lot")]
    after = find_lot(store, lot.code)
    overrides = {lot.id: override} if override else {}
    own = [entry for entry in entries if entry.lot == lot.id and entry.count_action is None]
    return Taking(
        kind=draft.kind,
        code=lot.code,
        name=lot.material.name,
        drawn=drawn_lines(entries, {lot.id: lot}, overrides),
        cost=-sum(entry.value for entry in own if entry.effect == "draw"),
        left=after.amount,
        job=job.code if job else None,
        ended=after.ended,
        offcuts=kept_offcuts(store, cut, posted.lots),
        reworked=posted.reworked,
        action=posted.code,
    )


def told(taking: Taking) -> str:
    """Say what was taken and what is left, for a person."""
    what = ", ".join(f"{show(one.quantity)} of {one.name} ({one.code})" for one in taking.drawn) or taking.name
    left = "nothing left" if not taking.left.quanta else f"{show(taking.left)} left"
    return f"{what}; {left}"
