"""What was drawn from which lot for what, as it stands: reversals, returns and puttings-right counted in."""

from __future__ import annotations

import json
from dataclasses import dataclass

from stockroom.store.open import Row, Store

_DRAW = (
    "SELECT entry.action_number, entry.position, entry.lot_id, entry.other_lot_id, entry.job_id, "
    "entry.day, entry.at, -entry.quantity - coalesce((SELECT sum(back.quantity) FROM entry AS back "
    "WHERE back.refers_action = entry.action_number AND back.refers_position = entry.position), 0) AS quanta "
    "FROM entry WHERE entry.effect = 'draw' AND entry.count_action IS NULL AND entry.other_end IN ('lot', 'job') AND "
)
_IN_EFFECT = "action.number NOT IN (SELECT action_number FROM undone)"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOff:
    """So much of a lot that went into another lot or to a job, less what was reversed or came back."""

    action: int
    day: str
    at: str
    """When it happened, also where it was put right later."""
    lot: int
    quanta: int
    into: int | None
    """The lot it went into."""
    job_id: int | None


def draws_from(store: Store, lot_id: int) -> list[DrawnOff]:
    """Return what was drawn from a lot, in order of booking."""
    return _draws(store, "entry.lot_id = :id", lot_id)


def draws_into(store: Store, lot_id: int) -> list[DrawnOff]:
    """Return what went into a lot when it was made or filled up, in order of booking."""
    return _draws(store, "entry.other_lot_id = :id", lot_id)


def draws_for_job(store: Store, job_id: int) -> list[DrawnOff]:
    """Return what was drawn for a job, in order of booking."""
    return _draws(store, "entry.job_id = :id", job_id)


def draws_on_day(store: Store, job_id: int, day: str, at: str) -> list[DrawnOff]:
    """Return what was drawn for a job on a day, up to a moment."""
    return _draws(store, "entry.job_id = :id AND entry.day = :day AND entry.at <= :at", job_id, day=day, at=at)


def _draws(store: Store, which: str, value: int, **more: str) -> list[DrawnOff]:
    rows = store.rows(f"{_DRAW}{which} ORDER BY entry.action_number, entry.position", id=value, **more)
    return [_drawn_off(row) for row in rows if row["quanta"] > 0]


def _drawn_off(row: Row) -> DrawnOff:
    return DrawnOff(
        action=row["action_number"],
        day=row["day"],
        at=row["at"],
        lot=row["lot_id"],
        quanta=row["quanta"],
        into=row["other_lot_id"],
        job_id=row["job_id"],
    )


def draws_of_bath(store: Store, lot_id: int) -> list[DrawnOff]:
    """Return the liquids and powders of the bath that a lot is what was left of; none for any other lot."""
    row = store.row(
        "SELECT action.details, action.job_id FROM lot JOIN action ON action.number = lot.begun_by "
        f"WHERE lot.id = :lot AND action.kind = 'keep-bath' AND {_IN_EFFECT}",
        lot=lot_id,
    )
    if row is None:
        return []
    own = _put_right_too(store, json.loads(row["details"])["of"])
    mixed = "SELECT dimension FROM material JOIN lot ON lot.material_id = material.id WHERE lot.id = entry.lot_id"
    rows = _draws(store, f"entry.job_id = :id AND ({mixed}) IN ('mass', 'volume')", row["job_id"])
    return [draw for draw in rows if draw.action in own]


def baths_left_of(store: Store, action: int) -> list[int]:
    """Return the lots that are what was left of the bath of an action."""
    row = store.row("SELECT job_id FROM action WHERE number = :n", n=action)
    rows = store.rows(
        "SELECT lot.id, action.details FROM lot JOIN action ON action.number = lot.begun_by "
        f"WHERE action.kind = 'keep-bath' AND action.job_id = :job AND {_IN_EFFECT} ORDER BY lot.id",
        job=row["job_id"] if row else None,
    )
    return [row["id"] for row in rows if action in _put_right_too(store, json.loads(row["details"])["of"])]


def _put_right_too(store: Store, code: str) -> set[int]:
    """Return the number of an action and of those that put its draws right."""
    row = store.row("SELECT number, job_id FROM action WHERE code = :code", code=code)
    if row is None:
        return set()
    found = {code: row["number"]}
    later = store.rows(
        "SELECT number, code, details FROM action WHERE kind = 'put-right' AND number > :n ORDER BY number",
        n=row["number"],
    )
    for one in later:
        if json.loads(one["details"])["puts_right"] in found:
            found[one["code"]] = one["number"]
    return set(found.values())


def lots_behind(store: Store, lot_id: int) -> set[int]:
    """Return every lot that some of this one was made from, to any depth."""
    found: set[int] = set()
    waiting = [lot_id]
    while waiting:
        one = waiting.pop()
        for draw in (*draws_into(store, one), *draws_of_bath(store, one)):
            if draw.lot not in found:
                found.add(draw.lot)
                waiting.append(draw.lot)
    return found - {lot_id}


def said_before(store: Store, lot_id: int, field: str, action: int) -> str | None:
    """Return what a lot's field said when an action was booked: as the first later change found it, else as it is."""
    row = store.row(
        "SELECT was FROM fact WHERE lot_id = :lot AND field = :field AND action_number > :n "
        "ORDER BY action_number, position LIMIT 1",
        lot=lot_id,
        field=field,
        n=action,
    )
    if row is None:
        row = store.row(f"SELECT {field} AS was FROM lot WHERE id = :lot", lot=lot_id)
    return None if row is None or row["was"] is None else str(row["was"])


def said_over_time(store: Store, lot_id: int, field: str) -> list[str | None]:
    """Return all that a lot's field said before each of its changes, oldest first."""
    rows = store.rows(
        "SELECT was FROM fact WHERE lot_id = :lot AND field = :field ORDER BY action_number, position",
        lot=lot_id,
        field=field,
    )
    return [row["was"] for row in rows]
