"""The cost of things alike at their moving average, worked out anew as each delivery comes (IAS 2 Inventories, 27).

Quantities are whole quanta, money whole minor units. Nothing is lost to rounding: what was used and what is left
always add up to what came in, and nothing left is worth nothing.
"""

from __future__ import annotations

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
