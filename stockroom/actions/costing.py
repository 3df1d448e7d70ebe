"""A job's materials: what they were expected to cost, what they cost, and why the two differ.

All of it is read from the ledger and the bookings; nothing here is booked. Values are minor units of the stockroom's
currency, materials only.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, TypeAlias

from stockroom.actions.cost_shares import WasteShare, waste_shares
from stockroom.domain.jobs import Booking, Job
from stockroom.domain.ledger import Place
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.planning.cost_causes import Amounts, Cause, add_up, causes
from stockroom.science.quantities import Quantity
from stockroom.store import ledger
from stockroom.store.cost_sums import apart_from_job
from stockroom.store.estimates import kept_estimate
from stockroom.store.history import action_by_number, find_action, recipe_name
from stockroom.store.jobs import bookings_of, find_job
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.planning.estimating import Expected


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """What a job drew of one lot for one treatment, net of what came back."""

    treatment: str | None
    """Key of the recipe; None for what was taken without one."""
    lot: Lot
    quantity: Quantity
    value: int
    trim: Amounts
    """Part of both that was trimmed off sheets of which an offcut was kept."""


Key: TypeAlias = tuple[str | None, int]
"""A treatment and the id of a material."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One material of one treatment: expected against actual, for what is done; and what is still to come."""

    treatment: str | None
    """Key of the recipe; None for what was taken without one."""
    treatment_name: str
    material: Material
    expected: Amounts | None
    """Of treatments that are done, as reckoned when they were booked; None where they were not booked."""
    actual: Amounts | None
    """None where nothing of it was used."""
    to_come: Amounts | None
    """Of treatments still booked, at the prices of now."""
    causes: tuple[Cause, ...]
    """Actual less expected, split by cause."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """Expected against actual of one treatment, to be drawn side by side."""

    name: str
    expected: int
    """Done and still to come."""
    actual: int
    to_come: int
    """Part of `expected` that is still to come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Costing:
    """All about what a job's materials cost."""

    job: Job
    used: tuple[Used, ...]
    lines: tuple[Line, ...]
    total: int
    """What the job's materials cost so far."""
    complete: bool
    """False where some lot's cost is not known, so that the total is "at least"."""
    expected: int
    """What the treatments that are done were expected to cost."""
    to_come: int
    """What the treatments still booked are expected to cost."""
    expected_complete: bool
    """False where some price was not known, or a treatment not worked out, so that the estimate is "at least"."""
    unworked: tuple[str, ...] = ()
    """Codes of the bookings that cannot be worked out yet, such as for an object without a size."""
    apart: int = 0
    """What would have changed the total since the job was closed; it stands as a difference, no part of `total`."""
    waste: tuple[WasteShare, ...] = ()
    """Where asked for: the job's shares of what was wasted of the jars it used; no part of `total`."""

    @property
    def by_lot(self) -> tuple[Used, ...]:
        return by_lot(self.used)

    @property
    def estimate(self) -> int:
        """What all its treatments were and are expected to cost."""
        return self.expected + self.to_come

    @property
    def waste_value(self) -> int:
        return sum(share.value for share in self.waste)

    @property
    def bars(self) -> tuple[Bar, ...]:
        """Return a bar for each treatment, in the order of the lines."""
        sums: dict[str, list[int]] = {}
        for line in self.lines:
            bar = sums.setdefault(line.treatment_name, [0, 0, 0])
            for index, amounts in enumerate((line.expected, line.actual, line.to_come)):
                bar[index] += amounts.value if amounts else 0
        return tuple(Bar(name=name, expected=e + c, actual=a, to_come=c) for name, (e, a, c) in sums.items())

    @property
    def causes(self) -> dict[str, int]:
        """Return why what is done cost more or less than expected: minor units by kind of cause."""
        shares = [Cause(kind="waste", value=self.waste_value)] if self.waste else []
        return add_up([*(cause for line in self.lines for cause in line.causes), *shares])


def costing(store: Store, job_words: str, local: datetime, *, with_waste: bool = False) -> Costing:
    """Return what a job's materials were expected to cost and cost. Raises NotFound."""
    job = find_job(store, job_words)
    used = used_for(store, job)
    actual: dict[Key, Amounts] = defaultdict(Amounts)
    trim: dict[Key, Amounts] = defaultdict(Amounts)
    for one in used:
        actual[one.treatment, one.lot.material.id] += Amounts(
            quantity=one.quantity.quanta, value=one.value, complete=one.lot.cost_known
        )
        trim[one.treatment, one.lot.material.id] += one.trim
    expected, to_come, unworked = _estimates(store, job, local)
    lines = _lines(store, used, expected, actual, trim, to_come)
    plans = [*expected.values(), *to_come.values()]
    return Costing(
        job=job,
        used=used,
        lines=lines,
        total=sum(one.value for one in used),
        complete=all(one.lot.cost_known for one in used),
        expected=sum(one.value for one in expected.values()),
        to_come=sum(one.value for one in to_come.values()),
        expected_complete=not unworked and all(one.complete for one in plans),
        unworked=unworked,
        apart=apart_from_job(store, job.id),
        waste=tuple(waste_shares(store).get(job.id, ())) if with_waste else (),
    )


def used_for(store: Store, job: Job) -> tuple[Used, ...]:
    """Return what a job drew, by treatment and lot, value put right later included; what cancels out is left out."""
    sums: dict[tuple[str | None, int], Amounts] = defaultdict(Amounts)
    trims: dict[tuple[str | None, int], Amounts] = defaultdict(Amounts)
    treatments: dict[int, tuple[str | None, int]] = {}
    trimmed: set[Place] = set()
    for entry in ledger.entries_of_job(store, job.id):
        place = entry.refers or entry.place
        if place[0] not in treatments:
            treatments[place[0]] = _treatment(store, place[0])
        treatment, trim = treatments[place[0]]
        amounts = Amounts(quantity=-entry.quantity, value=-entry.value)
        sums[treatment, entry.lot] += amounts
        if trim and entry.quantity == -trim and entry.effect == "draw":
            trimmed.add(entry.place)
        if place in trimmed:
            trims[treatment, entry.lot] += amounts
    lots = {lot_id: lot_by_id(store, lot_id) for _, lot_id in sums}
    return tuple(
        Used(
            treatment=key[0],
            lot=lots[key[1]],
            quantity=lots[key[1]].material.quantity(amounts.quantity),
            value=amounts.value,
            trim=trims[key],
        )
        for key, amounts in sums.items()
        if amounts.quantity or amounts.value
    )


def by_lot(used: Iterable[Used]) -> tuple[Used, ...]:
    """Return what was used of each lot, whatever for; what cancels out is left out."""
    merged: dict[int, Used] = {}
    for one in used:
        before = merged.get(one.lot.id)
        merged[one.lot.id] = replace(
            one,
            treatment=None,
            quantity=one.quantity + before.quantity if before else one.quantity,
            value=one.value + (before.value if before else 0),
            trim=one.trim + before.trim if before else one.trim,
        )
    return tuple(one for one in merged.values() if one.quantity.quanta or one.value)


def _treatment(store: Store, number: int) -> tuple[str | None, int]:
    """Return the recipe that a draw was for, and how much was trimmed off then.

    A draw put right, or kept of a bath, is for the recipe of the first one.
    """
    done = action_by_number(store, number)
    details = json.loads(done.details)
    earlier = details.get("puts_right") or (details.get("of") if done.kind == "keep-bath" else None)
    if earlier:
        return _treatment(store, find_action(store, earlier).number)
    if done.kind != "use":
        return None, 0
    return str(details["recipe"]), int(details.get("trim", 0))


def _estimates(
    store: Store, job: Job, local: datetime
) -> tuple[dict[Key, Amounts], dict[Key, Amounts], tuple[str, ...]]:
    """Return what was expected of the bookings that are done, what is of those to come, and those not worked out."""
    bookings = bookings_of(store, job.id)
    expected: dict[Key, Amounts] = defaultdict(Amounts)
    to_come: dict[Key, Amounts] = defaultdict(Amounts)
    for one in bookings:
        for kept in kept_estimate(store, one.id) if one.state == "done" else ():
            expected[one.recipe_key, kept.material_id] += Amounts(
                quantity=kept.quantity, value=kept.value or 0, complete=kept.complete
            )
    waiting = [one for one in bookings if one.state == "booked"]
    found = _reckoned(store, waiting, local)
    for one in waiting:
        for line in found.get(one.id, ()):
            to_come[one.recipe_key, line.material.id] += Amounts(
                quantity=line.quantity, value=line.value or 0, complete=line.complete
            )
    return expected, to_come, tuple(one.code for one in waiting if one.id not in found)


def _reckoned(store: Store, waiting: Sequence[Booking], local: datetime) -> dict[int, list[Expected]]:
    if not waiting:
        return {}
    from stockroom.actions.estimating import estimate  # reckoning loads far more than reading what was booked

    return estimate(store, waiting, local)


def _lines(
    store: Store,
    used: Sequence[Used],
    expected: dict[Key, Amounts],
    actual: dict[Key, Amounts],
    trim: dict[Key, Amounts],
    to_come: dict[Key, Amounts],
) -> tuple[Line, ...]:
    keys = dict.fromkeys([*expected, *actual, *to_come])
    if not keys:
        return ()
    materials = {one.lot.material.id: one.lot.material for one in used}
    if any(key not in materials for _, key in keys):
        from stockroom.store.materials import all_materials

        materials |= {each.id: each for each in all_materials(store, retired=True)}
    names = {key: treatment_name(store, key) for key, _ in keys}
    return tuple(
        Line(
            treatment=key[0],
            treatment_name=names[key[0]],
            material=materials[key[1]],
            expected=expected.get(key),
            actual=actual.get(key),
            to_come=to_come.get(key),
            causes=causes(expected.get(key), actual.get(key), trim.get(key, Amounts())),
        )
        for key in sorted(keys, key=lambda key: (key[0] is None, names[key[0]], materials[key[1]].name))
    )


def treatment_name(store: Store, treatment: str | None) -> str:
    return "taken by itself" if treatment is None else recipe_name(store, treatment)
