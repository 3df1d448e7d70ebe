"""Undo an action: with the very values, on its own day, and only while nothing stands on it.

An undoing may itself be undone, which puts the action back in effect; undoing that once more undoes the action again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.keeping_counts import count_again, take_back_count
from stockroom.actions.posting import post
from stockroom.actions.telling import Told, tell
from stockroom.domain.ledger import Draft, Entry, Fact, Movement, Reworked
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.store import ledger, standing
from stockroom.store.counts import counts_of_action, held_at
from stockroom.store.history import WorkDone, action_by_number, actions_of_person, find_action
from stockroom.store.jobs import job_by_id
from stockroom.store.lots import lot_by_id, lots_begun_by
from stockroom.store.open import Store
from stockroom.store.orders import follow_order_of

STATE = ("state", "ended_on", "ended_why")
OPENED = ("opened_on", "use_by", "use_by_rule")
OF_THE_FILE = ("restore", "repair")
CARRIES_VALUE = ("price", "put-right")
LISTED = 10
PUT_RIGHT = "; what it drew can be put right all the same with put-right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Undoing(ActionOutcome):
    """An action that was undone, or put back in effect."""

    undone: Told
    back_in_effect: bool
    """Whether it was an undoing that was undone."""
    reworked: tuple[Reworked, ...] = ()


def last_actions(store: Store, occasion: Occasion) -> tuple[Told, ...]:
    """Return in words what this person booked last, newest first."""
    return tuple(tell(store, done, occasion.zone) for done in actions_of_person(store, occasion.by, LISTED))


def undo(
    store: Store,
    occasion: Occasion,
    code: str,
    *,
    dry_run: bool = False,
    confirmed: Undoing | None = None,
) -> Undoing:
    """Undo an action. Raises BadInput without a reason, Refused naming the day or the action that stands on it."""
    if not occasion.reason:
        raise BadInput("Why is it undone? Say --why, for example --why mistyped.")

    def build(booked_at: datetime) -> Undoing:
        done = _meant(store, find_action(store, code))
        if not done.in_effect:
            raise Refused(f"{done.code} was undone already, by {standing.undone_by(store, done.number)}.")
        if done.kind in OF_THE_FILE:
            raise Refused(f"{done.code} ({done.kind}) is of the file itself and cannot be undone. Nothing was changed.")
        entries = ledger.entries_of_action(store, done.number)
        _refuse_what_stands(store, done, entries)
        movements = _reversals(store, done, entries)
        draft = Draft(
            kind="undo",
            occasion=replace(occasion, at=occasion.now),
            movements=tuple(movements),
            facts=tuple(_facts_back(store, done, occasion)),
            job_id=done.job_id,
            undoes=done.number,
        )
        told = tell(store, done, occasion.zone)
        posted = post(store, draft, booked_at)
        first = done if done.undoes is None else action_by_number(store, done.undoes)
        if done.undoes is not None:
            _refuse_what_holds_no_more(store, first)
        standing.follow_booking(store, first.number)
        follow_order_of(store, first.number)
        if first.job_id is not None and first.kind in ("close-job", "reopen-job"):
            standing.follow_job(store, first.job_id)
        return Undoing(
            undone=told, back_in_effect=done.undoes is not None, reworked=posted.reworked, action=posted.code
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _refuse_what_holds_no_more(store: Store, first: WorkDone) -> None:
    """Raise Refused where a count would be put back whose difference cannot be booked for its day, which is closed."""
    for count in counts_of_action(store, first.number):
        if held_at(store, count.lot, count.at, count.action) != count.quantity:
            raise Refused(
                f"The books are closed for {count.day}: what {first.code} counted then is not put back any more. "
                "Count again."
            )


def _meant(store: Store, done: WorkDone) -> WorkDone:
    """Undoing what put an action back in effect means undoing that action again."""
    if done.undoes is None:
        return done
    first = action_by_number(store, done.undoes)
    return done if first.undoes is None else action_by_number(store, first.undoes)


def _reversals(store: Store, done: WorkDone, entries: list[Entry]) -> list[Movement]:
    """Return what takes an action's entries back; differences of counts are taken back, or counted again, as a whole.

    What keeps another action's count as counted is not reversed: posting reworks that count.
    """
    own = [entry for entry in entries if entry.count_action is None or not entry.quantity]
    movements = [reversal(store, entry) for entry in own]
    if done.undoes is None:
        for count in counts_of_action(store, done.number):
            movements += take_back_count(store, count)
    else:
        for count in counts_of_action(store, done.undoes):
            # what took the count back while its day was closed was booked for another day
            apart = [entry for entry in entries if entry.count_action == count.action and entry.day != count.day]
            movements += [reversal(store, entry) for entry in apart if entry.lot == count.lot and entry.quantity]
            movements += count_again(store, count, movements)
    return [movement for movement in movements if movement.quantity or movement.value]


def reversal(store: Store, entry: Entry) -> Movement:
    """Return what takes an entry back as it stands, with value put right later; a closed job keeps its figure."""
    later = [] if entry.refers else ledger.entries_referring(store, entry.place)
    other_end, job_id = entry.other_end, entry.job_id
    if job_id is not None and job_by_id(store, job_id).state == "closed":
        other_end, job_id = "difference", None
    return Movement(
        lot=entry.lot,
        quantity=-entry.quantity - sum(one.quantity for one in later),
        value=-entry.value - sum(one.value for one in later),
        other_end=other_end,
        other_lot=entry.other_lot,
        job_id=job_id,
        reason=entry.reason,
        effect="base",
        day=entry.day,
        at=entry.at,
        standing=entry.standing,
        reverses=entry.place,
        refers=entry.refers or entry.place,
        count_action=entry.count_action,
    )


def _facts_back(store: Store, done: WorkDone, occasion: Occasion) -> list[Fact]:
    """Return the facts that put lots back as they were before an action; what it began has ended."""
    begun = {lot.id for lot in lots_begun_by(store, done.number)}
    facts: list[Fact] = []
    for lot_id in sorted(begun):
        facts += [
            (lot_id, "state", "ended"),
            (lot_id, "ended_on", occasion.today.isoformat()),
            (lot_id, "ended_why", f"undone: {occasion.reason}"),
        ]
    for change in standing.changes_of_action(store, done.number):
        if change.lot in begun:
            continue
        changed = change.now != change.became or standing.changed_after(store, change.lot, done.number, change.field)
        drawn = change.field in OPENED and standing.drawn_after(store, change.lot, done.number)
        # what follows from the amount, and whether the lot has turned up or was opened by a later draw, stays true
        if not (changed and change.field in (*STATE, "look_for")) and not drawn:
            facts.append((change.lot, change.field, change.was))
    return facts


def _refuse_what_stands(store: Store, done: WorkDone, entries: list[Entry]) -> None:
    """Raise Refused naming the first later action that stands on this one, and why it does."""
    number = done.number
    if done.kind in ("close-books", "open-books"):
        raise Refused(
            "Closed books are opened again, and open ones closed, by 'stockroom close-books'; not by undoing."
        )
    _refuse(done, standing.put_right_after(store, number), "put it right")
    refuse_what_came_back(store, done)
    for lot in lots_begun_by(store, number):
        what = f"{lot.code} ({lot.material.name}), which it began"
        _refuse(done, standing.moved_after(store, lot.id, number), f"moved {what}", PUT_RIGHT)
        _refuse(done, standing.changed_after(store, lot.id, number), f"changed {what}")
    for entry in entries:
        if entry.reverses is not None:
            continue
        lot = lot_by_id(store, entry.lot)
        named = f"{lot.code} ({lot.material.name})"
        if entry.other_end == "lot" and entry.quantity > 0:
            later = standing.drawn_after(store, entry.lot, number)
            _refuse(done, later, f"drew on {named}, which it filled up", PUT_RIGHT)
        if done.kind in CARRIES_VALUE and not entry.quantity:
            _refuse(done, standing.moved_after(store, entry.lot, number), f"moved {named} at the value it gave")
    moves = {entry.lot for entry in entries}
    for change in standing.changes_of_action(store, number):
        if change.field in (*STATE, "look_for"):
            continue
        lot = lot_by_id(store, change.lot)
        named = f"{lot.code} ({lot.material.name})"
        drawn = standing.drawn_after(store, change.lot, number)
        if change.field in OPENED and drawn:
            _refuse(done, drawn if change.lot not in moves else None, f"drew on {named}")
            continue
        later = standing.changed_after(store, change.lot, number, change.field)
        _refuse(done, later, f"changed {named} since")


def refuse_what_came_back(store: Store, done: WorkDone, what: str = "taken back") -> None:
    """Raise Refused where part of what an action drew was brought back, or kept as a remainder of its bath.

    `what` is what cannot be done to it then.
    """
    back = standing.brought_back_after(store, done.number)
    _refuse(done, back, "brings back part of it", what=what)
    kept = standing.kept_of_bath_after(store, done.number, done.code)
    _refuse(done, kept, "keeps what was left of its bath", what=what)


def _refuse(done: WorkDone, later: str | None, why: str, hint: str = "", *, what: str = "taken back") -> None:
    if later is not None:
        raise Refused(
            f"{done.code} ({done.kind}) of {done.day} cannot be {what}: {later} stands on it, for it {why}. Undo "
            f"that first{hint}. Nothing was changed.",
            stands=later.split()[0],
            day=done.day,
        )
