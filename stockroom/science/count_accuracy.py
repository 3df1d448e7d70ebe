"""How far a count agrees with the books: lot by lot, so that what is too much never makes up for what is too little."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from stockroom.errors import BadInput

TOLERANCE = Fraction(5, 100)
"""Of what was counted: what inventory practice allows for goods of small value; 1 and 3 % for those of great value."""


def agreeing(lines: Iterable[tuple[int, int]], tolerance: Fraction = TOLERANCE) -> int:
    """Return how many of some lots agree, each told as what the books said and what was counted.

    A lot agrees when its difference is not more than the tolerance of what the books said. Sums are never compared: 95
    and 105 where the books said 100 and 100 agree in sum and in neither lot. Raises BadInput for a tolerance below
    nothing.
    """
    if tolerance < 0:
        raise BadInput("A tolerance cannot be less than nothing.")
    return sum(abs(counted - books) <= tolerance * books for books, counted in lines)
