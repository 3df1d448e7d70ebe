"""What the record of a job asks for beside its draws."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.errors import NotFound
from stockroom.store.fold import fold
from stockroom.store.history import WorkDone, action_by_number
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionUsed:
    """Which version of which recipe an action went by."""

    key: str
    name: str
    number: int


def version_used(store: Store, version_id: int | None) -> VersionUsed | None:
    """Return which version an id stands for; None for an action that went by no recipe."""
    row = store.row(
        "SELECT recipe.key, recipe.name, recipe_version.number FROM recipe_version "
        "JOIN recipe ON recipe.id = recipe_version.recipe_id WHERE recipe_version.id = :id",
        id=version_id,
    )
    return VersionUsed(**dict(row)) if row else None


def treatments_without_draws(store: Store, job_id: int) -> list[WorkDone]:
    """Return the treatments of a job that drew nothing that is metered, such as a wash in tap water."""
    rows = store.rows(
        "SELECT number FROM action WHERE kind = 'use' AND job_id = :job "
        "AND number NOT IN (SELECT action_number FROM undone) "
        "AND NOT EXISTS (SELECT position FROM entry WHERE entry.action_number = action.number) ORDER BY number",
        job=job_id,
    )
    return [action_by_number(store, row["number"]) for row in rows]


def find_object_anywhere(store: Store, words: str) -> tuple[str, str] | None:
    """Return the job's code and the name of the one object that a full name or an unambiguous part of it names.

    None where none is called so. Raises NotFound where several are.
    """
    wanted = fold(words).split()
    rows = store.rows(
        "SELECT job.code, job.title, job_object.name FROM job_object JOIN job ON job.id = job_object.job_id "
        "ORDER BY job.id DESC, job_object.position"
    )
    exact = [row for row in rows if fold(row["name"]) == fold(words)]
    matches = exact or [row for row in rows if wanted and all(part in fold(row["name"]) for part in wanted)]
    if len(matches) == 1:
        return matches[0]["code"], matches[0]["name"]
    if matches:
        names = "; ".join(f"{row['name']} ({row['code']} {row['title']})" for row in matches[:5])
        raise NotFound(f"'{words}' fits several objects: {names}. Say the job, and the object with --object.")
    return None


def last_treatment(store: Store, job_id: int) -> WorkDone | None:
    """Return the treatment of a job that happened last and is in effect."""
    row = store.row(
        "SELECT number FROM action WHERE kind = 'use' AND job_id = :job "
        "AND number NOT IN (SELECT action_number FROM undone) ORDER BY at DESC, number DESC LIMIT 1",
        job=job_id,
    )
    return action_by_number(store, row["number"]) if row else None
