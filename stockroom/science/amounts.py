"""The amount on a recipe's line, as the trade writes it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import Unreadable
from stockroom.science.numerals import NUMERAL, quoted, read_decimal, read_numeral, show_number, tidy
from stockroom.science.quantities import Dimension, Quantity, amount_text, show
from stockroom.science.ratios import read_parts, show_parts
from stockroom.science.strengths import Strength, read_strength


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """A share of the whole volume: `1 in 4`."""

    parts: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class OfStrength:
    """So much that the finished volume has this strength: `0.5 % w/v`."""

    strength: Strength


@dataclass(frozen=True, slots=True)
class MakeUp:
    """The liquid that fills up to the volume: `make up`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Each:
    """So many for each piece treated: `2 each`, `2 each of 30 x 40 cm`, `2 each of 30 x 40 cm grain along`."""

    number: Fraction
    sides_um: tuple[int, int] | None = None
    """Of a piece that is cut from a sheet."""
    grain: str | None = None
    """Along or across the piece's first side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaTimes:
    """A multiple of the object's area, with a margin added on every side first: `2 x area + 3 cm`."""

    times: Fraction
    margin_um: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """The same amount whatever is treated: `50 mL`."""

    quantity: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class ToReading:
    """As much as brings a measured reading into a range: `to pH 8.0-8.5`."""

    measure: str
    low: Decimal
    high: Decimal


Amount = Share | OfStrength | MakeUp | Each | AreaTimes | Fixed | ToReading

_MAKE_UP = r"(?i)make up(?: to volume)?"
_EACH = rf"(?i)({NUMERAL}) each(?: of (.+?)(?:,? grain (along|across))?)?"
_AREA = rf"(?i)({NUMERAL}) ?[x×*] ?area(?: ?\+ ?(.+))?"
_READING = rf"(?i)to ([^\W\d_][^\W\d_ ]*(?: [^\W\d_]+)*) ({NUMERAL}) ?(?:-|–| to ) ?({NUMERAL})"
_SHARE = rf"(?i){NUMERAL}(?: parts?)? ?(?:in|\+|:|/|to) ?{NUMERAL}(?: parts?)?"
_STRENGTH = rf"(?i){NUMERAL} ?(?:%|per ?cent|ppm|(?-i:m?M$)|[a-z]+ ?(?:/|per )).*"


def read_amount(text: str) -> Amount:
    """Read a recipe line's amount, any of the forms above. Raises Unreadable."""
    # a stored recipe is never read from text again: what only uses amounts need not wait for this
    from stockroom.science.reading import read_quantity, read_size

    plain = tidy(text)
    if re.fullmatch(_MAKE_UP, plain):
        return MakeUp()
    if match := re.fullmatch(_EACH, plain):
        sides = read_size(match[2]) if match[2] else None
        return Each(number=_positive(match[1], text), sides_um=sides, grain=match[3] and match[3].lower())
    if match := re.fullmatch(_AREA, plain):
        margin = read_quantity(match[2], expect=Dimension.LENGTH).quantity.quanta if match[2] else 0
        return AreaTimes(times=_positive(match[1], text), margin_um=margin)
    if plain.lower().startswith("to "):
        return _read_reading(plain, text)
    if re.fullmatch(_SHARE, plain):
        return Share(parts=read_parts(text))
    if re.fullmatch(_STRENGTH, plain):
        return OfStrength(strength=read_strength(text))
    read = read_quantity(text)
    if read.about:
        raise Unreadable(f"{quoted(text)} is not exact. A recipe needs the amount itself, such as 50 mL.", read=text)
    return Fixed(quantity=read.quantity)


def show_amount(amount: Amount) -> str:
    """Write an amount so that it reads back as the same."""
    match amount:
        case Share(parts=parts):
            return show_parts(parts)
        case OfStrength(strength=strength):
            return strength.show()
        case MakeUp():
            return "make up"
        case Each(number=number, sides_um=sides, grain=grain):
            size = " x ".join(amount_text(Quantity(Dimension.LENGTH, side))[0] for side in sides or ())
            return (
                f"{show_number(number)} each"
                + (f" of {size} mm" if size else "")
                + (f" grain {grain}" if grain else "")
            )
        case AreaTimes(times=times, margin_um=0):
            return f"{show_number(times)} x area"
        case AreaTimes(times=times, margin_um=margin_um):
            return f"{show_number(times)} x area + {show(Quantity(Dimension.LENGTH, margin_um))}"
        case Fixed(quantity=quantity):
            return show(quantity)
        case ToReading(measure=measure, low=low, high=high):
            return f"to {measure} {low:f}-{high:f}"


def _read_reading(plain: str, text: str) -> ToReading:
    match = re.fullmatch(_READING, plain)
    if not match:
        raise Unreadable(
            f"{quoted(text)} is not a reading to reach. Write its range, such as to pH 8.0-8.5.", read=text
        )
    low, high = read_decimal(match[2]), read_decimal(match[3])
    if low > high:
        raise Unreadable(f"{quoted(text)}: the first number of the range must be the lower one.", read=text)
    return ToReading(measure=match[1], low=low, high=high)


def _positive(number: str, text: str) -> Fraction:
    value = read_numeral(number)
    if value == 0:
        raise Unreadable(f"{quoted(text)} is nothing. Write a number greater than nothing.", read=text)
    return value
