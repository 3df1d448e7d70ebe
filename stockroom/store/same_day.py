"""What objects of a job have met already on one day, as stored."""

from __future__ import annotations

from collections.abc import Collection

from stockroom.store.open import Store
from stockroom.store.standing import objects_of_action
from stockroom.store.tracing import draws_on_day


def lots_met(store: Store, job_id: int, objects: Collection[int], day: str, at: str) -> tuple[int, ...]:
    """Return the ids of the lots drawn from for any of these objects on a day, up to a moment.

    An action that names no object was for all of the job.
    """
    met: dict[int, None] = {}
    for draw in draws_on_day(store, job_id, day, at):
        named = objects_of_action(store, draw.action)
        if not named or set(named) & set(objects):
            met[draw.lot] = None
    return tuple(met)
