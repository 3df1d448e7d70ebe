"""What is left in a container, from what it weighs: gross less tare, less undissolved solid, through the density."""

from __future__ import annotations

import re
from decimal import Decimal

from stockroom.errors import BadInput, Unreadable
from stockroom.science.measuring import reading_error
from stockroom.science.numerals import quoted, read_decimal, tidy
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.ranges import Range, give_or_take, quotient
from stockroom.science.reading import read_quantity

_WEIGHED = r"[0-9]+(?:[.,](?P<decimals>[0-9]+))? ?(?P<unit>[^\W\d_]+)"
_DENSITY = r"(?P<number>[0-9]+(?:[.,](?P<decimals>[0-9]+))?) ?(?:g ?/ ?mL)?"
WATER_G_PER_ML = (0.5, 3.0)
"""No liquid of the bench is lighter or heavier; anything else is a slip of the pen or another unit."""


def read_weighed(text: str) -> tuple[Quantity, int]:
    """Read what a balance shows, `812 g`, with the step of its last figure in micrograms. Raises Unreadable."""
    match = re.fullmatch(_WEIGHED, tidy(text))
    if not match:
        raise Unreadable(f"{quoted(text)} is not what a balance shows. Write it like 812 g or 812.4 g.", read=text)
    mass = read_quantity(text, expect=Dimension.MASS).quantity
    step = Decimal(1).scaleb(-len(match["decimals"] or ""))
    return mass, read_quantity(f"{step:f} {match['unit']}", expect=Dimension.MASS).quantity.quanta


def net_mass(gross_ug: int, tare_ug: int, step_ug: int) -> Range:
    """Give gross less tare in grams; each of the two readings is one step off at most. Raises BadInput."""
    if gross_ug <= tare_ug:
        gross, tare = (show(Quantity(Dimension.MASS, mass)) for mass in (gross_ug, tare_ug))
        raise BadInput(
            f"{gross} is no more than the empty container weighs ({tare}). Look at the balance and the tare."
        )
    off = 2 * step_ug * float(reading_error("balance").span[0])
    return give_or_take((gross_ug - tare_ug) / 1_000_000, off / 1_000_000, "g")


def typed_density(text: str) -> Range:
    """Read a density, `0.81 g/mL`, good to half of its last figure. Raises Unreadable, BadInput."""
    match = re.fullmatch(_DENSITY, tidy(text), re.IGNORECASE)
    if not match:
        raise Unreadable(f"{quoted(text)} is not a density. Write grams per millilitre, such as 0.81 g/mL.", read=text)
    value = float(read_decimal(match["number"]))
    low, high = WATER_G_PER_ML
    if not low <= value <= high:
        raise BadInput(f"{quoted(text)} is no density of a liquid: {low} to {high} g/mL is read here.")
    return give_or_take(value, 0.5 * 10.0 ** -len(match["decimals"] or ""), "g/mL")


def tabled_density(g_per_ml: float) -> Range:
    """Give a density from a table or a material, with what it may be off for the liquid in the jar."""
    return give_or_take(g_per_ml, g_per_ml * float(reading_error("density").span[0]) / 100, "g/mL")


def liquid_volume(net: Range, density: Range, solid: Range | None = None) -> Range:
    """Give the liquid in millilitres of a net mass in grams, less undissolved solid in grams.

    Raises BadInput where the solid alone may weigh as much.
    """
    if solid is not None:
        if net.low <= solid.high:
            raise BadInput(
                f"The solid in it may weigh {solid.high:.2g} g, as much as all that is left ({net.best:.3g} g): "
                "measure the liquid instead."
            )
        net = Range(low=net.low - solid.high, best=net.best - solid.best, high=net.high - solid.low, unit="g")
    return quotient(net, density, "mL")
