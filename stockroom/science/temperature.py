"""Tables over temperature: read straight between their figures, and never beyond them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from stockroom.errors import BadInput, NotFound, Unreadable
from stockroom.science.numerals import quoted, read_numeral
from stockroom.science.reference import Row, rows

_AT = r"(?P<what>.+) at (?P<celsius>-?[0-9]+(?:\.[0-9]+)?) °C"
_TYPED = r"(?P<sign>[-−]?)(?P<number>[0-9.,]+) ?(?:°? ?[cC]|°|degrees?|degrees? [cC](?:elsius)?)?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Figures of one source at rising temperatures."""

    of: str
    points: tuple[tuple[float, Row], ...]

    @property
    def limits(self) -> tuple[float, float]:
        """Its lowest and its highest temperature in °C."""
        return self.points[0][0], self.points[-1][0]

    def at(self, celsius: float) -> tuple[float, tuple[Row, ...]]:
        """Read the figure at a temperature, with the rows it was read between. Raises BadInput off the table."""
        check_temperature(celsius, *self.limits, self.of)
        below = max((point for point in self.points if point[0] <= celsius), key=lambda point: point[0])
        above = min((point for point in self.points if point[0] >= celsius), key=lambda point: point[0])
        low, high = float(below[1].span[0]), float(above[1].span[0])
        if below[0] == above[0]:
            return low, (below[1],)
        return low + (high - low) * (celsius - below[0]) / (above[0] - below[0]), (below[1], above[1])


@cache
def curve(table: str, of: str, what: str) -> Curve:
    """Find the rows of a table called `what at 20 °C`. Raises NotFound where there is none."""
    found = []
    for row in rows(table):
        match = re.fullmatch(_AT, row.what)
        if match and row.of == of and match["what"] == what:
            found.append((float(match["celsius"]), row))
    if not found:
        raise NotFound(f"There is no table of {what} of {of} here.")
    return Curve(of=f"{of}, {what}", points=tuple(sorted(found, key=lambda point: point[0])))


def row_of(table: str, of: str, what: str) -> Row:
    """Find the one row of a table by name. Raises NotFound."""
    for row in rows(table):
        if row.of == of and row.what == what:
            return row
    raise NotFound(f"The table {table} has no figure for {of}, {what}.")


def check_temperature(celsius: float, low: float, high: float, of: str) -> None:
    """Refuse a temperature that a table does not reach. Raises BadInput naming the limits."""
    if not low <= celsius <= high:
        raise BadInput(
            f"At {celsius:g} °C there is no figure for {of}: the table goes from {low:g} to {high:g} °C."
            " Look at the thermometer and its unit; beyond the table nothing is guessed.",
            celsius=celsius,
            low=low,
            high=high,
        )


def read_celsius(text: str) -> float:
    """Read a temperature in degrees Celsius: `22`, `22.5 °C`, `22,5 C`. Raises Unreadable."""
    match = re.fullmatch(_TYPED, text.strip())
    if not match:
        raise Unreadable(f"{quoted(text)} is not a temperature. Write degrees Celsius, such as 22 °C.", read=text)
    degrees = float(read_numeral(match["number"]))
    return -degrees if match["sign"] else degrees


def water_density(celsius: float) -> tuple[float, tuple[Row, ...]]:
    """Give the density of water in g/mL with its rows. Raises BadInput off the table."""
    value, found = curve("water_density", "water", "density").at(celsius)
    return value / 1_000, found
