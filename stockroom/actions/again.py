"""The last treatment of a job, to be done once more: what was asked for then, drawn from what is here now."""

from __future__ import annotations

import json
from dataclasses import dataclass

from stockroom.errors import NotFound
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import find_job
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.records import last_treatment, version_used
from stockroom.store.standing import objects_of_action


@dataclass(frozen=True, slots=True, kw_only=True)
class LastTreatment:
    """What the last treatment was asked to be; every text as `use` takes it."""

    action: str
    day: str
    recipe: str
    """Its key."""
    fill: str | None
    fills: int | None
    """None where the recipe has no bath."""
    objects: tuple[str, ...]
    """The numbers of the objects it named; none where none was stated."""
    changed: str | None
    """That the recipe has a newer version than was used then, in words."""


def last_treatment_of(store: Store, job_words: str) -> LastTreatment:
    """Return the job's last treatment in effect. Raises NotFound where there is none."""
    job = find_job(store, job_words)
    done = last_treatment(store, job.id)
    used = version_used(store, done.version_id) if done else None
    if done is None or used is None:
        raise NotFound(
            f"No treatment is booked as done for {job.code} {job.title} yet. Say which: stockroom use RECIPE --job "
            f"{job.code}."
        )
    details = json.loads(done.details)
    recipe = find_recipe(store, used.key)
    named = set(objects_of_action(store, done.number))
    fill, fills = details.get("fill"), int(details.get("fills", 1))
    now = recipe.version.number
    return LastTreatment(
        action=done.code,
        day=done.day,
        recipe=used.key,
        fill=None if fill is None else show(Quantity(Dimension.VOLUME, fill)),
        fills=fills if fill is not None or fills != recipe.version.fills else None,
        objects=tuple(str(thing.position) for thing in job.objects if thing.id in named),
        changed=f"{used.key} was at version {used.number} then and is at {now} now" if now != used.number else None,
    )
