"""Trace lots to the objects they reached, and objects and jobs to the lots behind them, through any depth.

What counts is what stands: what was undone, put right or brought back whole is left out. A treatment that named no
object may have been of any object of its job, so each of them is told, as not stated.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace

from stockroom.domain.jobs import Job, JobObject
from stockroom.domain.lots import Lot
from stockroom.domain.media import media_test_of
from stockroom.domain.trace import Branch, LastCheck, Trace, TracedLot, TracedObject, TracedTreatment
from stockroom.errors import BadInput, NotFound
from stockroom.science.quantities import Dimension
from stockroom.store.checks import checks_of
from stockroom.store.history import WorkDone, action_by_number, find_action
from stockroom.store.jobs import find_job, find_object, job_by_id
from stockroom.store.lots import find_lot, lot_by_id, lots_of_maker
from stockroom.store.open import Store
from stockroom.store.records import find_object_anywhere
from stockroom.store.standing import objects_of_action
from stockroom.store.tracing import (
    DrawnOff,
    baths_left_of,
    draws_for_job,
    draws_from,
    draws_into,
    draws_of_bath,
    said_before,
)

MIXED = (Dimension.MASS, Dimension.VOLUME)
"""What goes into a bath, and so into what is left of it; sheets do not."""


def trace(
    store: Store,
    typed: str | None = None,
    *,
    maker_lot: str | None = None,
    material: str | None = None,
    objects: tuple[str, ...] = (),
) -> Trace:
    """Trace a lot by its code, a job or object by its code or name, or every lot of a maker's lot number.

    Raises BadInput where not exactly one of them is named, NotFound.
    """
    if (typed is None) == (maker_lot is None):
        raise BadInput("Trace what? Say the code of a lot or job, or --maker-lot NUMBER.")
    if maker_lot is not None:
        if objects:
            raise BadInput("--object goes with a job: say which job it belongs to.")
        return trace_lots(store, lots_of_maker(store, maker_lot, material), f"maker's lot {maker_lot}")
    lot = _lot(store, typed or "")
    if lot is None and material:
        raise BadInput("--material goes with --maker-lot.")
    if lot is None:
        return trace_job(store, *_job_and_objects(store, typed or "", objects))
    if objects or material:
        raise BadInput("--object goes with a job, --material with --maker-lot.")
    return trace_lots(store, [lot], f"{lot.code} {lot.material.name}")


def _job_and_objects(store: Store, typed: str, objects: tuple[str, ...]) -> tuple[Job, tuple[str, ...]]:
    """Find a job, or the one object anywhere that is called so. Raises NotFound."""
    try:
        return find_job(store, typed), objects
    except NotFound as trouble:
        if objects or "fits" in trouble.details:
            raise
        found = find_object_anywhere(store, typed)
        if found is None:
            raise NotFound(
                f"'{typed}' is no lot, job or object here. 'stockroom job list' shows the jobs; a maker's lot number "
                "goes with --maker-lot."
            ) from trouble
        return find_job(store, found[0]), (found[1],)


def trace_lots(store: Store, lots: Iterable[Lot], of: str) -> Trace:
    """Trace lots both ways."""
    weave = Weave(store)
    starts = list(lots)
    return Trace(
        of=of,
        reached=tuple(Branch(thing=weave.as_it_is(lot), branches=weave.reached(lot.id)) for lot in starts),
        behind=tuple(Branch(thing=weave.as_it_is(lot), branches=weave.behind(lot.id)) for lot in starts),
    )


def trace_job(store: Store, job: Job, objects: tuple[str, ...] = ()) -> Trace:
    """Trace a job, or some of its objects, to every lot behind."""
    weave = Weave(store)
    named: list[JobObject | None] = [find_object(job, words) for words in objects]
    named = named or [*job.objects] or [None]
    return Trace(
        of=f"{job.code} {job.title}",
        reached=(),
        behind=tuple(Branch(thing=_object(job, one), branches=weave.behind_object(job, one)) for one in named),
    )


def _lot(store: Store, typed: str) -> Lot | None:
    """Return the lot that a code names; None for what may be the code or title of a job."""
    written = "".join(typed.split()).upper()
    return find_lot(store, typed) if written[:1] == "L" and written[1:2].isdigit() else None


class Weave:
    """Follows the draws of one stockroom; each lot's branches are made once."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.actions: dict[int, WorkDone] = {}
        self.lots: dict[int, Lot] = {}
        self.forth: dict[int, tuple[Branch, ...]] = {}
        self.back: dict[int, tuple[Branch, ...]] = {}
        self.path: set[int] = set()

    def reached(self, lot_id: int) -> tuple[Branch, ...]:
        """Return what a lot went into, and the treatments it was drawn for with their objects."""
        if lot_id not in self.forth and lot_id not in self.path:
            self.path.add(lot_id)
            self.forth[lot_id] = tuple(self._reached(lot_id))
            self.path.discard(lot_id)
        return self.forth.get(lot_id, ())

    def _reached(self, lot_id: int) -> Iterable[Branch]:
        into: dict[int, list[DrawnOff]] = defaultdict(list)
        used: dict[tuple[int, int], DrawnOff] = {}
        for draw in draws_from(self.store, lot_id):
            if draw.into is not None:
                into[draw.into].append(draw)
            elif draw.job_id is not None:
                used.setdefault((draw.action, draw.job_id), draw)
        for other, draws in into.items():
            amount = self.lot(lot_id).material.quantity(sum(draw.quanta for draw in draws))
            thing = replace(self.as_it_is(self.lot(other)), amount=amount, day=draws[0].day)
            yield Branch(thing=thing, branches=self.reached(other))
        for (_, job_id), draw in used.items():
            yield self._treatment_forth(draw, job_by_id(self.store, job_id))

    def _treatment_forth(self, draw: DrawnOff, job: Job) -> Branch:
        branches = [Branch(thing=one) for one in self._objects(draw.action, job)]
        if self.lot(draw.lot).material.dimension in MIXED:
            for left in baths_left_of(self.store, draw.action):
                branches.append(Branch(thing=self.as_it_is(self.lot(left)), branches=self.reached(left)))
        return Branch(thing=self.treatment(draw, job), branches=tuple(branches))

    def behind(self, lot_id: int) -> tuple[Branch, ...]:
        """Return the lots that a lot was made from, or that were in the bath it is left of."""
        if lot_id not in self.back and lot_id not in self.path:
            self.path.add(lot_id)
            draws = [*draws_into(self.store, lot_id), *draws_of_bath(self.store, lot_id)]
            self.back[lot_id] = self._drawn(draws)
            self.path.discard(lot_id)
        return self.back.get(lot_id, ())

    def behind_object(self, job: Job, thing: JobObject | None) -> tuple[Branch, ...]:
        """Return the treatments of an object with the lots behind each; of the whole job where it has no objects."""
        by_action: dict[int, list[DrawnOff]] = defaultdict(list)
        for draw in draws_for_job(self.store, job.id):
            by_action[draw.action].append(draw)
        branches = []
        for action, draws in by_action.items():
            if thing is None or thing.position in {one.position for one in self._objects(action, job)}:
                branches.append(Branch(thing=self.treatment(draws[0], job), branches=self._drawn(draws)))
        return tuple(branches)

    def _objects(self, action: int, job: Job) -> list[TracedObject]:
        """Return the objects that an action was for: those it names, else all of the job, else the job itself."""
        named = set(objects_of_action(self.store, action))
        touched = [one for one in job.objects if one.id in named]
        if touched:
            return [_object(job, one) for one in touched]
        return [_object(job, one, stated=False) for one in job.objects] or [_object(job, None)]

    def _drawn(self, draws: Iterable[DrawnOff]) -> tuple[Branch, ...]:
        by_lot: dict[tuple[int, int], list[DrawnOff]] = defaultdict(list)
        for draw in draws:
            by_lot[draw.lot, draw.action].append(draw)
        return tuple(Branch(thing=self.drawn(own), branches=self.behind(lot)) for (lot, _), own in by_lot.items())

    def lot(self, lot_id: int) -> Lot:
        if lot_id not in self.lots:
            self.lots[lot_id] = lot_by_id(self.store, lot_id)
        return self.lots[lot_id]

    def action(self, number: int) -> WorkDone:
        if number not in self.actions:
            self.actions[number] = action_by_number(self.store, number)
        return self.actions[number]

    def as_it_is(self, lot: Lot) -> TracedLot:
        return TracedLot(lot=lot, strength=lot.strength, check=self._check(lot.id))

    def drawn(self, draws: list[DrawnOff]) -> TracedLot:
        """Return a lot as it was when an action drew from it."""
        first, lot = draws[0], self.lot(draws[0].lot)
        done = self.meant(first.action)
        details = json.loads(done.details)
        against = details.get("overrides", {}).get(lot.code)
        reason = f": {done.reason}" if done.reason else ""
        return TracedLot(
            lot=lot,
            amount=lot.material.quantity(sum(draw.quanta for draw in draws)),
            day=first.day,
            strength=said_before(self.store, lot.id, "strength", done.number),
            check=self._check(lot.id, first.at),
            override=f"{against}; used all the same{reason}" if against else None,
        )

    def meant(self, number: int) -> WorkDone:
        """Return an action; for one that puts another right, that other one."""
        done = self.action(number)
        puts_right = json.loads(done.details).get("puts_right")
        return self.meant(find_action(self.store, puts_right).number) if puts_right else done

    def _check(self, lot_id: int, at: str | None = None) -> LastCheck | None:
        checks = [one for one in checks_of(self.store, lot_id) if at is None or one.at <= at]
        if not checks:
            return None
        last = checks[-1]
        return LastCheck(day=last.day, method=last.check.method, verdict=last.check.verdict, by=last.initials)

    def treatment(self, draw: DrawnOff, job: Job) -> TracedTreatment:
        """Return what was done, as it was put right later where it was; its code is that of the last putting right."""
        done = self.meant(draw.action)
        details = json.loads(done.details)
        media = media_test_of(details)
        return TracedTreatment(
            action=self.action(draw.action).code,
            kind=done.kind,
            day=draw.day,
            by=done.initials,
            recipe=details.get("recipe"),
            job=job.code,
            title=job.title,
            strength=details.get("strength"),
            reason=done.reason,
            media=media.words if media else None,
            objects=tuple(one.name for one in self._objects(draw.action, job) if one.stated and one.name),
        )


def _object(job: Job, thing: JobObject | None, *, stated: bool = True) -> TracedObject:
    return TracedObject(
        job=job.code,
        title=job.title,
        position=thing.position if thing else None,
        name=thing.name if thing else None,
        stated=stated and thing is not None,
    )
