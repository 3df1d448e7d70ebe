"""Strengths from any unit into any other, and what comes of mixing two solutions or topping one up."""

from __future__ import annotations

from decimal import Decimal, localcontext
from fractions import Fraction

from stockroom.errors import BadInput
from stockroom.science.strengths import Number, Strength, grams_per_litre, read_strength


def convert(
    strength: Strength,
    unit: str,
    *,
    molar_mass: Number | None = None,
    density_g_per_ml: Number | None = None,
    solute_density_g_per_ml: Number | None = None,
) -> Strength:
    """Write a strength in another unit; `density_g_per_ml` is that of the solution, the other that of the pure liquid.

    Raises BadInput naming what is missing, or the unit, or a share of more than the whole.
    """
    if strength.unit == unit:
        return strength
    known = {
        "molar_mass": molar_mass,
        "density_g_per_ml": density_g_per_ml,
        "solute_density_g_per_ml": solute_density_g_per_ml,
    }
    # What one of the unit is in g/L is its own conversion, so that the definitions stand in one place only.
    of_one = grams_per_litre(Strength(number=Decimal(1), unit=unit), **known)
    number = grams_per_litre(strength, **known) / of_one
    if unit in ("% v/v", "% w/w") and number > 100:
        raise BadInput(f"{strength.show()} would be more than the whole: at most 100 {unit}. Look at the densities.")
    return Strength(number=_decimal(number), unit=unit)


def read_unit(text: str) -> str:
    """Read a unit of strength, such as `g/L` or `% w/v`. Raises Unreadable, naming those that are accepted."""
    return read_strength(f"1 {text}").unit


def mix(one: Strength, one_ul: int, other: Strength | None, other_ul: int) -> Strength:
    """Give the strength of two solutions poured together, or of one topped up with water where `other` is None.

    Volumes are added: right for dilute solutions in water, not for alcohol and water (50 mL and 50 mL make 96.3 mL),
    which are made up to volume instead. Raises BadInput for units that differ, % v/v and % w/w.
    """
    if one_ul <= 0 or other_ul < 0:
        raise BadInput("Both volumes must be more than nothing.")
    if other is not None and other.unit != one.unit:
        raise BadInput(f"Write both strengths in one unit: these are {one.show()} and {other.show()}.")
    if one.unit in ("% v/v", "% w/w", "ppm"):
        why = {
            "% v/v": "alcohol and water shrink on mixing (50 mL and 50 mL make 96.3 mL): make up to volume",
        }.get(one.unit, "strengths by mass are mixed by mass: write g/L, with the density")
        raise BadInput(f"{one.show()} cannot be mixed by adding volumes: {why}.")
    whole = Fraction(one.number) * one_ul + (Fraction(other.number) * other_ul if other else 0)
    return Strength(number=_decimal(whole / (one_ul + other_ul)), unit=one.unit)


def _decimal(number: Fraction) -> Decimal:
    with localcontext() as context:
        context.prec = 12
        return (Decimal(number.numerator) / Decimal(number.denominator)).normalize()
