"""Checks of jars, as stored."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from stockroom.domain.ledger import JarCheck
from stockroom.store.open import Store


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
    store.run(
        "INSERT INTO jar_check (action_number, lot_id, method, readings, verdict, why) "
        "VALUES (:number, :lot, :method, :readings, :verdict, :why)",
        number=number,
        lot=check.lot,
        method=check.method,
        readings=check.readings,
        verdict=check.verdict,
        why=check.why,
    )


def checks_of(store: Store, lot_id: int) -> list[CheckDone]:
    """Return a lot's checks in effect, oldest first."""
    rows = store.rows(
        "SELECT action.code, action.day, action.at, action.initials, action.details, jar_check.method, "
        "jar_check.readings, jar_check.verdict, jar_check.why FROM jar_check "
        "JOIN action ON action.number = jar_check.action_number "
        "WHERE jar_check.lot_id = :lot AND action.number NOT IN (SELECT action_number FROM undone) "
        "ORDER BY action.at, action.number",
        lot=lot_id,
    )
    return [
        CheckDone(
            action=row["code"],
            day=row["day"],
            at=row["at"],
            initials=row["initials"],
            details=json.loads(row["details"]),
            check=JarCheck(
                lot=lot_id,
                method=row["method"],
                readings=row["readings"],
                verdict=row["verdict"],
                why=row["why"],
            ),
        )
        for row in rows
    ]
