"""When a jar must be made afresh, why, how much, and by when to begin; judged without any table of the sciences."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from stockroom.domain.lots import Lot
from stockroom.domain.open_days import ALWAYS_OPEN, OpenDays
from stockroom.domain.recipes import RecipeVersion
from stockroom.planning.due import FAILED_CHECK
from stockroom.planning.fitness import has_passed, spoken
from stockroom.planning.picking import Held, pick
from stockroom.science.lives import life_end, read_life
from stockroom.science.quantities import Quantity, show

RANK = ("failed check", "use-by", "overdue check", "volume", "solid", "trend")
"""Of reasons for the same day, the earlier here is told first."""

_LONGEST_DAYS = {"days": 1, "weeks": 7, "months": 31, "years": 366}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One thing that ends a jar."""

    reason: str
    """One of RANK."""
    by: str | None
    """Day or minute, ISO local; None where it holds from the next refill on, whenever that is."""
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """So many quanta of a material for one booking."""

    booking: str
    day: str
    quantity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Remake:
    """When to make a jar afresh and why, how much, and by when to begin."""

    by: str | None
    reason: str
    why: str
    make: Quantity | None
    """What bookings would lack without it, in whole usual batches; None where they lack nothing."""
    start_by: str | None
    others: tuple[Reason, ...] = ()


def date_reasons(lot: Lot, local: datetime) -> list[Reason]:
    """Return what the jar's own dates and marks say against it at a local moment. Of nothing, no check is missed."""
    reasons: list[Reason] = []
    if (lot.unfit or "").startswith(FAILED_CHECK):
        reasons.append(Reason(reason="failed check", by=local.date().isoformat(), why=lot.unfit or ""))
    if lot.use_by:
        why = f"use by {spoken(lot.use_by)} ({lot.use_by_rule or 'its date'})"
        reasons.append(Reason(reason="use-by", by=lot.use_by, why=why))
    if lot.check_by and lot.balance.quantity and has_passed(lot.check_by, local):
        why = f"its check was due by {spoken(lot.check_by)}; a check that passes takes this away"
        reasons.append(Reason(reason="overdue check", by=lot.check_by, why=why))
    return reasons


def lacking(
    lots: Sequence[Lot], needed: Sequence[Needed], zone: tzinfo | None, gone: tuple[int, str] | None = None
) -> list[tuple[Needed, int]]:
    """Meet the bookings of one material by day, oldest dates first; return those that lack something, in quanta.

    `gone` is a lot that is there no more from a day on.
    """
    left = {lot.id: lot.balance.quantity for lot in lots}
    short: list[tuple[Needed, int]] = []
    for one in sorted(needed, key=lambda need: need.day):
        noon = datetime.combine(datetime.fromisoformat(one.day).date(), time(12), zone)
        there = [lot for lot in lots if gone is None or lot.id != gone[0] or one.day < gone[1][:10]]
        picked = pick([Held(lot=lot, available=left[lot.id]) for lot in there], one.quantity, noon)
        for draw in picked.draws:
            left[draw.lot.id] -= draw.quantity
        if picked.missing:
            short.append((one, picked.missing))
    return short


def volume_reason(lots: Sequence[Lot], needed: Sequence[Needed], local: datetime) -> Reason | None:
    """Return the first booking that all jars of the material together cannot meet."""
    short = lacking(lots, needed, local.tzinfo)
    if not short:
        return None
    first, missing = short[0]
    material = lots[0].material
    there = material.quantity(first.quantity - missing)
    why = f"{show(material.quantity(first.quantity))} needed for {first.booking} on {first.day}, "
    return Reason(reason="volume", by=first.day, why=f"{why}{show(there)} of it will be fit to use")


def solid_reason(lot: Lot, refills: str, short_on: str | None, local: datetime) -> Reason:
    """Tell of a jar whose solid may not saturate its next refill; it ends when the liquid runs out.

    `refills` says how many refills of what size it can still saturate.
    """
    empty = lot.state == "solid only" or not lot.balance.quantity
    by = local.date().isoformat() if empty else short_on
    why = f"the solid left saturates {refills}: do not rely on topping it up"
    return Reason(reason="solid", by=by, why=why)


def plan_remake(
    lot: Lot,
    reasons: Sequence[Reason],
    lots: Sequence[Lot],
    needed: Sequence[Needed],
    version: RecipeVersion | None,
    local: datetime,
    studio: OpenDays = ALWAYS_OPEN,
) -> Remake | None:
    """Choose the earliest reason, and say how much to make and by when to begin. None where nothing ends the jar.

    `lots` are all of its material, `needed` what is booked of it, `version` its stock recipe's newest.
    """
    order = sorted(reasons, key=lambda one: (one.by is None, (one.by or "")[:10], RANK.index(one.reason)))
    if not order:
        return None
    first, *others = order
    # a jar that only runs out is drawn to its end: what it holds is not made again
    gone = lot.id if first.reason != "volume" else None
    make = _amount(lot, gone, first.by, lots, needed, version, local) if first.by else None
    start, why = None, first.why
    if first.by and version:
        latest = date.fromisoformat(start_by(first.by, version.ready_after))
        start = studio.last_open(latest).isoformat()
        if version.ready_after and start < local.date().isoformat():
            ready = life_end(local, read_life(version.ready_after)).text()
            why = f"{why.removesuffix('.')}; begun now, the next is ready {spoken(ready)}"
    return Remake(by=first.by, reason=first.reason, why=why, make=make, start_by=start, others=tuple(others))


def start_by(by: str, wait: str | None) -> str:
    """Return the last day to begin, so that it is ready by a day (its noon) or minute; months at 31 days."""
    moment = datetime.fromisoformat(by if "T" in by else f"{by}T12:00")
    if wait is None:
        return moment.date().isoformat()
    life = read_life(wait)
    if life.unit == "hours":
        return (moment - timedelta(hours=life.number)).date().isoformat()
    return (moment.date() - timedelta(days=life.number * _LONGEST_DAYS[life.unit])).isoformat()


def _amount(
    lot: Lot,
    gone: int | None,
    by: str,
    lots: Sequence[Lot],
    needed: Sequence[Needed],
    version: RecipeVersion | None,
    local: datetime,
) -> Quantity | None:
    """Return what bookings lack, without a lot that is gone, within the next jar's life, in whole usual batches."""
    short = lacking(lots, needed, local.tzinfo, gone=None if gone is None else (gone, by))
    if short and version and version.life:
        made = max(local, datetime.fromisoformat(by[:10]).replace(hour=12, tzinfo=local.tzinfo))
        last = life_end(made, read_life(version.life)).text()
        short = [(one, missing) for one, missing in short if one.day <= last[:10]]
    missing = sum(amount for _, amount in short)
    if not missing:
        return None
    if version and version.batch and version.batch.dimension is lot.material.dimension:
        batch = version.batch.quanta
        missing = -(-missing // batch) * batch
    return lot.material.quantity(missing)
