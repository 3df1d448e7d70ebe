"""What stands on an action: what was booked after it, is in effect and would lose its ground without it.

An action and the undoing of it, both booked later, cancel out and stand on nothing; nor does an undoing that was
itself undone.
"""

from __future__ import annotations

import json
from dataclasses import dataclass

from stockroom.store.open import Store

_LATER = (
    "action.number > :n AND action.number NOT IN (SELECT action_number FROM undone) "
    "AND (action.undoes IS NULL OR action.undoes <= :n)"
)
_OWN = "(entry.count_action IS NULL OR entry.count_action = entry.action_number)"
"""Entries of an action itself, not those that kept another one's count as counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One fact: a lot's field, what it said before the action and after it, as text, and what it says now."""

    lot: int
    field: str
    was: str | None
    became: str | None
    now: str | None


def _first(store: Store, sql: str, **named: object) -> str | None:
    row = store.row(f"{sql} ORDER BY action.number LIMIT 1", **named)
    return f"{row['code']} ({row['kind']})" if row else None


def brought_back_after(store: Store, number: int) -> str | None:
    """Name the first later action that brings back part of what an action drew."""
    return _first(
        store,
        "SELECT action.code, action.kind FROM action JOIN entry ON entry.action_number = action.number "
        f"WHERE entry.refers_action = :n AND entry.reverses_action IS NULL AND entry.quantity > 0 AND {_LATER}",
        n=number,
    )


def kept_of_bath_after(store: Store, number: int, code: str) -> str | None:
    """Name the first later action that kept what was left of the bath an action used."""
    rows = store.rows(
        f"SELECT action.code, action.kind, action.details FROM action WHERE action.kind = 'keep-bath' AND {_LATER} "
        "ORDER BY action.number",
        n=number,
    )
    return next((f"{row['code']} ({row['kind']})" for row in rows if json.loads(row["details"])["of"] == code), None)


def put_right_after(store: Store, number: int) -> str | None:
    """Name the first later action that put an entry of this one right."""
    return _first(
        store,
        "SELECT action.code, action.kind FROM action JOIN entry ON entry.action_number = action.number "
        f"WHERE entry.reverses_action = :n AND {_LATER}",
        n=number,
    )


def moved_after(store: Store, lot_id: int, number: int) -> str | None:
    """Name the first later action that moves, counts or prices a lot."""
    return _first(
        store,
        "SELECT action.code, action.kind FROM action WHERE (EXISTS (SELECT entry.position FROM entry "
        f"WHERE entry.action_number = action.number AND entry.lot_id = :lot AND {_OWN}) "
        "OR EXISTS (SELECT counted.lot_id FROM counted WHERE counted.action_number = action.number "
        f"AND counted.lot_id = :lot)) AND {_LATER}",
        n=number,
        lot=lot_id,
    )


def drawn_after(store: Store, lot_id: int, number: int) -> str | None:
    """Name the first later action that takes some out of a lot."""
    return _first(
        store,
        "SELECT action.code, action.kind FROM action JOIN entry ON entry.action_number = action.number "
        f"WHERE entry.lot_id = :lot AND entry.quantity < 0 AND {_OWN} AND {_LATER}",
        n=number,
        lot=lot_id,
    )


def uses_after(store: Store, lot_id: int, number: int) -> list[str]:
    """Return the codes of the later actions that took some out of a lot, in order of booking."""
    rows = store.rows(
        "SELECT DISTINCT action.number, action.code FROM action JOIN entry ON entry.action_number = action.number "
        f"WHERE entry.lot_id = :lot AND entry.quantity < 0 AND {_OWN} AND {_LATER} ORDER BY action.number",
        n=number,
        lot=lot_id,
    )
    return [row["code"] for row in rows]


def changed_after(store: Store, lot_id: int, number: int, field: str | None = None) -> str | None:
    """Name the first later action that changes a fact of a lot: one field, or any."""
    return _first(
        store,
        "SELECT action.code, action.kind FROM action JOIN fact ON fact.action_number = action.number "
        f"WHERE fact.lot_id = :lot AND (:field IS NULL OR fact.field = :field) AND {_LATER}",
        n=number,
        lot=lot_id,
        field=field,
    )


def changes_of_action(store: Store, number: int) -> list[Change]:
    """Return what an action changed in lots: for each field what it said first before, and last after."""
    rows = store.rows(
        "SELECT lot_id, field, was, became FROM fact WHERE action_number = :n ORDER BY position", n=number
    )
    found: dict[tuple[int, str], Change] = {}
    for row in rows:
        key = (row["lot_id"], row["field"])
        was = found[key].was if key in found else row["was"]
        lot = store.row(f"SELECT {row['field']} AS now FROM lot WHERE id = :lot", lot=row["lot_id"])
        now = None if lot is None or lot["now"] is None else str(lot["now"])
        found[key] = Change(lot=row["lot_id"], field=row["field"], was=was, became=row["became"], now=now)
    return list(found.values())


def objects_of_action(store: Store, number: int) -> tuple[int, ...]:
    """Return the objects that an action names."""
    rows = store.rows("SELECT object_id FROM action_object WHERE action_number = :n ORDER BY object_id", n=number)
    return tuple(row["object_id"] for row in rows)


def loan_of_action(store: Store, number: int) -> tuple[str, str | None] | None:
    """Return to whom something was lent, and until when."""
    row = store.row("SELECT to_whom, back_on FROM loan WHERE action_number = :n", n=number)
    return (row["to_whom"], row["back_on"]) if row else None


def undone_by(store: Store, number: int) -> str | None:
    """Name the action in effect that undoes one."""
    row = store.row(
        "SELECT code FROM action WHERE undoes = :n AND number NOT IN (SELECT action_number FROM undone)", n=number
    )
    return row["code"] if row else None


def follow_job(store: Store, job_id: int) -> None:
    """Set a job's state to what its actions in effect say: the last that closed or reopened it."""
    row = store.row(
        "SELECT kind, day FROM action WHERE job_id = :job AND kind IN ('close-job', 'reopen-job') "
        "AND number NOT IN (SELECT action_number FROM undone) ORDER BY number DESC LIMIT 1",
        job=job_id,
    )
    closed = row is not None and row["kind"] == "close-job"
    day = row["day"] if row and closed else None
    store.update("job", job_id, state="closed" if closed else "open", closed_on=day)


def follow_booking(store: Store, number: int) -> None:
    """Set the booking that an action did to done while it is in effect, and to booked again while it is undone."""
    store.run(
        "UPDATE booking SET state = 'booked', done_by = NULL WHERE done_by = :n AND state = 'done' "
        "AND :n IN (SELECT action_number FROM undone)",
        n=number,
    )
    store.run(
        "UPDATE booking SET state = 'done', done_by = :n WHERE state = 'booked' "
        "AND id = (SELECT booking_id FROM action WHERE number = :n) AND :n NOT IN (SELECT action_number FROM undone)",
        n=number,
    )
