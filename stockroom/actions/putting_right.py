"""Put a past draw right: the lot, job, object, day or amount that was meant, even where later draws stand on it.

Reversal and new entry are one action. What was made of the draw takes up the difference in value and passes it on;
a changed amount in a making changes the jar's stated strength from then on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.carrying_value import carry_value, reached_from, taken_up
from stockroom.actions.opening import opened_by_drawing
from stockroom.actions.posting import post, price_ahead
from stockroom.actions.restating import restated_strength
from stockroom.actions.taking import read_amount_of
from stockroom.actions.telling import Told, tell
from stockroom.actions.undoing import refuse_what_came_back, reversal
from stockroom.domain.jobs import Job
from stockroom.domain.ledger import Draft, Entry, Fact, Movement, Reworked
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion, from_utc_text
from stockroom.errors import BadInput, Refused
from stockroom.science.days import read_moment
from stockroom.science.quantities import Quantity, show
from stockroom.store import ledger, standing
from stockroom.store.history import WorkDone, find_action
from stockroom.store.jobs import find_job, find_object, job_by_id
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """What was meant, where it differs from what was booked; every text as typed."""

    lot: str | None = None
    job: str | None = None
    objects: tuple[str, ...] = ()
    day: str | None = None
    amount: str | None = None
    entry: int | None = None
    """Which draw of the action, counted from 1; needed for a lot or amount where it drew several times."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RightedDraw:
    """One draw as it was and as it is now; values in minor units."""

    was_code: str
    was: Quantity
    was_value: int
    code: str
    now: Quantity
    value: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PutRight(ActionOutcome):
    """A past action's draws put right."""

    of: Told
    draws: tuple[RightedDraw, ...]
    strengths: tuple[tuple[str, str | None, str | None], ...] = ()
    """Jars whose stated strength changed: code, as it was, as it is now."""
    earlier_uses: tuple[str, ...] = ()
    """Actions that drew from those jars at the strength stated before."""
    reworked: tuple[Reworked, ...] = ()


def put_right(
    store: Store,
    occasion: Occasion,
    code: str,
    meant: Meant,
    *,
    dry_run: bool = False,
    confirmed: PutRight | None = None,
) -> PutRight:
    """Put the draws of a past action right.

    Raises BadInput without a reason or a change, Refused where what was meant cannot be, or part came back already.
    """
    if not occasion.reason:
        raise BadInput("Why is it put right? Say --why, for example --why 'wrong bottle'.")
    if not (meant.lot or meant.job or meant.objects or meant.day or meant.amount):
        raise BadInput("What was meant? Say at least one of --lot, --job, --object, --day and --amount.")

    def build(booked_at: datetime) -> PutRight:
        done = find_action(store, code)
        told = tell(store, done, occasion.zone)
        drawn = _draws(store, done, meant)
        job = _job(store, done, meant)
        objects = tuple(find_object(job, words).id for words in meant.objects) if job else ()
        if not meant.objects and not meant.job:
            objects = standing.objects_of_action(store, done.number)
        now = replace(occasion, at=occasion.now)
        pairs = [(entry, _anew(store, occasion, entry, job, meant)) for entry in drawn]
        movements = [movement for entry, anew in pairs for movement in (reversal(store, entry), anew)]
        priced = price_ahead(store, Draft(kind="put-right", occasion=now, movements=tuple(movements)))
        righted = [
            _righted(store, entry, anew, priced[2 * index].value or 0, -(priced[2 * index + 1].value or 0))
            for index, (entry, anew) in enumerate(pairs)
        ]
        for (entry, anew), one in zip(pairs, righted, strict=True):
            movements += _taken_up(store, now, entry, anew, one.was_value, one.value)
        facts, restated, uses = _restated(store, done, pairs, now.day.isoformat())
        draft = Draft(
            kind="put-right",
            occasion=now,
            movements=tuple(movements),
            facts=tuple([*facts, *_opened(store, occasion, pairs)]),
            objects=objects,
            job_id=job.id if job else done.job_id,
            version_id=done.version_id,
            loan=standing.loan_of_action(store, done.number) if job is None else None,
            details={
                "puts_right": done.code,
                "was": [_line(store, entry) for entry in drawn],
                **({"earlier_uses": list(uses), "strengths": [list(one) for one in restated]} if restated else {}),
            },
        )
        posted = post(store, draft, booked_at)
        return PutRight(
            of=told,
            draws=tuple(righted),
            strengths=restated,
            earlier_uses=uses,
            reworked=posted.reworked,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _draws(store: Store, done: WorkDone, meant: Meant) -> list[Entry]:
    """Return the draws of an action that are put right."""
    if done.undoes is not None or not done.in_effect:
        raise Refused(f"{done.code} ({done.kind}) is not in effect, or an undoing: there is nothing to put right.")
    refuse_what_came_back(store, done, "put right")
    if done.kind == "pour":
        raise Refused(f"{done.code} poured one jar into another: undo it, and pour again as it was.")
    entries = ledger.entries_of_action(store, done.number)
    gone = {place for entry in entries for place in ledger.reversed_places(store, entry.lot)}
    own = [entry for entry in entries if entry.effect == "draw" and entry.count_action is None]
    draws = [entry for entry in own if entry.place not in gone]
    if not draws:
        hint = "Its draws were put right already; put that action right." if own else "It drew nothing."
        raise Refused(f"{done.code} ({done.kind}) has no draw to put right. {hint}")
    if meant.entry is not None:
        if not 1 <= meant.entry <= len(draws):
            raise BadInput(f"{done.code} has {len(draws)} draws; --entry {meant.entry} is none of them.")
        return [draws[meant.entry - 1]]
    if len(draws) > 1 and (meant.lot or meant.amount):
        listed = "; ".join(f"{number}: {_line(store, draw)}" for number, draw in enumerate(draws, 1))
        raise BadInput(f"{done.code} drew several times. Say which one with --entry: {listed}.")
    return draws


def _line(store: Store, entry: Entry) -> str:
    lot = lot_by_id(store, entry.lot)
    return f"{show(lot.material.quantity(-entry.quantity))} of {lot.material.name} ({lot.code})"


def _job(store: Store, done: WorkDone, meant: Meant) -> Job | None:
    """Return the job the draws belong to from now on."""
    if meant.job is None:
        job = job_by_id(store, done.job_id) if done.job_id is not None else None
        if meant.objects and job is None:
            raise BadInput(f"{done.code} ({done.kind}) was for no job: say --job as well as --object.")
    else:
        job = find_job(store, meant.job)
    if job is not None and job.state == "closed":
        raise Refused(
            f"Job {job.code} was closed on {job.closed_on}. Reopen it first: stockroom job reopen {job.code}."
        )
    return job


def _anew(store: Store, occasion: Occasion, entry: Entry, job: Job | None, meant: Meant) -> Movement:
    """Return the draw that was meant."""
    lot = lot_by_id(store, entry.lot)
    quantity = -entry.quantity
    other_end, job_id = entry.other_end, entry.job_id
    if entry.other_lot is not None and (meant.job or meant.day or meant.objects):
        raise Refused(
            f"{lot.code} went into {lot_by_id(store, entry.other_lot).code}. Which lot and how much can be put right; "
            "for another day undo the making and make it again."
        )
    if meant.lot:
        lot = _other_lot(store, lot, meant.lot)
    if entry.other_lot is not None:
        _refuse_round(store, entry.other_lot, lot, lot_by_id(store, entry.lot))
    if meant.amount:
        quantity = read_amount_of(lot, meant.amount).quantity.quanta
    if meant.job and job is not None:
        other_end, job_id = "job", job.id
    day, at = entry.day, entry.at
    order: int | None = entry.standing
    if meant.day:
        moment = read_moment(meant.day, zone=occasion.zone, today=occasion.today)
        if moment > occasion.now:
            raise BadInput(f"{meant.day} is still to come. Something is booked when it has happened.")
        moved = replace(occasion, at=moment)
        day, at, order = moved.day.isoformat(), moved.at_text, None
    return Movement(
        lot=lot.id,
        quantity=-quantity,
        other_end=other_end,
        other_lot=entry.other_lot,
        job_id=job_id,
        reason=None if job_id else entry.reason,
        day=day,
        at=at,
        standing=order,
    )


def _refuse_round(store: Store, jar_id: int, *lots: Lot) -> None:
    """Raise Refused where a jar's own contents went into a lot that it is to be made from."""
    reached = reached_from(store, jar_id)
    for lot in lots:
        if lot.id in reached:
            jar = lot_by_id(store, jar_id)
            raise Refused(
                f"{lot.code} ({lot.material.name}) holds some of {jar.code}: its draw for {jar.code} cannot be put "
                "right. Nothing was changed."
            )


def _other_lot(store: Store, lot: Lot, code: str) -> Lot:
    other = find_lot(store, code)
    if other.material.dimension is not lot.material.dimension:
        raise Refused(
            f"{other.code} ({other.material.name}) is measured by {other.material.dimension.value}, {lot.code} by "
            f"{lot.material.dimension.value}. Say the amount of that lot with --amount."
        )
    return other


def _taken_up(store: Store, now: Occasion, entry: Entry, anew: Movement, was: int, value: int) -> list[Movement]:
    """Let the jar take up the difference in value, and pass it on to what was drawn from it since.

    The jar takes it up on the draw's own day, so that both ends of the value have one day.
    """
    jar = entry.other_lot
    if jar is None:
        return []
    changes = [(anew.lot, value), (entry.lot, -was)] if anew.lot != entry.lot else [(entry.lot, value - was)]
    movements = [taken_up(jar, lot, change, entry.day, entry.at, entry.standing) for lot, change in changes if change]
    return movements + (carry_value(store, now, jar, value - was, entry.standing) if value != was else [])


def _opened(store: Store, occasion: Occasion, pairs: list[tuple[Entry, Movement]]) -> list[Fact]:
    """A closed bottle that was drawn from after all was opened then."""
    facts: list[Fact] = []
    for entry, anew in pairs:
        if anew.lot != entry.lot:
            facts += opened_by_drawing([lot_by_id(store, anew.lot)], replace(occasion, at=from_utc_text(anew.at)))
    return facts


def _restated(
    store: Store, done: WorkDone, pairs: list[tuple[Entry, Movement]], day: str
) -> tuple[list[Fact], tuple[tuple[str, str | None, str | None], ...], tuple[str, ...]]:
    """Return the facts for jars whose strength is another one now, and the actions that used them before."""
    facts: list[Fact] = []
    restated: list[tuple[str, str | None, str | None]] = []
    uses: list[str] = []
    for entry, anew in pairs:
        if entry.other_lot is None:
            continue
        jar, lot = lot_by_id(store, entry.other_lot), lot_by_id(store, anew.lot)
        into = ledger.entries_into_lot(store, jar.id)
        strength = restated_strength(store, done.version_id, jar, into, entry, lot, -anew.quantity, day)
        if strength != jar.strength:
            facts.append((jar.id, "strength", strength))
            restated.append((jar.code, jar.strength, strength))
            uses += standing.uses_after(store, jar.id, done.number)
    return facts, tuple(restated), tuple(dict.fromkeys(uses))


def _righted(store: Store, entry: Entry, anew: Movement, was: int, value: int) -> RightedDraw:
    before, after = lot_by_id(store, entry.lot), lot_by_id(store, anew.lot)
    return RightedDraw(
        was_code=before.code,
        was=before.material.quantity(-entry.quantity),
        was_value=was,
        code=after.code,
        now=after.material.quantity(-anew.quantity),
        value=value,
    )
