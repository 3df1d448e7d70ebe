"""A charge for handling on top of materials: a percentage or a sum, always a line of its own."""

from __future__ import annotations

from stockroom.errors import BadInput
from stockroom.science.money import read_money
from stockroom.science.numerals import quoted, read_decimal
from stockroom.science.sharing import round_half_even_ratio

MOST_PERCENT = 1000


def percent_of(typed: str, amount: int) -> int:
    """Return a percentage of an amount in minor units, rounded once, half to even: `10 %`, `12.5`.

    Raises Unreadable, BadInput for more than MOST_PERCENT.
    """
    percent = read_decimal(typed.replace("%", "").strip() or typed)
    if percent > MOST_PERCENT:
        raise BadInput(f"{quoted(typed)} is more than {MOST_PERCENT} percent. Look at the number.")
    above, below = percent.as_integer_ratio()
    return round_half_even_ratio(amount * above, below * 100)


def handling_on(typed: str, amount: int, currency: str) -> int:
    """Return what handling adds to an amount: `12 %` of it, or a sum such as `5.00`. Raises Unreadable, BadInput."""
    return percent_of(typed, amount) if typed.rstrip().endswith("%") else read_money(typed, currency)
