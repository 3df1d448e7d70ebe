"""How a solution with alcohol or another solvent is classed for fire, by flash point.

Below 23 °C and boiling above 35 °C H225, from 23 to 60 °C H226 (CLP Annex I, Table 2.6.1). Only ethanol-water has a
table, and its sources disagree on the unit; everything else takes the class of the pure solvent.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import BadInput
from stockroom.science.hazard_sums import Ground, Part
from stockroom.science.reference import Row, rows

Number = Decimal | Fraction | int

_CLASSES = ("H224", "H225", "H226")


def classify_flash_point(celsius: Number) -> str | None:
    """Give H225, H226 or none for a liquid that boils above 35 °C."""
    if celsius < _limit("H225 below"):
        return "H225"
    return "H226" if celsius <= _limit("H226 up to") else None


def flash_point_of_ethanol(percent_by_volume: Number) -> tuple[Fraction | None, tuple[Row, ...]]:
    """Read the flash point in °C of ethanol-water from the table, straight between its figures.

    None below the table's weakest mixture, which is above 60 °C already. Raises BadInput outside 0 to 100 % v/v.
    """
    percent = Fraction(percent_by_volume)
    if not 0 <= percent <= 100:
        raise BadInput(f"Ethanol is given as 0 to 100 % v/v of the finished solution; {float(percent):g} is not.")
    points = [(Fraction(row.what.split()[0]), row) for row in rows("flash_points") if row.of == "ethanol-water"]
    if percent < points[0][0]:
        return None, (points[0][1],)
    below = max((point for point in points if point[0] <= percent), key=lambda point: point[0])
    above = min((point for point in points if point[0] >= percent), key=lambda point: point[0])
    if below[0] == above[0]:
        return Fraction(below[1].span[0]), (below[1],)
    low, high = Fraction(below[1].span[0]), Fraction(above[1].span[0])
    return low + (high - low) * (percent - below[0]) / (above[0] - below[0]), (below[1], above[1])


def judge_fire(
    parts: Sequence[Part],
    *,
    ethanol_percent_by_volume: Number | None = None,
    flash_point_c: Number | None = None,
) -> Ground | None:
    """Judge how easily a solution takes fire; None where nothing in it is a flammable liquid.

    `flash_point_c` is one that the keeper recorded from a sheet and goes before everything else. The table serves
    only where ethanol is the one solvent and `ethanol_percent_by_volume` is known.
    """
    if flash_point_c is not None:
        return _recorded(flash_point_c)
    floor = _row("solvent left out below")
    solvents = [part for part in parts if part.codes & set(_CLASSES) and part.percent >= Fraction(floor.span[0])]
    only_ethanol = all("ethanol" in part.of.split("-") for part in solvents)
    if ethanol_percent_by_volume is not None and only_ethanol:
        return _by_table(ethanol_percent_by_volume)
    if not solvents:
        return None
    strictest = min(code for part in solvents for code in part.codes & set(_CLASSES))
    named = ", ".join(part.of for part in solvents)
    words = (
        f"{strictest}, the class of the pure solvent ({named}): no flash points of this mixture are known here."
        " The keeper may record one from a sheet"
    )
    return Ground(codes=(strictest,), words=words, rows=(floor,))


def _recorded(celsius: Number) -> Ground:
    code, stricter, milder = _readings(Fraction(celsius))
    words = f"Flash point {float(celsius):g} °C as recorded from a sheet: {code or 'no class for fire'}"
    near = stricter != milder
    if near:
        words += "; near the limit"
    return Ground(codes=(code,) if code else (), words=words, rows=_limits(), near_limit=near)


def _by_table(percent: Number) -> Ground | None:
    if percent == 0:
        return None
    celsius, found = flash_point_of_ethanol(percent)
    units = "the sources disagree whether their figures are by weight or by volume: read by volume, the cautious way"
    if celsius is None:
        words = f"{float(percent):g} % v/v of ethanol lies below the table, flash point above 60 °C; {units}"
        return Ground(codes=(), words=words, rows=(*found, *_limits()))
    _, code, milder = _readings(celsius)
    words = f"Flash point about {float(celsius):.0f} °C at {float(percent):g} % v/v of ethanol; {units}"
    near = code != milder
    if near:
        words += ". Near the limit: labelled as the stricter class"
    return Ground(codes=(code,) if code else (), words=words, rows=(*found, *_limits()), near_limit=near)


def _readings(celsius: Fraction) -> tuple[str | None, str | None, str | None]:
    """Give the class at a flash point, and at both ends of what it may be off by."""
    off = _limit("near")
    return classify_flash_point(celsius), classify_flash_point(celsius - off), classify_flash_point(celsius + off)


def _row(what: str) -> Row:
    return next(row for row in rows("flash_points") if row.of == "limit" and row.what == what)


def _limit(what: str) -> Fraction:
    return Fraction(_row(what).span[0])


def _limits() -> tuple[Row, ...]:
    return _row("H225 below"), _row("H226 up to"), _row("near")
