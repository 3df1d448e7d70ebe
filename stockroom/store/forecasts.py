"""What checks and toppings-up kept of when a jar ends, and the strengths measured of it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptForecast:
    """What checks and toppings-up kept of when a jar ends, each the newest in effect."""

    remake_on: str | None = None
    """Day on which its measured strength likely falls to the limit."""
    refills_low: float | None = None
    """How many refills its solid can surely still saturate."""
    limit: float | None = None
    """The studio's limit by which `remake_on` was found, in % of saturation."""


def kept_forecasts(store: Store) -> dict[int, KeptForecast]:
    """Return what was kept of each lot, by lot; those of which nothing was kept are left out."""
    rows = store.rows(
        "SELECT jar_check.lot_id AS lot_id, action.details AS details, action.at AS at, action.number AS number "
        "FROM jar_check JOIN action ON action.number = jar_check.action_number "
        "WHERE action.number NOT IN (SELECT action_number FROM undone) UNION "
        "SELECT entry.lot_id, action.details, action.at, action.number "
        "FROM action JOIN entry ON entry.action_number = action.number WHERE action.kind = 'top-up' "
        "AND action.number NOT IN (SELECT action_number FROM undone) ORDER BY at, number"
    )
    found: dict[int, dict[str, Any]] = {}
    for row in rows:
        details = json.loads(row["details"])
        kept = {name: details[name] for name in ("remake_on", "refills_low", "limit") if name in details}
        if kept:
            found[row["lot_id"]] = found.get(row["lot_id"], {}) | kept
    return {lot: KeptForecast(**kept) for lot, kept in found.items()}


def percents_of(store: Store, lot_id: int) -> list[tuple[str, dict[str, Any]]]:
    """Return day and percent of saturation, with its ends, of a lot's titrations in effect, oldest first."""
    rows = store.rows(
        "SELECT action.day AS day, action.details AS details FROM jar_check "
        "JOIN action ON action.number = jar_check.action_number WHERE jar_check.lot_id = :lot "
        "AND jar_check.method = 'titration' AND jar_check.verdict <> 'not ready' "
        "AND action.number NOT IN (SELECT action_number FROM undone) "
        "ORDER BY action.at, action.number",
        lot=lot_id,
    )
    found = [(row["day"], json.loads(row["details"]).get("percent")) for row in rows]
    return [(day, percent) for day, percent in found if percent]
