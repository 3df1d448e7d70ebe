"""What the books say as of a day: by when things happened, or by when they were booked."""

from __future__ import annotations

import json
from dataclasses import dataclass

from stockroom.domain.ledger import Entry
from stockroom.store.ledger import entry_of
from stockroom.store.open import Store

_WITHIN = "(:day IS NULL OR {day} <= :day) AND (:before IS NULL OR action.booked_at < :before)"
_ENTRIES = f"FROM entry JOIN action ON action.number = entry.action_number WHERE {_WITHIN.format(day='entry.day')}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AsOf:
    """Up to when the books are read: one of the two."""

    day: str | None = None
    """What happened up to this day, that day too."""
    before: str | None = None
    """What was booked before this moment (UTC text)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndSum:
    """What of one lot went to one end, or came from it, for one reason; into the lot is above nothing."""

    lot_id: int
    other_end: str
    job_id: int | None
    reason: str | None
    quantity: int
    value: int


def sums_as_of(store: Store, as_of: AsOf, since: str | None = None) -> list[EndSum]:
    """Add entries up by lot, other end, job and reason; with `since`, only of what happened from that day on."""
    rows = store.rows(
        "SELECT entry.lot_id AS lot_id, entry.other_end AS other_end, entry.job_id AS job_id, entry.reason AS reason, "
        f"sum(entry.quantity) AS quantity, sum(entry.value) AS value {_ENTRIES} "
        "AND (:since IS NULL OR entry.day >= :since) "
        "GROUP BY entry.lot_id, entry.other_end, entry.job_id, entry.reason ORDER BY entry.lot_id",
        day=as_of.day,
        before=as_of.before,
        since=since,
    )
    return [EndSum(**dict(row)) for row in rows]


def places_as_of(store: Store, as_of: AsOf) -> dict[int, str]:
    """Return where each lot was: its id, and the place's name; lots without a place are left out."""
    rows = store.rows(
        "SELECT fact.lot_id AS lot_id, fact.became AS became FROM fact "
        "JOIN action ON action.number = fact.action_number "
        f"WHERE fact.field = 'place_id' AND {_WITHIN.format(day='action.day')} ORDER BY fact.action_number, position",
        day=as_of.day,
        before=as_of.before,
    )
    names = {str(row["id"]): str(row["name"]) for row in store.rows("SELECT id, name FROM place")}
    at = {row["lot_id"]: row["became"] for row in rows}
    return {lot_id: names[place] for lot_id, place in at.items() if place is not None}


def entries_as_of(store: Store, as_of: AsOf) -> list[Entry]:
    """Return the entries in the order they were booked."""
    rows = store.rows(
        f"SELECT entry.* {_ENTRIES} ORDER BY entry.action_number, entry.position", day=as_of.day, before=as_of.before
    )
    return [entry_of(row) for row in rows]


@dataclass(frozen=True, slots=True, kw_only=True)
class Late:
    """An action that was booked for a day that was closed by then."""

    code: str
    kind: str
    day: str
    """On which it was booked."""
    for_day: str
    reason: str | None
    value: int
    """What left the shelves by it, in minor units."""


def booked_late(store: Store, since: str, until: str) -> list[Late]:
    """Return what was booked from one day through another for days that were closed."""
    rows = store.rows(
        "SELECT number, code, kind, day, reason, details FROM action WHERE day >= :since AND day <= :until "
        "AND number NOT IN (SELECT action_number FROM undone) ORDER BY number",
        since=since,
        until=until,
    )
    named = [(row, json.loads(row["details"]).get("for_day")) for row in rows if "for_day" in row["details"]]
    return [
        Late(
            code=row["code"],
            kind=row["kind"],
            day=row["day"],
            for_day=for_day,
            reason=row["reason"],
            value=_value_of(store, row["number"]),
        )
        for row, for_day in named
        if for_day
    ]


def _value_of(store: Store, number: int) -> int:
    row = store.row(
        "SELECT coalesce(-sum(value), 0) AS value FROM entry WHERE action_number = :n AND other_end <> 'lot'", n=number
    )
    return int(row["value"]) if row else 0
