"""What is due for booked treatments: makings to begin, and what will be short."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.materials import CUT_ONE
from stockroom.domain.orders import goods
from stockroom.planning.booked_needs import Worked
from stockroom.planning.covering import Demand, Taking
from stockroom.planning.due import Due
from stockroom.planning.needs import Need, Plan
from stockroom.science.quantities import Dimension


def due_plan(plan: Plan, worked: Sequence[Worked], last: date) -> list[Due]:
    """Tell makings to begin up to a day, and what booked treatments lack that is to be ordered or cannot be in time."""
    named = {one.booking.code: f"{one.recipe.name} for {one.job.code}" for one, _ in worked}
    items = [
        Due(
            kind="make-by",
            code=need.material.key,
            name=need.material.name,
            by=need.begin_by.isoformat(),
            why=f"make {need.amount_words} by {need.recipe}: {need.why}",
        )
        for need in plan.make
        if need.begin_by <= last
    ]
    for key, takings in plan.takings.items():
        needs = plan.receipts[key]
        for demand, need, quantity in _lacking(takings, needs):
            in_time = need.recipe is not None and need.there_from <= demand.on
            if in_time or min(need.begin_by, demand.on) > last:
                continue
            items.append(
                Due(
                    kind="short",
                    code=demand.bookings[0],
                    name=named[demand.bookings[0]],
                    by=demand.on.isoformat(),
                    why=_short(demand, need, quantity),
                )
            )
    return items


def _lacking(takings: Sequence[Taking], needs: Sequence[Need]) -> list[tuple[Demand, Need, int]]:
    """Return each demand that is not there, what is to come for it, and how much of it lacks."""
    found: dict[int, tuple[Demand, Need, int]] = {}
    for one in takings:
        if one.receipt is not None:
            demand, need, quantity = found.get(id(one.demand), (one.demand, needs[one.receipt], 0))
            later = max(need, needs[one.receipt], key=lambda each: each.there_from)
            found[id(one.demand)] = (demand, later, quantity + one.quantity)
    return list(found.values())


def _short(demand: Demand, need: Need, lacking: int) -> str:
    material = need.material
    needed, there = goods(material, demand.quantity), goods(material, demand.quantity - lacking)
    what = "" if demand.making is None else f" for {demand.what}"
    words = f"{material.name}: {needed} needed{what}, {there} will be fit to use"
    if material.dimension is Dimension.USES:
        return f"{words}; {CUT_ONE}"
    if need.there_from > demand.on:
        return f"{words}; there on {need.there_from} at the earliest"
    return f"{words}; order by {need.begin_by}"
