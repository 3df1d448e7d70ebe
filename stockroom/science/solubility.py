"""How much calcium hydroxide water holds: two families of figures, one measured point, and what lies between them.

The families disagree by 5 % and lie 6 to 11 % above the point measured by Bates, Bower and Smith 1956 (0.0203 mol/L
at 25 °C). That point is carried to other temperatures along family B. The best figure is the middle one of the three.
"""

from __future__ import annotations

from functools import lru_cache

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used, exactly, quotient, spread
from stockroom.science.reference import Row
from stockroom.science.temperature import check_temperature, curve, row_of

SUBSTANCE = "calcium hydroxide"
_TABLE = "calcium_hydroxide_solubility"
_POINT_AT = 25.0


def molar_mass() -> Row:
    """Give the row of its molar mass in g/mol."""
    return row_of(_TABLE, SUBSTANCE, "molar mass")


@lru_cache(maxsize=256)
def saturation_at(celsius: float) -> Used:
    """Give the strength in g/L of the saturated solution, with every row it was read from.

    Raises BadInput off the table.
    """
    by_source, found = _by_source(celsius)
    return Used(
        what=f"strength of saturated {SUBSTANCE} at {celsius:g} °C", figure=spread(by_source, "g/L"), rows=found
    )


def default_limit(own: Used | float | None = None) -> Used:
    """Give the least share of saturation in % that serves: the studio's own, else the table's."""
    if isinstance(own, Used):
        return own
    if own is not None:
        return Used(what="limit, of saturation", figure=exactly(own, "%"), own="as typed")
    row = row_of(_TABLE, SUBSTANCE, "least share of saturation that serves")
    return Used(what="limit, of saturation", figure=spread([float(row.span[0])], "%"), rows=(row,))


def of_25_degrees(celsius: float) -> Used:
    """Give the saturated strength at a temperature over that at 25 °C. Raises BadInput off the table."""
    here, found = _by_source(celsius)
    there, _ = _by_source(_POINT_AT)
    shares = [one / other for one, other in zip(here, there, strict=True)]
    return Used(
        what=f"saturated strength at {celsius:g} °C over that at 25 °C", figure=spread(shares, "times"), rows=found
    )


def used_up_by(hardness_mg_per_l: float) -> Used:
    """Give the grams of calcium hydroxide used up by a litre of top-up water of a hardness as calcium carbonate.

    Raises BadInput for a hardness that no water has.
    """
    if not 0 <= hardness_mg_per_l <= 2_000:
        raise BadInput(
            f"A hardness of {hardness_mg_per_l:g} mg/L as calcium carbonate is not one of water: 0 to 2000 is read."
            " Deionised water has 0."
        )
    row = row_of(_TABLE, SUBSTANCE, "used up by hard water")
    grams = float(row.span[0]) * hardness_mg_per_l / 100
    return Used(what="used up by a litre of top-up water", figure=spread([grams], "g/L"), rows=(row,))


def _by_source(celsius: float) -> tuple[list[float], tuple[Row, ...]]:
    """Read family A, family B and the measured point carried along B, in g/L."""
    family_a, family_b = (curve(_TABLE, SUBSTANCE, f"solubility by family {name}") for name in "AB")
    low = max(family_a.limits[0], family_b.limits[0])
    high = min(family_a.limits[1], family_b.limits[1])
    check_temperature(celsius, low, high, f"saturated {SUBSTANCE}")
    (a, rows_a), (b, rows_b) = family_a.at(celsius), family_b.at(celsius)
    b_at_point, rows_b_at_point = family_b.at(_POINT_AT)
    point = row_of(_TABLE, SUBSTANCE, "saturated strength at 25 °C")
    measured = float(point.span[0]) * float(molar_mass().span[0])
    found = dict.fromkeys((*rows_a, *rows_b, point, molar_mass(), *rows_b_at_point))
    return [10 * a, 10 * b, measured * b / b_at_point], tuple(found)


def share_of_saturation(strength: Range, saturated: Range) -> Range:
    """Give a strength in % of saturation, by the whole of both ranges."""
    return quotient(strength, saturated, "%", 100)
