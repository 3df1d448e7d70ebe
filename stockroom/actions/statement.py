"""The materials statement for a treatment record: what was used on an object, as it was used.

Amounts are what stands: put right, brought back and undone are counted in. Strengths and checks are those of the
moment, not of today.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from stockroom.actions.statement_lots import lots_behind_all, say_bought, say_solution
from stockroom.actions.statement_treatments import say_treatment
from stockroom.actions.tracing import Weave
from stockroom.domain.jobs import Job
from stockroom.domain.statement import Statement
from stockroom.errors import NotFound
from stockroom.store.history import WorkDone
from stockroom.store.jobs import find_job, find_object
from stockroom.store.open import Store
from stockroom.store.records import find_object_anywhere, treatments_without_draws
from stockroom.store.standing import objects_of_action
from stockroom.store.studio import all_people
from stockroom.store.tracing import DrawnOff, draws_for_job


def statement(store: Store, words: str, today: date, *, of: str | None = None) -> Statement:
    """Draw up what was used on a job, on one of its objects (`of`), or on the one object that `words` name.

    A treatment that named no object may have been of any, so that it stands in the statement of each. Raises NotFound.
    """
    try:
        job = find_job(store, words)
    except NotFound as trouble:
        if of or "fits" in trouble.details:
            raise
        found = find_object_anywhere(store, words)
        if found is None:
            raise NotFound(f"{trouble.message} No object is called so either.") from trouble
        job, of = find_job(store, found[0]), found[1]
    thing = find_object(job, of) if of else None
    weave = Weave(store)
    works = [
        work for work in _works(store, weave, job) if thing is None or not work.objects or thing.name in work.objects
    ]
    treatments = tuple(say_treatment(store, weave, work.actions, work.draws, work.objects) for work in works)
    behind = lots_behind_all(store, weave, [draw.lot for work in works for draw in work.draws])
    jars = [lot for lot in behind if lot.is_jar]
    named = {one.by for one in treatments} | {lot.initials for lot in jars}
    named |= {used.check.by for one in treatments for used in one.used if used.check}
    return Statement(
        job=job,
        thing=thing,
        on=today.isoformat(),
        treatments=treatments,
        solutions=tuple(say_solution(store, weave, lot) for lot in jars),
        materials=tuple(say_bought(store, lot) for lot in behind if not lot.is_jar),
        people=tuple((one.initials, one.name) for one in all_people(store) if one.initials in named),
    )


@dataclass(slots=True, kw_only=True)
class _Work:
    """One thing that was done: its action with those that put it right, and what was drawn by them and stands."""

    actions: list[WorkDone]
    draws: list[DrawnOff] = field(default_factory=list)
    objects: tuple[str, ...] = ()
    """As they were stated last."""


def _works(store: Store, weave: Weave, job: Job) -> list[_Work]:
    """Return what was done for a job, by day."""
    works: dict[int, _Work] = {}
    for draw in draws_for_job(store, job.id):
        done = weave.action(draw.action)
        first = weave.meant(draw.action)
        work = works.setdefault(first.number, _Work(actions=[first]))
        if done not in work.actions:
            work.actions.append(done)
        work.draws.append(draw)
    for done in treatments_without_draws(store, job.id):
        works[done.number] = _Work(actions=[done])
    for work in works.values():
        named = objects_of_action(store, work.actions[-1].number)
        work.objects = tuple(thing.name for thing in job.objects if thing.id in named)
    return sorted(works.values(), key=lambda work: (work.actions[0].at, work.actions[0].number))
