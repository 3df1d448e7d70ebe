"""Numbers as people type them, read exactly, and as they read them: `125`, `0,5`, `1/4`, `½`, `1 1/2`, `1½`.

Here and in its neighbours patterns are plain text: `re` compiles and keeps each at its first use, so that
commands which read nothing do not wait for it.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import Unreadable

LONGEST_TEXT = 200
"""More than anyone types for an amount; longer text is refused before any pattern sees it."""

NUMERAL = r"(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
"""The shape of a number in tidied text, for building larger patterns."""

_THOUSANDS = r"[1-9][0-9]{0,2},[0-9]{3}"
_SPACED = r"[1-9][0-9]{0,2}(?: [0-9]{3})+"
_MARKED = r"[0-9]{1,3}(?:[,.'’][0-9]{3})+(?:[.,][0-9]+)?|[0-9]+,[0-9]+\.[0-9]+"
_EXPONENT = r"[0-9.,]+ ?(?:[eE][+-]?[0-9]+|[x×*] ?10\^.*)"


def quoted(text: str) -> str:
    """Show what was typed inside a message: one line, no control characters, shortened."""
    short = text if len(text) <= 60 else text[:57] + "…"
    return "“" + "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in short) + "”"


def tidy(text: str) -> str:
    """Fold spaces, and write vulgar fractions and signs in one form.

    Raises Unreadable for overlong or no text.
    """
    if len(text) > LONGEST_TEXT:
        raise Unreadable(
            f"{quoted(text)} is too long to be an amount: at most {LONGEST_TEXT} characters are read.",
            read=text[:60],
        )
    plain = "".join(_written_out(character) for character in text)
    plain = re.sub(r"(?<=[a-z])[²³]", lambda power: {"²": "2", "³": "3"}[power[0]], " ".join(plain.split()))
    plain = re.sub(r"(?<=[0-9]) ?/ ?(?=[0-9])", "/", plain)
    if not plain:
        raise Unreadable("Nothing was typed. Write an amount with its unit, such as 125 mL.", read=text)
    return plain


def _written_out(character: str) -> str:
    if unicodedata.name(character, "").startswith("VULGAR FRACTION"):
        return " " + unicodedata.normalize("NFKC", character).replace("⁄", "/")
    return {"μ": "µ", "−": "-", "⁄": "/"}.get(character, character)


def read_numeral(text: str, unit: str = "") -> Fraction:
    """Read one number that is not negative, exactly; `unit` is only repeated in messages.

    A comma is a decimal mark, except where it could as well part thousands: `1,500` is refused with both
    readings, while `0,500` and `12,5` can only be decimals. A point is always a decimal mark.
    Raises Unreadable.
    """
    plain = tidy(text)
    if plain.startswith("-"):
        raise Unreadable(f"{quoted(text)} is negative. Write an amount greater than nothing.", read=text)
    if re.fullmatch(_THOUSANDS, plain):
        numbers = (plain.replace(",", ""), show_number(Fraction(plain.replace(",", "."))))
        typed, *readings = (f"{number} {unit}".rstrip() for number in (text, *numbers))
        raise Unreadable(
            f"{quoted(typed)} can be read as {readings[0]} or as {readings[1]}. Write one of these.",
            read=typed,
            readings=readings,
        )
    if re.fullmatch(_SPACED, plain):
        raise Unreadable(
            f"{quoted(text)} can be read as one number or as several. Write {plain.replace(' ', '')} without"
            " a space if it is one.",
            read=text,
            readings=[plain.replace(" ", ""), " and ".join(plain.split())],
        )
    if not re.fullmatch(NUMERAL, plain):
        raise Unreadable(f"{quoted(text)} is not a number that can be read here. {_advice(plain)}", read=text)
    whole, _, fraction = plain.rpartition(" ")
    if "/" not in fraction:
        return Fraction(fraction.replace(",", "."))
    above, below = map(int, fraction.split("/"))
    if below == 0:
        raise Unreadable(f"{quoted(text)} divides by nothing.", read=text)
    return int(whole or 0) + Fraction(above, below)


def _advice(plain: str) -> str:
    if re.fullmatch(_EXPONENT, plain):
        return "Write it out without an exponent."
    if re.fullmatch(_MARKED, plain):
        return "Write it without marks between the thousands."
    return "Write it like 125, 0.5, 0,5, 1/4 or 1 1/2."


def read_decimal(text: str) -> Decimal:
    """Read one number that a decimal holds exactly, keeping its digits. Raises Unreadable, for 1/3 too."""
    value = read_numeral(text)
    plain = tidy(text).replace(",", ".")
    if "/" not in plain:
        return Decimal(plain)
    exact = decimal_of(value)
    if exact is None:
        raise Unreadable(f"{quoted(text)} has no end as a decimal. Write it as a decimal number.", read=text)
    return exact


def decimal_of(value: Fraction) -> Decimal | None:
    """Give the decimal that equals a fraction, or None where it has no end."""
    twos = fives = 0
    rest = value.denominator
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest != 1:
        return None
    places = max(twos, fives)
    return Decimal(f"{value.numerator * 10**places // value.denominator}E-{places}")


def show_number(value: Fraction) -> str:
    """Write a fraction as people read it, exactly: `2`, `0.25`, `1/3`."""
    exact = decimal_of(value)
    return f"{exact:f}" if exact is not None else f"{value.numerator}/{value.denominator}"


def counted(number: int, word: str) -> str:
    """Write a number of things: `1 day`, `14 days`."""
    return f"{number} {word}{'' if number == 1 else 's'}"
