"""How a material stands for buying: what is here and will keep, what is coming, what bookings take and lack."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.actions.order_points import longest_days, order_below
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.orders import Incoming, goods
from stockroom.planning.buying import Choice, Standing
from stockroom.planning.fitness import fitness
from stockroom.planning.needs import Need, Plan
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of all materials at a local moment."""

    lots: Sequence[Lot]
    coming: Sequence[Incoming]
    """Of orders placed and drafted."""
    plan: Plan
    """For the booked treatments; it counts on what was placed."""
    local: datetime
    within: int
    """How many days ahead to look for what is to be ordered."""


def standing_of(store: Store, material: Material, known: Known, choices: Sequence[Choice]) -> Standing:
    """Bring together how a material stands; of the reckoned amount and the one set by hand the higher counts.

    A lot that will be past its date before a delivery comes does not count as here, nor does what bookings take of it.
    """
    today = known.local.date()
    days = longest_days(choices)
    arrival = (today + timedelta(days=days)).isoformat()
    lots = [lot for lot in known.lots if lot.material.id == material.id]
    lots = [lot for lot in lots if fitness(lot, known.local).kind in ("fit", "not-ready")]
    going = [lot for lot in lots if lot.use_by and lot.use_by[:10] < arrival]
    own = [one for one in known.coming if one.material.id == material.id]
    taken, needs = _booked(material, known, days, {lot.code for lot in going}, own)
    point = order_below(store, material, choices, today)
    return Standing(
        material=material,
        here=_held(lots) - _held(going),
        coming=sum(one.quantity for one in own),
        notes=(*_going_words(material, _held(going)), *(_coming_words(one) for one in own)),
        taken=tuple(taken),
        needs=tuple(needs),
        below=point.below,
        below_why=point.why,
        yearly=point.yearly,
    )


def _booked(
    material: Material, known: Known, days: int, going: set[str], own: Sequence[Incoming]
) -> tuple[list[tuple[date, int]], list[Need]]:
    """Return what bookings take of what counts, by day, and what they lack."""
    horizon = known.local.date() + timedelta(days=known.within + days)
    takings = [one for one in known.plan.takings.get(material.id, []) if one.demand.on <= horizon]
    taken = [(one.demand.on, one.quantity) for one in takings if one.receipt is None and one.source not in going]
    lacking: dict[int, int] = defaultdict(int)
    for one in takings:
        if one.receipt is not None:
            lacking[one.receipt] += one.quantity
    drafted = sum(one.quantity for one in own if one.state == "drafted")
    needs: list[Need] = []
    for number, quantity in sorted(lacking.items()):
        # the plan counts on what was placed; what is drafted serves the first that lacks
        need = known.plan.receipts[material.id][number]
        served = min(drafted, quantity)
        drafted -= served
        taken.append((need.by, served))
        if quantity > served:
            needs.append(replace(need, quantity=quantity - served))
    return taken, needs


def _held(lots: Iterable[Lot]) -> int:
    return sum(lot.balance.quantity for lot in lots)


def _going_words(material: Material, quanta: int) -> tuple[str, ...]:
    return (f"{goods(material, quanta)} here will be past its date before a delivery comes",) if quanta else ()


def _coming_words(one: Incoming) -> str:
    amount = goods(one.material, one.quantity)
    if one.state == "drafted":
        return f"{amount} drafted in {one.order}"
    return f"{amount} on order ({one.order}" + (f", expected {one.expected_on})" if one.expected_on else ")")
