"""Amounts as whole numbers of one documented quantum each, and how they are written for people and programs.

    mass     microgram          length   micrometre
    volume   microlitre         pieces   thousandth of a piece
    area     square millimetre  uses     thousandth of a use

Only integer arithmetic, and nothing is imported that a quick command would have to wait for.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Dimension(StrEnum):
    """What kind of amount it is."""

    MASS = "mass"
    VOLUME = "volume"
    AREA = "area"
    LENGTH = "length"
    PIECES = "pieces"
    USES = "uses"


@dataclass(frozen=True, slots=True)
class Quantity:
    """So many quanta of one dimension. A difference may be negative; what lies on a shelf never is."""

    dimension: Dimension
    quanta: int

    def __add__(self, other: Quantity) -> Quantity:
        return Quantity(self.dimension, self.quanta + self._alike(other))

    def __sub__(self, other: Quantity) -> Quantity:
        return Quantity(self.dimension, self.quanta - self._alike(other))

    def __neg__(self) -> Quantity:
        return Quantity(self.dimension, -self.quanta)

    def _alike(self, other: Quantity) -> int:
        if other.dimension is not self.dimension:
            raise TypeError(f"a {other.dimension} cannot be reckoned with a {self.dimension}")
        return other.quanta


_PROGRAM_UNITS = {
    Dimension.MASS: ("g", 6),
    Dimension.VOLUME: ("mL", 3),
    Dimension.AREA: ("cm2", 2),
    Dimension.LENGTH: ("mm", 3),
    Dimension.PIECES: ("pieces", 3),
    Dimension.USES: ("uses", 3),
}
"""The unit that programs get, and how many decimal places hold every quantum of it."""


def amount_text(quantity: Quantity) -> tuple[str, str]:
    """Give the lossless decimal text and the unit that programs get: `("2.5", "g")`, `("125", "mL")`."""
    unit, places = _PROGRAM_UNITS[quantity.dimension]
    return _decimal_text(quantity.quanta, places), unit


def amount_and_unit(quantity: Quantity | None, name: str = "amount") -> dict[str, str | None]:
    """Give both as programs get them among other values, the amount by its name; None for each where there is none."""
    amount, unit = amount_text(quantity) if quantity else (None, None)
    return {name: amount, "unit": unit}


def show(quantity: Quantity) -> str:
    """Write an amount for people, losing nothing: `1.25 L`, `750 mg`, `12 pieces`, `0.4 m²`.

    What is shown of an amount that is not negative reads back as the same amount.
    """
    size = abs(quantity.quanta)
    match quantity.dimension:
        case Dimension.MASS if size == 0:
            unit, places = "g", 6
        case Dimension.MASS if size < 1_000:
            unit, places = "µg", 0
        case Dimension.MASS if size < 1_000_000:
            unit, places = "mg", 3
        case Dimension.MASS if size >= 1_000_000_000 and size % 1_000_000 == 0:
            unit, places = "kg", 9
        case Dimension.VOLUME if size >= 1_000_000 and size % 1_000 == 0:
            unit, places = "L", 6
        case Dimension.AREA if 0 < size < 100:
            unit, places = "mm²", 0
        case Dimension.AREA if size >= 1_000_000 or (size >= 200_000 and size % 1_000 == 0):
            unit, places = "m²", 6
        case Dimension.AREA:
            unit, places = "cm²", 2
        case Dimension.LENGTH if size >= 1_000_000 and size % 1_000 == 0:
            unit, places = "m", 6
        case Dimension.PIECES | Dimension.USES:
            unit, places = quantity.dimension.value, 3
            unit = unit[:-1] if size == 1_000 else unit
        case dimension:
            unit, places = _PROGRAM_UNITS[dimension]
    return f"{_decimal_text(quantity.quanta, places)} {unit}"


def show_about(quantity: Quantity, digits: int = 2) -> str:
    """Write an amount rounded half-even to so many significant digits: `about 1.6 g`."""
    step = 10 ** max(0, len(str(abs(quantity.quanta))) - digits)
    steps, left = divmod(quantity.quanta, step)
    if 2 * left > step or (2 * left == step and steps % 2):
        steps += 1
    return f"about {show(Quantity(quantity.dimension, steps * step))}"


def _decimal_text(whole: int, places: int) -> str:
    """Write `whole / 10**places` as a decimal without trailing zeros or exponent."""
    units, rest = divmod(abs(whole), 10**places)
    decimals = f"{rest:0{places}d}".rstrip("0") if rest else ""
    sign = "-" if whole < 0 else ""
    return f"{sign}{units}.{decimals}" if decimals else f"{sign}{units}"
