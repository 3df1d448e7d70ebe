"""How large a label and its pictograms are by the volume of the container, and what a small container is let off.

CLP Annex I, 1.2.1 with Table 1.3, and 1.5.2. These sizes bind who supplies; for the studio's own jars they are good
practice, and every warning says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reference import Row, rows
from stockroom.science.substance_groups import codes_of

GOOD_PRACTICE = "Good practice: the size table binds who supplies, not the studio's own jars."
_LARGEST = "above 500 L"
_EVERY = "any container"
_SMALL = "small container"
_UL_PER_ML = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelRule:
    """What a label of a container of some volume should measure, in mm."""

    short_side_mm: Decimal
    long_side_mm: Decimal
    pictogram_mm: Decimal
    least_pictogram_mm: Decimal
    """Where the full size is not possible."""
    x_height_mm: Decimal
    if_possible: bool
    """For small containers the size is asked for as far as it is possible."""
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Relief:
    """What the label of a small container may leave off, and what it keeps in full."""

    applies: bool
    may_leave_off: tuple[str, ...]
    """Statements whose words, with their precautions, may be left off; pictograms, signal word and name stay."""
    must_keep: tuple[str, ...]
    words: str
    rows: tuple[Row, ...] = ()


def find_label_rule(volume: Quantity) -> LabelRule:
    """Find the sizes for a container of this volume. Raises BadInput for what is no volume."""
    _check(volume)
    band = next((row.of for row in _rows("container") if _litres(volume) <= row.span[0]), _LARGEST)
    found = {row.what: row for row in rows("label_sizes") if row.of == band}
    letters = _find("above 0.5 L" if _litres(volume) > Fraction(1, 2) else _EVERY, "letters, x-height")
    pictogram = found["pictogram, side"]
    least = found.get("pictogram, least side", pictogram)
    return LabelRule(
        short_side_mm=found["label, short side"].span[0],
        long_side_mm=found["label, long side"].span[0],
        pictogram_mm=pictogram.span[0],
        least_pictogram_mm=least.span[0],
        x_height_mm=letters.span[0],
        if_possible="if possible" in found["label, short side"].conditions,
        rows=(*found.values(), letters, _find(_EVERY, "pictograms to a label")),
    )


def warn_of_size(
    volume: Quantity,
    label_mm: tuple[float, float],
    *,
    pictogram_mm: float | None = None,
    x_height_mm: float | None = None,
) -> tuple[str, ...]:
    """Say where a label for a container falls short of the sizes; nothing where it does not. Raises BadInput."""
    rule = find_label_rule(volume)
    wish = " if possible" if rule.if_possible else ""
    short, long = sorted(label_mm)
    said = []
    if short < rule.short_side_mm or long < rule.long_side_mm:
        size = f"{_plain(rule.short_side_mm)} x {_plain(rule.long_side_mm)} mm{wish}"
        said.append(f"A container of {show(volume)} has a label of {size}; this one is {short:g} x {long:g} mm.")
    if pictogram_mm is not None and pictogram_mm < rule.pictogram_mm:
        size = f"{_plain(rule.pictogram_mm)} mm wide{wish}"
        if pictogram_mm < rule.least_pictogram_mm < rule.pictogram_mm:
            size += f", and never below {_plain(rule.least_pictogram_mm)} mm"
        said.append(f"Pictograms are {size}; these are {pictogram_mm:g} mm.")
    if x_height_mm is not None and x_height_mm < float(rule.x_height_mm):
        said.append(f"Small letters are at least {_plain(rule.x_height_mm)} mm high; these are {x_height_mm:g} mm.")
    return tuple(f"{words} {GOOD_PRACTICE}" for words in said)


def find_relief(volume: Quantity, statements: Iterable[str]) -> Relief:
    """Find which statements the label of a container of up to 125 mL may leave off. Raises BadInput.

    It never covers skin corrosion or serious eye damage, nor what the list does not name.
    """
    _check(volume)
    size = _find(_SMALL, "volume")
    codes = sorted(codes_of(statements))
    if volume.quanta > size.span[0] * _UL_PER_ML:
        words = f"Every statement stays: relief is for containers of up to {_plain(size.span[0])} mL."
        return Relief(applies=False, may_leave_off=(), must_keep=tuple(codes), words=words, rows=(size,))
    let_off = {row.what.split()[0]: row for row in rows("label_sizes") if row.of == _SMALL and row.what != size.what}
    may = tuple(code for code in codes if code in let_off)
    keep = tuple(code for code in codes if code not in let_off)
    said = ["Pictograms, signal word, name and strength stay."]
    if may:
        said.append(f"The words of {', '.join(may)} and their precautions may be left off.")
    if keep:
        said.append(f"{', '.join(keep)} stay in full, with their precautions.")
    found = (size, *(let_off[code] for code in may))
    return Relief(
        applies=bool(may), may_leave_off=may, must_keep=keep, words=" ".join([*said, GOOD_PRACTICE]), rows=found
    )


def _check(volume: Quantity) -> None:
    if volume.dimension is not Dimension.VOLUME or volume.quanta <= 0:
        raise BadInput(f"{show(volume)} is not the volume of a container; give it like 500 mL.")


def _plain(number: Decimal) -> str:
    return f"{number.normalize():f}"


def _litres(volume: Quantity) -> Fraction:
    return Fraction(volume.quanta, 1_000_000)


def _rows(what: str) -> Iterable[Row]:
    return (row for row in rows("label_sizes") if row.what == what)


def _find(of: str, what: str) -> Row:
    return next(row for row in rows("label_sizes") if row.of == of and row.what == what)
