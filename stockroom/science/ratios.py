"""Parts of a whole: `1 in 4` and `1 + 3` say the same; a bare ratio says two things and is refused.

One in four is one part made up to four parts in all (United States Pharmacopeia, general notices).
"""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.errors import Unreadable
from stockroom.science.numerals import NUMERAL, quoted, read_numeral, tidy

_IN = rf"(?i)(?P<some>{NUMERAL}) (?:part |parts )?in (?P<all>{NUMERAL})(?: parts)?"
_PLUS = rf"(?i)(?P<some>{NUMERAL})(?: parts?)? ?\+ ?(?P<rest>{NUMERAL})(?: parts?)?"
_BARE = rf"(?i)(?P<one>{NUMERAL})(?: ?[:∶/] ?| to )(?P<other>{NUMERAL})"
_RATIO = r"[0-9] ?[:∶] ?[0-9]"


def read_parts(text: str) -> Fraction:
    """Read a share of the whole: `1 in 4` or `1 + 3` is a quarter. At most the whole, which is `1 in 1`.

    Raises Unreadable; for a bare ratio such as `1:4`, `details["readings"]` holds what it could mean.
    """
    plain = tidy(text)
    if match := re.fullmatch(_IN, plain):
        some, whole = read_numeral(match["some"]), read_numeral(match["all"])
    elif match := re.fullmatch(_PLUS, plain):
        some = read_numeral(match["some"])
        whole = some + read_numeral(match["rest"])
    else:
        refuse_bare_ratio(text)
        raise Unreadable(f"{quoted(text)} is not a share of a whole. Write it like 1 in 4 or 1 + 3.", read=text)
    if some == 0 or whole == 0:
        raise Unreadable(f"{quoted(text)} is a share of nothing. Write it like 1 in 4 or 1 + 3.", read=text)
    if some > whole:
        raise Unreadable(
            f"{quoted(text)} is more than the whole. Write the smaller number first, like 1 in 4.", read=text
        )
    return some / whole


def is_share(plain: str) -> bool:
    """Say whether tidied text is written as a share of a whole: `1 in 4`, `1 + 3`."""
    return bool(re.fullmatch(_IN, plain) or re.fullmatch(_PLUS, plain))


def refuse_bare_ratio(text: str) -> None:
    """Raise Unreadable, with every reading, where a text is or holds a bare ratio such as `1:4` or `1/4`."""
    plain = tidy(text)
    if match := re.fullmatch(_BARE, plain):
        one, other = match["one"], match["other"]
        smaller_first = read_numeral(one) < read_numeral(other)
        readings = [f"{one} in {other}"] if smaller_first else [f"{other} + {one}"]
        if f"{one} + {other}" not in readings:
            readings.append(f"{one} + {other}")
        meaning = " or as ".join(readings)
        raise Unreadable(
            f"{quoted(text)} can be read as {meaning}. Write what is meant.",
            read=text,
            readings=readings,
        )
    if re.search(_RATIO, plain):
        raise Unreadable(f"{quoted(text)} is a bare ratio. Write it like 1 in 4 or 1 + 3.", read=text)


def show_parts(parts: Fraction) -> str:
    """Write a share of the whole as `1 in 4`; never as a bare ratio."""
    return f"{parts.numerator} in {parts.denominator}"
