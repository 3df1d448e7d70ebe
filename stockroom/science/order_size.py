"""How much to order at once: the quantity at which ordering and keeping together cost least.

Only advice: what is needed and how packs are sold come first. All quantities are in one unit, all costs in another,
all times in years; results are estimates.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor, sqrt

from stockroom.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderSize:
    """A quantity to order at once, and what a year costs with it."""

    quantity: float
    price: float
    """Of one unit."""
    yearly_cost: float
    """Goods, ordering and keeping."""


def economic_quantity(yearly_use: float, order_cost: float, keeping_cost: float) -> float:
    """Return sqrt(2 D S / H): D used a year, S the cost of an order, H that of keeping one unit for a year.

    Source: F. W. Harris, "How Many Parts to Make at Once", Factory, The Magazine of Management 10(2), 1913, 135-136
    and 152. Raises BadInput where one of them is not more than nothing.
    """
    if min(yearly_use, order_cost, keeping_cost) <= 0:
        raise BadInput("Use, the cost of an order and the cost of keeping must each be more than nothing.")
    return sqrt(2 * yearly_use * order_cost / keeping_cost)


def yearly_cost(quantity: float, yearly_use: float, order_cost: float, keeping_cost: float) -> float:
    """Return what ordering and keeping cost a year: D S / Q + H Q / 2 (Harris 1913, without the goods)."""
    return yearly_use * order_cost / quantity + keeping_cost * quantity / 2


def in_whole_packs(pack: float, yearly_use: float, order_cost: float, keeping_cost: float) -> int:
    """Return how many packs to order at once, at least one.

    The cost is convex in the quantity, so only the packs just below and just above the economic quantity compare.
    """
    best = economic_quantity(yearly_use, order_cost, keeping_cost) / pack
    fewer, more = max(1, floor(best)), max(1, ceil(best))
    costs = [yearly_cost(packs * pack, yearly_use, order_cost, keeping_cost) for packs in (fewer, more)]
    return fewer if costs[0] <= costs[1] else more


def best_at_breaks(
    prices: Sequence[tuple[float, float]], yearly_use: float, order_cost: float, keeping_share: float
) -> OrderSize:
    """Return the quantity that costs least a year where all units of an order get the price its size earns.

    `prices` are (from this quantity on, price of one unit), ascending in quantity and the first from nothing or more;
    `keeping_share` is what keeping costs a year as a share of the price. At each price the economic quantity is moved
    up to the least that earns it; one that would earn a lower price is left to that price. Compared is the whole cost
    D C + S D / Q + i C Q / 2. Raises BadInput as economic_quantity does, and for prices that do not fall.
    """
    if any(later[0] <= sooner[0] or later[1] >= sooner[1] for sooner, later in pairwise(prices)):
        raise BadInput("Price breaks go down in price as the quantity goes up.")
    found: list[OrderSize] = []
    for index, (least, price) in enumerate(prices):
        quantity = max(least, economic_quantity(yearly_use, order_cost, keeping_share * price))
        if index + 1 < len(prices) and quantity >= prices[index + 1][0]:
            continue
        whole = yearly_use * price + yearly_cost(quantity, yearly_use, order_cost, keeping_share * price)
        found.append(OrderSize(quantity=quantity, price=price, yearly_cost=whole))
    return min(found, key=lambda one: one.yearly_cost)
