"""What each object of a job cost: what several objects shared is shared by their area, evenly where one has none."""

from __future__ import annotations

import json
from collections import defaultdict
from dataclasses import dataclass

from stockroom.domain.jobs import Job, JobObject
from stockroom.science.sharing import share_out
from stockroom.store import ledger, standing
from stockroom.store.history import action_by_number, find_action
from stockroom.store.jobs import find_job
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class ObjectCost:
    """What one object cost, in minor units; without a name, what no object was stated for."""

    name: str | None
    value: int


def object_costs(store: Store, job_words: str) -> tuple[ObjectCost, ...]:
    """Share what a job cost over its objects; the shares add up to it. Raises NotFound."""
    job = find_job(store, job_words)
    shared: dict[tuple[int, ...], int] = defaultdict(int)
    for entry in ledger.entries_of_job(store, job.id):
        # what came back, or was put right or undone, belongs to the objects of what it refers to
        shared[_objects(store, (entry.refers or entry.place)[0])] -= entry.value
    costs: dict[int | None, int] = dict.fromkeys([*(thing.id for thing in job.objects), None], 0)
    for objects, value in shared.items():
        things = [thing for thing in job.objects if thing.id in objects]
        if not things:
            costs[None] += value
            continue
        for thing, share in zip(things, share_out(value, _weights(things)), strict=True):
            costs[thing.id] += share
    return _named(job, costs)


def _objects(store: Store, number: int) -> tuple[int, ...]:
    named = standing.objects_of_action(store, number)
    if named:
        return named
    done = action_by_number(store, number)
    kept_of = json.loads(done.details).get("of") if done.kind == "keep-bath" else None
    return standing.objects_of_action(store, find_action(store, kept_of).number) if kept_of else ()


def _weights(things: list[JobObject]) -> list[int]:
    areas = [(thing.length_um or 0) * (thing.width_um or 0) for thing in things]
    return areas if all(areas) else [1] * len(things)


def _named(job: Job, costs: dict[int | None, int]) -> tuple[ObjectCost, ...]:
    told = [ObjectCost(name=thing.name, value=costs[thing.id]) for thing in job.objects]
    return (*told, ObjectCost(name=None, value=costs[None])) if costs[None] else tuple(told)
