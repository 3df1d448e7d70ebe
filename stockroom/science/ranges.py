"""Figures with their spread, what they rest on, and how they are written: never with more digits than they have.

Estimates are floats; nothing here is booked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from math import ceil, floor, isfinite, log10

from stockroom.errors import BadInput
from stockroom.science.reference import Row

_MOST_DIGITS = 3
"""No estimate of the bench is worth more significant digits, but for a pH, whose whole part only tells the size."""


_ROUNDING = 1e-9
"""More than a float is off by: a tenth either way is worth tenths, whatever 8.3 less 8.1 comes to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A figure between its lowest and its highest, in `unit`."""

    low: float
    best: float
    high: float
    unit: str

    def __post_init__(self) -> None:
        """Refuse what is no range."""
        if not (isfinite(self.low) and isfinite(self.high) and self.low <= self.best <= self.high):
            raise BadInput(f"{self.low}, {self.best}, {self.high} {self.unit} do not rise from lowest to highest.")

    @property
    def half_width(self) -> float:
        """Half of the distance between its ends."""
        return (self.high - self.low) / 2

    def times(self, factor: float, unit: str | None = None) -> Range:
        """Multiply by a figure that is not negative."""
        return Range(low=self.low * factor, best=self.best * factor, high=self.high * factor, unit=unit or self.unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """A figure that an answer was made from; without rows it was measured or stated here."""

    what: str
    figure: Range
    rows: tuple[Row, ...] = ()
    own: str = ""
    """Where the studio's own figure comes from, in words; nothing for one of the tables or of this very reading."""


def exactly(value: float, unit: str) -> Range:
    """Give a figure without spread."""
    return Range(low=value, best=value, high=value, unit=unit)


def give_or_take(value: float, error: float, unit: str) -> Range:
    """Give a measured figure with its error, either of which is never negative. Raises BadInput."""
    if not (isfinite(value) and isfinite(error) and value >= 0 and error >= 0):
        raise BadInput(f"{value:g} ± {error:g} {unit}: a reading and its error cannot be negative. Look at the sign.")
    return Range(low=max(0.0, value - error), best=value, high=value + error, unit=unit)


def spread(values: Sequence[float], unit: str) -> Range:
    """Span several figures of the same thing; the best is the middle one, or the mean of the middle two."""
    ordered = sorted(values)
    half = len(ordered) // 2
    best = ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2
    return Range(low=ordered[0], best=best, high=ordered[-1], unit=unit)


def quotient(above: Range, below: Range, unit: str, scale: float = 1) -> Range:
    """Divide one range by another, the worst of each against the worst of the other."""
    return Range(
        low=scale * above.low / below.high,
        best=scale * above.best / below.best,
        high=scale * above.high / below.low,
        unit=unit,
    )


def rounded(figure: Range) -> tuple[Decimal, Decimal, Decimal]:
    """Round low, best and high to the place of the first digit of their half-width, three digits at most.

    A figure without spread is left as it is stated, to six digits.
    """
    if figure.half_width == 0:
        stated = Decimal(f"{figure.best:.6g}")
        return stated, stated, stated
    place = max(_last_digit(figure), floor(log10(figure.half_width) + _ROUNDING))
    low, best, high = (_round(value, place) for value in (figure.low, figure.best, figure.high))
    return low, best, high


def rounded_alone(figure: Range) -> Decimal:
    """Round the best of a range to stand on its own: its last digit is worth at least the half-width."""
    if figure.half_width == 0:
        return rounded(figure)[1]
    return _round(figure.best, max(_last_digit(figure), ceil(log10(figure.half_width) - _ROUNDING)))


def show_range(figure: Range) -> str:
    """Write a range for people: `94 to 104 %, likeliest 98 %`, or `1.60 g/L` where its ends round alike."""
    low, best, high = (f"{value:f}" for value in rounded(figure))
    unit = f" {figure.unit}" if figure.unit else ""
    if low == high:
        return f"{best}{unit}"
    return f"{low} to {high}{unit}, likeliest {best}{unit}"


def show_best(figure: Range) -> str:
    """Write the best of a range on its own: `about 1.6 g/L`."""
    return f"about {rounded_alone(figure):f} {figure.unit}"


def _last_digit(figure: Range) -> int:
    """Give the place, as a power of ten, of the last digit that is worth writing of figures of this size."""
    most = _MOST_DIGITS + 2 if figure.unit == "pH" else _MOST_DIGITS
    return floor(log10(max(abs(figure.low), abs(figure.high)))) - most + 1


def _round(value: float, place: int) -> Decimal:
    step = Decimal((0, (1,), place))
    rounded_down = Decimal(repr(value)).quantize(step, ROUND_HALF_EVEN)
    # Tens and hundreds are written out, without an exponent.
    return rounded_down.quantize(Decimal(1)) if place > 0 else rounded_down
