"""Amounts as people type them, read exactly and never guessed.

What is typed is rounded once, half-even, to the quantum of its dimension; the typed text is kept beside it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import NoReturn

from stockroom.errors import BadInput, Unreadable
from stockroom.science.numerals import NUMERAL, quoted, read_numeral, tidy
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.ratios import is_share, refuse_bare_ratio
from stockroom.science.sharing import round_half_even_ratio
from stockroom.science.units import ACCEPTED, EXAMPLES, WORDS, find_unit

MOST_QUANTA = 10**15
"""A thousand tonnes or a million cubic metres: anything above is a slip of the keyboard."""
MOST_PACKS = 500

_ABOUT = r"(?i)(?:about|approximately|approx\.?|circa|ca?\.?|[~≈]) ?(?=[0-9.,])"
_TIMES = r"(?i) ?[x×*] ?(?=[0-9.,])"
_AMOUNT = rf"(?P<number>{NUMERAL}) ?(?P<unit>[^\W\d_].*)?"
_NUMBERS = r"[0-9.,'’/ ]*[0-9](?:[eE][+-]?[0-9]+)?"


_WITHOUT_DENSITY = {
    Dimension.MASS: "Weigh it: the volume of a powder does not tell its mass, since it holds air.",
    Dimension.VOLUME: "Its density is not known: write a volume, or give the density first.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """An amount as it was understood, with the text it was read from."""

    quantity: Quantity
    typed: str
    about: bool = False
    """Whether the person said that it is only about so much."""


@dataclass(frozen=True, slots=True)
class _Term:
    """A number and what its unit is worth; without a unit it is a mere number."""

    number: Fraction
    dimension: Dimension | None = None
    quanta: Fraction = Fraction(1)

    @property
    def exact(self) -> Fraction:
        return self.number * self.quanta


def read_quantity(
    text: str,
    *,
    expect: Dimension | None = None,
    packs: Mapping[str, Quantity] | None = None,
    density_g_per_ml: Decimal | None = None,
    allow_zero: bool = False,
) -> Read:
    """Read one amount: `125 mL`, `1/4 tsp`, `½ l`, `2 sheets`, `30 x 40 cm`, `0,5 g`, `about 300 mL`.

    `packs` says what a pack word means for this material. With a density, a mass is taken where a volume is
    expected and the other way round. Raises Unreadable, naming what was read and what is accepted.
    """
    plain, about = _split_about(text)
    if is_share(plain):
        raise Unreadable(f"{quoted(text)} is a share of a whole; an amount is wanted here, such as 125 mL.", read=text)
    terms = [_read_term(term, expect, packs or {}, text) for term in re.split(_TIMES, plain)]
    if len(terms) == 1:
        (term,) = terms
        if term.dimension is None:
            example = EXAMPLES[expect or Dimension.VOLUME]
            raise Unreadable(f"{quoted(text)} has no unit. Write it with one, such as {example}.", read=text)
        dimension, exact = term.dimension, term.exact
    else:
        dimension, exact = Dimension.AREA, _area(terms, text)
    if expect and dimension is not expect:
        dimension, exact = expect, _convert(dimension, exact, expect, density_g_per_ml, text)
    return Read(quantity=_round(dimension, exact, allow_zero, text), typed=text, about=about)


def read_packs(
    text: str,
    *,
    expect: Dimension | None = None,
    packs: Mapping[str, Quantity] | None = None,
    density_g_per_ml: Decimal | None = None,
) -> list[Read]:
    """Read a delivery in packs: `3 x 1 L` is three of 1 L, `500 mL` is one.

    `30 x 40 cm` stays an area unless a length is expected; `3 x 30 x 40 cm` is three of that area.
    Raises Unreadable.
    """
    plain, about = _split_about(text)
    first, *rest = re.split(_TIMES, plain)
    count = 1
    if rest and re.fullmatch(NUMERAL, first):
        last = _read_term(rest[-1], expect, packs or {}, text)
        is_area = len(rest) == 1 and last.dimension is Dimension.LENGTH and expect is not Dimension.LENGTH
        if not is_area:
            plain, count = " x ".join(rest), _count_packs(first, text)
    inner = read_quantity(plain, expect=expect, packs=packs, density_g_per_ml=density_g_per_ml)
    return [Read(quantity=inner.quantity, typed=text, about=about or inner.about)] * count


def read_size(text: str) -> tuple[int, int]:
    """Read two sides in micrometres: `30 x 40 cm` is (300000, 400000). Raises Unreadable."""
    sides = re.split(_TIMES, tidy(text))
    if len(sides) != 2:
        raise _no_size(text)
    terms = [_read_term(side, None, {}, text) for side in sides]
    one, other = _sides(terms, text)
    return (
        _round(Dimension.LENGTH, one.exact, False, text).quanta,
        _round(Dimension.LENGTH, other.exact, False, text).quanta,
    )


def _split_about(text: str) -> tuple[str, bool]:
    plain = tidy(text)
    match = re.match(_ABOUT, plain)
    return (plain[match.end() :], True) if match else (plain, False)


def _read_term(term: str, expect: Dimension | None, packs: Mapping[str, Quantity], text: str) -> _Term:
    match = re.fullmatch(_AMOUNT, term)
    if not match or re.match(r"[eE][+-]?[0-9]", match["unit"] or ""):
        _refuse(term, expect, text)
    word = match["unit"] or ""
    number = read_numeral(match["number"], word)
    if not word:
        return _Term(number)
    unit, pack = find_unit(word), _find_pack(word, expect, packs)
    # A pack must never give another meaning to a unit of measure.
    if pack and (unit is None or unit[0] in (Dimension.PIECES, Dimension.USES)):
        return _Term(number, pack.dimension, Fraction(pack.quanta))
    if unit is None:
        _refuse_unit(word, packs, text)
    return _Term(number, *unit)


def _refuse_unit(word: str, packs: Mapping[str, Quantity], text: str) -> NoReturn:
    if word.casefold() in ("sheet", "sheets", "roll", "rolls", "ream", "reams"):
        raise Unreadable(
            f"{quoted(text)}: how much that is depends on the material, which has no such pack."
            " Write the amount itself, or give the material that pack.",
            read=text,
        )
    accepted = ", ".join([*packs, ACCEPTED])
    raise Unreadable(f"{quoted(text)}: the unit {quoted(word)} is not known here. Accepted are {accepted}.", read=text)


def _find_pack(word: str, expect: Dimension | None, packs: Mapping[str, Quantity]) -> Quantity | None:
    asked = word.casefold()
    for name, holds in packs.items():
        if asked in (name.casefold(), f"{name}s".casefold(), f"{name}es".casefold()):
            return holds
    if asked in ("sheet", "sheets") and expect is Dimension.PIECES:
        return Quantity(Dimension.PIECES, 1_000)
    return None


def _refuse(term: str, expect: Dimension | None, text: str) -> NoReturn:
    refuse_bare_ratio(text)
    if numbers := re.match(_NUMBERS, term):
        read_numeral(numbers[0].strip(), term[numbers.end() :].strip())
    if term.startswith("-"):
        raise Unreadable(f"{quoted(text)} is negative. Write an amount greater than nothing.", read=text)
    example = EXAMPLES[expect or Dimension.VOLUME]
    raise Unreadable(
        f"{quoted(text)} is not an amount that can be read. Write a number and a unit, such as {example}.",
        read=text,
    )


def _sides(terms: list[_Term], text: str) -> tuple[_Term, _Term]:
    """Give both sides of a size; a side without a unit takes the last one's."""
    last = terms[-1]
    sides = [term if term.dimension else _Term(term.number, last.dimension, last.quanta) for term in terms]
    if len(sides) != 2 or any(side.dimension is not Dimension.LENGTH for side in sides):
        raise _no_size(text)
    return sides[0], sides[1]


def _no_size(text: str) -> Unreadable:
    return Unreadable(
        f"{quoted(text)} is not a size of two sides with their unit. Write it like 30 x 40 cm.", read=text
    )


def _area(terms: list[_Term], text: str) -> Fraction:
    """Give the area of a size in square millimetres, not rounded."""
    last = terms[-1].dimension
    if terms[0].dimension is None and last not in (None, Dimension.LENGTH):
        raise Unreadable(f"{quoted(text)} is several amounts, and one is wanted here. Write the total.", read=text)
    one, other = _sides(terms, text)
    return one.exact * other.exact / 1_000_000


def _convert(
    have: Dimension, exact: Fraction, want: Dimension, density_g_per_ml: Decimal | None, text: str
) -> Fraction:
    """Turn mass into volume or back by the density; 1 g/mL is 1,000 micrograms a microlitre."""
    if {have, want} == {Dimension.MASS, Dimension.VOLUME}:
        if density_g_per_ml is None:
            raise Unreadable(
                f"{quoted(text)} is {WORDS[have]}; {WORDS[want]} is wanted here, such as {EXAMPLES[want]}."
                f" {_WITHOUT_DENSITY[want]}",
                read=text,
            )
        if density_g_per_ml <= 0:
            raise BadInput(f"A density of {density_g_per_ml} g/mL is not greater than nothing.")
        ug_per_ul = 1_000 * Fraction(density_g_per_ml)
        return exact * ug_per_ul if want is Dimension.MASS else exact / ug_per_ul
    raise Unreadable(
        f"{quoted(text)} is {WORDS[have]}; {WORDS[want]} is wanted here, such as {EXAMPLES[want]}.",
        read=text,
    )


def _round(dimension: Dimension, exact: Fraction, allow_zero: bool, text: str) -> Quantity:
    quanta = round_half_even_ratio(exact.numerator, exact.denominator)
    if quanta == 0 and (exact or not allow_zero):
        small = "less than can be kept in the books" if exact else "nothing"
        raise Unreadable(f"{quoted(text)} is {small}. Write an amount greater than nothing.", read=text)
    if quanta > MOST_QUANTA:
        raise Unreadable(f"{quoted(text)} is more than any store holds. Look at the number and the unit.", read=text)
    return Quantity(dimension, quanta)


def _count_packs(number: str, text: str) -> int:
    count = read_numeral(number)
    if count.denominator != 1 or not 1 <= count <= MOST_PACKS:
        raise Unreadable(
            f"{quoted(text)}: the number of packs must be whole, 1 to {MOST_PACKS}. Write it like 3 x 1 L.",
            read=text,
        )
    return int(count)
