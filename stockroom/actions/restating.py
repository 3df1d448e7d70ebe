"""State a jar's strength anew when what went into it is put right, or when nobody can know it any more."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from stockroom.domain.ledger import Entry
from stockroom.domain.lots import Lot
from stockroom.errors import BadInput
from stockroom.science.ranges import Range, exactly, give_or_take, quotient, show_range
from stockroom.science.strengths import Strength, read_strength
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store
from stockroom.store.recipes import strength_line_of

READING_ERROR = {"weighed": 0.01, "measured": 0.05, "by eye": 0.2}
"""How far off what was found may be, as a part of it; common practice, no source."""


def not_known_since(strength: str, day: str) -> str:
    """Write a strength that was right until a day: `0.5 % w/v, not known since 2026-11-25`."""
    return strength if "not known" in strength else f"{strength}, not known since {day}"


def strength_after_evaporation(
    strength: str, books_said: int, found: int, how: str, day: str
) -> tuple[str, Range | None]:
    """Return a jar's strength by mass balance after only water went, and its range.

    What was dissolved is the same in less: strength x books said / found, with the error of reading what was found
    (`READING_ERROR`). A strength that cannot be read as a figure is not known from that day.
    """
    try:
        before = read_strength(strength.removeprefix("about "))
    except BadInput:
        return not_known_since(strength, day), None
    error = READING_ERROR[how] * found
    grown = quotient(exactly(books_said, ""), give_or_take(found, error, ""), before.unit, float(before.number))
    after = replace(grown, low=max(grown.low, float(before.number)))
    return f"{show_range(after)} by mass balance, {day}", after


def restated_strength(
    store: Store,
    version_id: int | None,
    jar: Lot,
    draws: list[Entry],
    put_right: Entry,
    lot: Lot,
    quantity: int,
    day: str,
) -> str | None:
    """Return a jar's strength when one of the draws it was made of becomes `quantity` of `lot`.

    Only the line that the recipe reckons the strength by counts, at the purity of each lot; a jar over its solid
    stays as it was. A strength that cannot be scaled is not known from that day.
    """
    line = strength_line_of(store, version_id) if version_id is not None else None
    before = lot_by_id(store, put_right.lot)
    if line is None or jar.strength is None or jar.over_solid or line.material != before.material.key:
        return jar.strength
    was = sum(
        (_pure(lot_by_id(store, draw.lot), -draw.quantity) for draw in draws if _same(store, draw, before)), Fraction(0)
    )
    ratio = 1 + (_pure(lot, quantity) - _pure(before, -put_right.quantity)) / was
    if ratio == 1:
        return jar.strength
    try:
        strength = read_strength(jar.strength)
    except BadInput:
        return not_known_since(jar.strength, day)
    exact = Fraction(strength.number) * ratio
    rounded = Decimal(f"{Decimal(exact.numerator) / Decimal(exact.denominator):.3g}")
    return Strength(number=rounded, unit=strength.unit).show()


def _same(store: Store, draw: Entry, lot: Lot) -> bool:
    return lot_by_id(store, draw.lot).material.id == lot.material.id


def _pure(lot: Lot, quantity: int) -> Fraction:
    """Return how much of the substance itself an amount of a lot holds; all of it where no purity is known."""
    text = lot.purity or lot.material.purity
    return quantity * (Fraction(read_strength(text).number) / 100 if text else Fraction(1))
