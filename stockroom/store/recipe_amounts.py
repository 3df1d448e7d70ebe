"""The amount on a recipe's line, as stored: its kind and exact JSON."""

from __future__ import annotations

import json
from decimal import Decimal
from fractions import Fraction
from typing import Any

from stockroom.science.amounts import Amount, AreaTimes, Each, Fixed, MakeUp, OfStrength, Share, ToReading
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.strengths import Strength


def stored_amount(amount: Amount | None) -> tuple[str, str]:
    """Return a line's kind and its amount as exact JSON, so that nothing needs parsing when it is used."""
    match amount:
        case None:
            return "bath", "{}"
        case Share(parts=parts):
            return "share", json.dumps([parts.numerator, parts.denominator])
        case OfStrength(strength=strength):
            return "strength", json.dumps([str(strength.number), strength.unit])
        case MakeUp():
            return "make up", "{}"
        case Each(number=number, sides_um=sides, grain=grain):
            cut = [*sides, grain] if sides else []
            return "each", json.dumps([number.numerator, number.denominator, *cut])
        case AreaTimes(times=times, margin_um=margin):
            return "area", json.dumps([times.numerator, times.denominator, margin])
        case Fixed(quantity=quantity):
            return "fixed", json.dumps([quantity.dimension.value, quantity.quanta])
        case ToReading(measure=measure, low=low, high=high):
            return "reading", json.dumps([measure, str(low), str(high)])
    raise TypeError(amount)


def read_stored_amount(kind: str, text: str) -> Amount | None:
    """Read a stored amount back."""
    value: Any = json.loads(text)
    match kind:
        case "bath":
            return None
        case "share":
            return Share(parts=Fraction(*value))
        case "strength":
            return OfStrength(strength=Strength(number=Decimal(value[0]), unit=value[1]))
        case "make up":
            return MakeUp()
        case "each":
            sides, grain = (tuple(value[2:4]), value[4]) if len(value) > 2 else (None, None)
            return Each(number=Fraction(*value[:2]), sides_um=sides, grain=grain)
        case "area":
            return AreaTimes(times=Fraction(value[0], value[1]), margin_um=value[2])
        case "fixed":
            return Fixed(quantity=Quantity(Dimension(value[0]), value[1]))
        case "reading":
            return ToReading(measure=value[0], low=Decimal(value[1]), high=Decimal(value[2]))
    raise ValueError(kind)
