"""Checks of jars, as stored."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from stockroom.domain.ledger import JarCheck
from stockroom.store.open import Row, Store


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckDone:
    """A check in effect, with its action, day and moment."""

    action: str
    day: str
    at: str
    initials: str
    check: JarCheck
    details: dict[str, Any]
    """What the action kept of it: percent, strength, celsius, sources, next."""


def insert_check(store: Store, number: int, check: JarCheck) -> None:
    """Keep a check; inside `write()`."""
    store.insert(
        "jar_check",
        action_number=number,
        lot_id=check.lot,
        method=check.method,
        readings=check.readings,
        verdict=check.verdict,
        why=check.why,
    )


_CHECKS = (
    "SELECT action.code, action.day, action.at, action.initials, action.details, jar_check.lot_id, jar_check.method, "
    "jar_check.readings, jar_check.verdict, jar_check.why FROM jar_check "
    "JOIN action ON action.number = jar_check.action_number "
    "WHERE action.number NOT IN (SELECT action_number FROM undone) "
)


def checks_of(store: Store, lot_id: int) -> list[CheckDone]:
    """Return a lot's checks in effect, oldest first."""
    return _told(store.rows(f"{_CHECKS} AND jar_check.lot_id = :lot ORDER BY action.at, action.number", lot=lot_id))


def kept_references(store: Store, method: str) -> list[CheckDone]:
    """Return the checks of a method in effect, of any lot, that were kept as the studio's own reference."""
    rows = store.rows(f"{_CHECKS} AND jar_check.method = :method ORDER BY action.at, action.number", method=method)
    return [one for one in _told(rows) if "reference" in one.details]


def _told(rows: list[Row]) -> list[CheckDone]:
    return [
        CheckDone(
            action=row["code"],
            day=row["day"],
            at=row["at"],
            initials=row["initials"],
            details=json.loads(row["details"]),
            check=JarCheck(
                lot=row["lot_id"],
                method=row["method"],
                readings=row["readings"],
                verdict=row["verdict"],
                why=row["why"],
            ),
        )
        for row in rows
    ]
