"""What checks and toppings-up kept of when a jar ends, and the strengths measured of it."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import Any

from stockroom.store.open import Row, Store


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptForecast:
    """What checks and toppings-up kept of when a jar ends, each the newest in effect."""

    remake_on: str | None = None
    """Day on which its measured strength likely falls to the limit."""
    refills_low: float | None = None
    """How many refills its solid can surely still saturate."""
    limit: float | None = None
    """The studio's limit by which `remake_on` was found, in % of saturation."""
    refills: int = 0
    """How often the jar was topped up."""
    proved: bool = False
    """Whether a titration found it saturated since it was last filled."""
    unsure: str | None = None
    """What the newest titration of this filling left open, in words."""


def kept_forecasts(store: Store) -> dict[int, KeptForecast]:
    """Return what was kept of each lot, by lot; those of which nothing was kept are left out."""
    rows = store.rows(
        "SELECT jar_check.lot_id AS lot_id, jar_check.method AS method, jar_check.verdict AS verdict, "
        "action.day AS day, action.details AS details, action.at AS at, action.number AS number "
        "FROM jar_check JOIN action ON action.number = jar_check.action_number "
        "WHERE action.number NOT IN (SELECT action_number FROM undone) UNION "
        "SELECT entry.lot_id, 'top-up', NULL, action.day, action.details, action.at, action.number "
        "FROM action JOIN entry ON entry.action_number = action.number WHERE action.kind = 'top-up' "
        "AND entry.quantity > 0 AND action.number NOT IN (SELECT action_number FROM undone) ORDER BY at, number"
    )
    found: dict[int, KeptForecast] = {}
    for row in rows:
        details = json.loads(row["details"])
        kept: dict[str, Any] = {
            name: details[name] for name in ("remake_on", "refills_low", "limit") if name in details
        }
        if row["method"] == "top-up":
            so_far = found.get(row["lot_id"], KeptForecast())
            kept |= {"refills": so_far.refills + 1, "proved": False, "unsure": None, "remake_on": None}
        elif row["method"] == "titration" and row["verdict"] != "not ready":
            open_still = row["verdict"] in UNSURE and not details.get("shaken")
            kept["proved"] = row["verdict"] == "saturated"
            kept["unsure"] = f"{row['verdict']} by titration on {row['day']}" if open_still else None
        if kept:
            found[row["lot_id"]] = replace(found.get(row["lot_id"], KeptForecast()), **kept)
    return found


UNSURE = ("cannot tell", "reads too high")
"""Verdicts that shaking, settling and titrating again may decide."""


def settling_again(store: Store) -> dict[str, str]:
    """Say by code of the lots over solid why they settle again; those that settle since they were made are left out."""
    rows = store.rows(
        "SELECT lot.code AS code, action.kind AS kind, action.day AS day, action.details AS details FROM fact "
        "JOIN lot ON lot.id = fact.lot_id JOIN action ON action.number = fact.action_number "
        "WHERE fact.field = 'ready_on' AND fact.became = lot.ready_on AND lot.over_solid = 'over solid' "
        "AND lot.state = 'on the shelf' AND action.number NOT IN (SELECT action_number FROM undone) "
        "ORDER BY action.number"
    )
    last = {row["code"]: row for row in rows}
    return {code: f"{_again(row)} on {row['day']}" for code, row in last.items() if row["kind"] in _AGAIN}


_AGAIN = {"top-up": "topped up", "move": "carried", "check": "seen to be cloudy", "settle": ""}
_AFTER = {"shaking": "shaken", "carrying": "carried", "warming": "warmed"}


def _again(row: Row) -> str:
    return _AGAIN[row["kind"]] or _AFTER[json.loads(row["details"])["after"]]


def percents_of(store: Store, lot_id: int) -> list[tuple[str, dict[str, Any]]]:
    """Return day and percent of saturation, with its ends, of a lot's titrations in effect, oldest first.

    Those before it was last topped up tell nothing of the liquid that is in it now.
    """
    rows = store.rows(
        "SELECT action.day AS day, action.details AS details FROM jar_check "
        "JOIN action ON action.number = jar_check.action_number WHERE jar_check.lot_id = :lot "
        "AND jar_check.method = 'titration' AND jar_check.verdict <> 'not ready' "
        "AND action.number NOT IN (SELECT action_number FROM undone) "
        "AND action.at >= coalesce((SELECT max(filled.at) FROM action AS filled "
        "JOIN entry ON entry.action_number = filled.number WHERE filled.kind = 'top-up' AND entry.lot_id = :lot "
        "AND entry.quantity > 0 AND filled.number NOT IN (SELECT action_number FROM undone)), '') "
        "ORDER BY action.at, action.number",
        lot=lot_id,
    )
    found = [(row["day"], json.loads(row["details"]).get("percent")) for row in rows]
    return [(day, percent) for day, percent in found if percent]
