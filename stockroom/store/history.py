"""What was done, as stored: actions by lot, by person, by job."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockroom.errors import NotFound
from stockroom.store.open import Row, Store

if TYPE_CHECKING:
    from stockroom.domain.recipes import RecipeCheck


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDone:
    """One action's own row."""

    number: int
    code: str
    kind: str
    day: str
    at: str
    booked_at: str
    initials: str
    reason: str | None
    job_id: int | None
    version_id: int | None
    undoes: int | None
    details: str
    in_effect: bool


MOST_USES = 10
"""How many of the last treatments are told."""

_ACTION = (
    "SELECT action.number, action.code, action.kind, action.day, action.at, action.booked_at, action.initials, "
    "action.reason, action.job_id, action.version_id, action.undoes, action.details, "
    "CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect "
    "FROM action LEFT JOIN undone ON undone.action_number = action.number"
)


def _done(row: Row) -> WorkDone:
    values = dict(row)
    return WorkDone(**{**values, "in_effect": values["in_effect"] == "yes"})


def actions_of_lot(store: Store, lot_id: int) -> list[WorkDone]:
    """Return the actions that moved, changed, began or checked a lot, oldest booking first."""
    sql = (
        f"{_ACTION} WHERE action.number IN ("
        "SELECT action_number FROM entry WHERE lot_id = :lot UNION SELECT action_number FROM fact WHERE lot_id = :lot "
        "UNION SELECT begun_by FROM lot WHERE id = :lot UNION SELECT action_number FROM counted WHERE lot_id = :lot "
        "UNION SELECT action_number FROM jar_check WHERE lot_id = :lot) ORDER BY action.number"
    )
    return [_done(row) for row in store.rows(sql, lot=lot_id)]


def actions_of_person(store: Store, initials: str, limit: int) -> list[WorkDone]:
    """Return what a person booked last, newest first."""
    sql = f"{_ACTION} WHERE action.initials = :by ORDER BY action.number DESC LIMIT :limit"
    return [_done(row) for row in store.rows(sql, by=initials, limit=limit)]


def uses_of_material(store: Store, material_id: int, lately: str) -> list[WorkDone]:
    """Return the last treatments in effect that drew on lots of a material, newest first.

    `lately` is a day: where enough was done from then on, nothing older is looked at.
    """
    sql = (
        f"{_ACTION} WHERE action.kind = 'use' AND undone.action_number IS NULL AND action.number IN ("
        "SELECT entry.action_number FROM lot JOIN entry ON entry.lot_id = lot.id WHERE lot.material_id = :material "
        "AND (lot.ended_on IS NULL OR lot.ended_on >= :since) AND entry.day >= :since) "
        "ORDER BY action.at DESC, action.number DESC LIMIT :most"
    )
    for since in (lately, ""):
        rows = store.rows(sql, material=material_id, since=since, most=MOST_USES)
        if len(rows) == MOST_USES:
            break
    return [_done(row) for row in rows]


def action_by_number(store: Store, number: int) -> WorkDone:
    row = store.row(f"{_ACTION} WHERE action.number = :n", n=number)
    if row is None:
        raise LookupError(number)
    return _done(row)


def find_action(store: Store, code: str) -> WorkDone:
    """Find an action by its code. Raises NotFound."""
    compact = "".join(code.split()).upper().replace("-", "")
    row = store.row(f"{_ACTION} WHERE action.code = :code", code=compact)
    if row is None:
        raise NotFound(f"There is no action '{code}'. 'stockroom undo' lists your last ones.")
    return _done(row)


def kept_of_bath(store: Store, done: WorkDone) -> int:
    """Return how many microlitres of a bath earlier actions kept, those in effect."""
    rows = store.rows(
        "SELECT entry.quantity AS quantity, action.details AS details FROM action "
        "JOIN entry ON entry.action_number = action.number WHERE action.kind = 'keep-bath' "
        "AND action.job_id = :job AND action.number NOT IN (SELECT action_number FROM undone)",
        job=done.job_id,
    )
    return sum(row["quantity"] for row in rows if json.loads(row["details"])["of"] == done.code)


def recipe_name(store: Store, key: str) -> str:
    """Return the name of a recipe, retired ones too."""
    row = store.row("SELECT name FROM recipe WHERE key = :key", key=key)
    return str(row["name"]) if row else key


def recipe_versions_used(store: Store, job_id: int) -> dict[str, tuple[int, ...]]:
    """Return the numbers of the versions that a job's treatments in effect were done by, by the recipe's key."""
    rows = store.rows(
        "SELECT DISTINCT recipe.key AS recipe, recipe_version.number AS number FROM action "
        "JOIN recipe_version ON recipe_version.id = action.version_id "
        "JOIN recipe ON recipe.id = recipe_version.recipe_id WHERE action.job_id = :job AND action.kind = 'use' "
        "AND action.number NOT IN (SELECT action_number FROM undone) ORDER BY recipe.key, recipe_version.number",
        job=job_id,
    )
    found: dict[str, tuple[int, ...]] = {}
    for row in rows:
        found[row["recipe"]] = (*found.get(row["recipe"], ()), row["number"])
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeOfLot:
    """What the version of the recipe that a lot was made by says of it."""

    ready_after: str | None = None
    check_every: str | None = None
    strength: str | None = None
    check: RecipeCheck | None = None
    evaporation: str | None = None
    """mass balance, where its strength is reckoned anew when water is found evaporated."""


NO_RECIPE = RecipeOfLot()


def recipe_of_lot(store: Store, lot_id: int) -> RecipeOfLot:
    """Return what its recipe says of a lot; nothing for one that was not made here."""
    row = store.row(
        "SELECT recipe_version.id, recipe_version.ready_after, recipe_version.check_every, recipe_version.strength, "
        "version_care.evaporation FROM lot "
        "JOIN action ON action.number = lot.begun_by JOIN recipe_version ON recipe_version.id = action.version_id "
        "LEFT JOIN version_care ON version_care.version_id = recipe_version.id "
        "WHERE lot.id = :lot",
        lot=lot_id,
    )
    if row is None:
        return NO_RECIPE
    from stockroom.store.recipe_checks import recipe_check

    said = dict(row)
    return RecipeOfLot(check=recipe_check(store, said.pop("id")), **said)
