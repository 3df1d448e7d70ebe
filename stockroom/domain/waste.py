"""Waste cans and what was poured into them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.lots import Lot
from stockroom.science.quantities import Dimension, Quantity

DRAIN, BIN = "drain", "bin"
"""Where waste goes that is poured into no can."""

WASTE_KEY = "waste"
"""Key of the material that waste cans are lots of."""

NEARLY_FULL = Fraction(9, 10)
"""From here on a can is called nearly full; common practice, no source."""


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
    def nearly_full(self) -> bool:
        return self.lot.amount.quanta >= NEARLY_FULL * self.capacity.quanta

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
