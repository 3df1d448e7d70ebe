"""The cost of what is used and what is left of things alike, by the formulas of IAS 2 Inventories, paragraphs 23 to 27.

First in, first out (the earliest bought are used first), the moving average (worked out anew as each delivery comes)
and the average of a period. Quantities are whole quanta, money whole minor units. Nothing is lost to rounding: what
was used and what is left always add up to what came in, and nothing left is worth nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stockroom.science.sharing import round_half_even_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """So much of a thing, and what it is worth as a whole."""

    quantity: int = 0
    value: int = 0
    base_quantity: int = 0
    """What it held when something last came in."""
    base_value: int = 0

    def bring_in(self, quantity: int, value: int) -> Pool:
        """Put so much in, at what it cost."""
        quantity, value = self.quantity + quantity, self.value + value
        return Pool(quantity=quantity, value=value, base_quantity=quantity, base_value=value)

    def take(self, quantity: int) -> tuple[Pool, int]:
        """Take so much out at the average; return what is left and the value that goes. The last takes the rest.

        What goes is rounded over all that was taken since something last came in, so that no draw is favoured.
        Raises ValueError for more than there is.
        """
        if not 0 <= quantity <= self.quantity:
            raise ValueError(f"{quantity} of {self.quantity} cannot be taken")
        left = self.quantity - quantity
        stays = round_half_even_ratio(self.base_value * left, self.base_quantity) if left else 0
        value = max(0, self.value - stays)
        return replace(self, quantity=left, value=self.value - value), value


Move = tuple[int, int]
"""So many in (above nothing) at a cost of so much, or so many out (below nothing), for which the cost is not read."""


def moving_average(moves: Sequence[Move]) -> tuple[list[int], Pool]:
    """Return the cost of each issue at the moving average, and what is left."""
    pool, issues = Pool(), []
    for quantity, value in moves:
        if quantity >= 0:
            pool = pool.bring_in(quantity, value)
        else:
            pool, cost = pool.take(-quantity)
            issues.append(cost)
    return issues, pool


def first_in_first_out(moves: Sequence[Move]) -> tuple[list[int], Pool]:
    """Return the cost of each issue, the earliest bought first, and what is left."""
    layers: list[Pool] = []
    issues: list[int] = []
    for quantity, value in moves:
        if quantity >= 0:
            layers.append(Pool().bring_in(quantity, value))
            continue
        wanted, cost = -quantity, 0
        while wanted:
            if not layers:
                raise ValueError("more goes out than there is")
            share = min(wanted, layers[0].quantity)
            layers[0], value = layers[0].take(share)
            wanted, cost = wanted - share, cost + value
            if not layers[0].quantity:
                layers.pop(0)
        issues.append(cost)
    left = Pool(quantity=sum(one.quantity for one in layers), value=sum(one.value for one in layers))
    return issues, left


def periodic_average(moves: Sequence[Move]) -> tuple[int, Pool]:
    """Return the cost of all issues together at the average of the whole period, and what is left."""
    came = sum(quantity for quantity, _ in moves if quantity >= 0)
    cost = sum(value for quantity, value in moves if quantity >= 0)
    left = sum(quantity for quantity, _ in moves)
    if left < 0:
        raise ValueError("more goes out than there is")
    value = round_half_even_ratio(cost * left, came) if left else 0
    return cost - value, Pool(quantity=left, value=value)
