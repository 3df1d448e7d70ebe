"""Waste cans and what was poured into them."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.lots import Lot
from stockroom.science.quantities import Dimension, Quantity

DRAIN, BIN = "drain", "bin"
"""Where waste goes that is poured into no can."""

WASTE_KEY = "waste"
"""Key of the material that waste cans are lots of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WasteCan:
    """A can for waste. It is a lot without value; its lot's name is what is written on it."""

    lot: Lot
    capacity: Quantity

    @property
    def vented(self) -> bool:
        """Whether its closure lets gas out."""
        return self.lot.material.vented

    @property
    def room(self) -> Quantity:
        """What still goes in; nothing where a count found it fuller than it should be."""
        return Quantity(Dimension.VOLUME, max(0, self.capacity.quanta - self.lot.amount.quanta))


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured:
    """One pouring into a can, in effect."""

    action: str
    day: str
    by: str
    why: str | None
    lot: Lot
    """What it came from."""
    quantity: Quantity
    """As it was measured in its own lot."""
    takes_up: Quantity
    """The room it takes in the can."""
