"""How much of a lot does the work of what was reckoned with, where their purities differ."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from stockroom.domain.lots import Lot
from stockroom.planning.picking import Draw
from stockroom.planning.requirements import Need, measurable, purity_of
from stockroom.science.amounts import OfStrength


def share_drawn(need: Need, draws: Sequence[Draw]) -> Fraction:
    """Return the substance drawn over what was asked for, as the lots are pure."""
    planned, factor = need.total, lot_factor(need)
    if planned is None or not planned.quanta:
        return Fraction(1)
    return sum((draw.quantity / factor(draw.lot) for draw in draws), Fraction(0)) / planned.quanta


def measured_factor(need: Need) -> Callable[[Lot], Fraction]:
    """As `lot_factor`, but so that each fill takes of one lot what a hand can measure, rounded only once."""
    exact, per_fill, factor = need.exact, need.per_fill, lot_factor(need)
    if exact is None or per_fill is None:
        return factor
    return lambda lot: Fraction(measurable(exact * factor(lot)), per_fill.quanta)


def lot_factor(need: Need) -> Callable[[Lot], Fraction]:
    """Return how much of a lot does the work of one quantum, where its purity differs from what was reckoned with."""
    amount = need.line.amount
    if need.purity is None or not isinstance(amount, OfStrength):
        return lambda _: Fraction(1)
    reckoned, unit = need.purity, amount.strength.unit

    def of_lot(lot: Lot) -> Fraction:
        purity = purity_of(lot.material, lot.purity, unit)
        return reckoned / purity if purity else Fraction(1)

    return of_lot
