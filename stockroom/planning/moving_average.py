"""The ledger at the moving average of each material: a view beside the books, which keep each lot's own cost."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from stockroom.domain.ledger import Entry, Place
from stockroom.science.cost_formulas import Pool
from stockroom.science.sharing import share_out


@dataclass(slots=True)
class Averages:
    """What is held of each material at its moving average, and where the value went. Minor units."""

    pools: dict[int, Pool] = field(default_factory=lambda: defaultdict(Pool))
    """By the material's id."""
    bought: int = 0
    used: int = 0
    """What jobs, studio, waste and differences took; with what is held it is what was bought."""
    _drawn: dict[Place, list[int]] = field(default_factory=dict)
    """Quantity and value that stand of each draw, so that what comes back brings its own value."""

    @property
    def held(self) -> int:
        return sum(pool.value for pool in self.pools.values())

    def take(self, material: int, quantity: int) -> int:
        """Take so much out of a pool, at most what it holds; return the value."""
        pool, value = self.pools[material].take(min(quantity, self.pools[material].quantity))
        self.pools[material] = pool
        return value

    def bring_in(self, material: int, quantity: int, value: int) -> None:
        """Put so much into a pool; value for a pool that holds nothing is used up at once."""
        pool = self.pools[material].bring_in(quantity, value)
        if not pool.quantity or pool.value < 0:
            self.used += pool.value
            pool = Pool(quantity=pool.quantity, base_quantity=pool.quantity)
        self.pools[material] = pool

    def remember(self, place: Place, quantity: int, value: int) -> None:
        self._drawn[place] = [quantity, value]

    def comes_back(self, place: Place | None, quantity: int) -> int:
        """Return the value that comes back with so much of a draw: its share; the last to come takes the rest."""
        drawn = self._drawn.get(place, [0, 0]) if place else [0, 0]
        if not drawn[0]:
            return 0
        value = drawn[1] if quantity >= drawn[0] else drawn[1] * quantity // drawn[0]
        drawn[0], drawn[1] = max(0, drawn[0] - quantity), drawn[1] - value
        return value


def at_moving_average(entries: Iterable[Entry], material_of: Mapping[int, int]) -> Averages:
    """Work every movement out at the moving average of its material, in the order of booking.

    `material_of` gives the material's id of each lot. What goes from lot to lot takes the average along. A price put
    right later changes the pool as it is then.
    """
    found = Averages()
    for _, booked in groupby(entries, key=lambda entry: entry.place[0]):
        _action(found, list(booked), material_of)
    return found


def _action(found: Averages, booked: Sequence[Entry], material_of: Mapping[int, int]) -> None:
    # value passed on without quantity follows the lots' own costs: here the pools follow the deliveries alone
    own = [one for one in booked if one.quantity or one.other_end == "supplier"]
    passed = 0
    for one in own:
        material = material_of[one.lot]
        if one.other_end == "supplier" and one.quantity >= 0:
            found.bought += one.value
            found.bring_in(material, one.quantity, one.value)
        elif one.quantity > 0 and (one.other_end != "lot" or one.reverses):
            value = found.comes_back(one.refers or one.reverses, one.quantity)
            if one.other_end == "lot":
                passed -= value
            else:
                found.used -= value
            found.bring_in(material, one.quantity, value)
    passed += _outs(found, own, material_of)
    into = [one for one in own if one.quantity > 0 and one.other_end == "lot" and not one.reverses]
    if not into:
        found.used += passed
        return
    weights = [one.value for one in into] if any(one.value > 0 for one in into) else [one.quantity for one in into]
    for one, share in zip(into, share_out(passed, [max(0, weight) for weight in weights]), strict=True):
        found.bring_in(material_of[one.lot], one.quantity, share)


def _outs(found: Averages, own: Sequence[Entry], material_of: Mapping[int, int]) -> int:
    """Take out what goes out; return the value that goes into other lots."""
    passed = 0
    for one in own:
        if one.quantity >= 0:
            continue
        value = found.take(material_of[one.lot], -one.quantity)
        found.remember(one.place, -one.quantity, value)
        if one.other_end == "lot":
            passed += value
            continue
        if one.other_end == "evaporated":
            found.remember(one.place, -one.quantity, 0)
            found.bring_in(material_of[one.lot], 0, value)  # the water goes and leaves its value
            continue
        credit = -one.value if one.other_end == "supplier" else 0
        found.bought -= credit
        found.used += value - credit
    return passed
