"""What becomes of a strength that is written in words, `about 1.6 g/L (saturated)`, when it is thinned."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import BadInput
from stockroom.science.strengths import Strength, read_strength

_BEFORE_REMARK = re.compile(r"[^(,;]*")


def thinned(said: str | None, share: Fraction) -> str | None:
    """Return the strength of a mixture of which a solution is a share, by volume.

    An uncertain strength keeps two significant digits, a stated one at most three. None where the words hold no one
    figure with a unit, such as `not known since 2026-03-01`, or a share by mass, which volumes do not tell.
    """
    found = _BEFORE_REMARK.match(said or "")
    words = found[0].strip() if found else ""
    about = words.startswith("about ")
    try:
        strength = read_strength(words.removeprefix("about "))
    except BadInput:
        return None
    if strength.unit in ("% w/w", "ppm"):
        return None
    exact = Fraction(strength.number) * share
    number = Decimal(exact.numerator) / Decimal(exact.denominator)
    if about:
        return Strength(number=number, unit=strength.unit).show_about()
    return Strength(number=Decimal(f"{number:.3g}"), unit=strength.unit).show()
