"""What pieces take of the sheets they are cut from: no more comes out of a sheet than the cuts give."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil

from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.science.cutting import Grain, Sides, cut
from stockroom.science.quantities import Quantity

_SMALL = 50
"""So many pieces a sheet and more: the best cuts would take long to find, and give hardly more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """So many pieces of one size."""

    sides: Sides
    """In micrometres."""
    number: Fraction
    grain: str | None = None
    """`along` or `across` its first side, where that matters."""


def lies(sheet_grain: str | None, piece_grain: str | None) -> Grain:
    """Say how a piece lies to a sheet so that the grain of both runs the same way; either way where one has none."""
    if piece_grain is None or sheet_grain not in ("along", "across"):
        return Grain.FREE
    return Grain.ALONG if sheet_grain == piece_grain else Grain.ACROSS


@cache
def pieces_of_sheet(sheet: Sides, piece: Sides, grain: Grain) -> int:
    """Return how many pieces a sheet gives; of very small ones, as many as in plain columns and rows."""
    if grain is Grain.FREE and sheet[0] * sheet[1] <= _SMALL * piece[0] * piece[1]:
        return cut(sheet, piece).pieces
    along = (sheet[0] // piece[0]) * (sheet[1] // piece[1])
    across = (sheet[0] // piece[1]) * (sheet[1] // piece[0])
    return {Grain.ALONG: along, Grain.ACROSS: across, Grain.FREE: max(along, across)}[grain]


def in_sheets(material: Material, pieces: Sequence[Piece]) -> Quantity | None:
    """Return what pieces take of their sheets, with what is lost between them.

    None where the material has no sheet size, or a piece does not come out of one: then only the area is known.
    """
    sheet = material.packs.get("sheet")
    if sheet is None or not material.sheet_length_um or not material.sheet_width_um or not pieces:
        return None
    taken = Fraction(0)
    for piece in pieces:
        sides = (material.sheet_length_um, material.sheet_width_um)
        number = pieces_of_sheet(sides, piece.sides, lies(material.grain, piece.grain))
        if not number:
            return None
        taken += piece.number * sheet.quanta / number
    return material.quantity(ceil(taken))


def usable(lot: Lot, available: int, pieces: Sequence[Piece]) -> int:
    """Return how much of what a lot holds can be drawn for pieces: of an offcut no more than comes out of it."""
    if lot.kind != "offcut" or not pieces or not lot.length_um or not lot.width_um:
        return available
    sides = (lot.length_um, lot.width_um)
    numbers = [pieces_of_sheet(sides, one.sides, lies(lot.grain, one.grain)) for one in pieces]
    if len(pieces) > 1:
        return available if all(numbers) else 0
    length, width = pieces[0].sides
    return min(available, round(Fraction(numbers[0] * length * width, 1_000_000)))


def gives_all(lot: Lot, cuts: Sequence[tuple[int, Sequence[Piece]]]) -> bool:
    """Say whether an offcut gives any of the pieces of its material that are to be cut; every other lot does.

    `cuts` are pieces with the number of the material they are cut from.
    """
    return lot.kind != "offcut" or all(usable(lot, 1, pieces) for key, pieces in cuts if key == lot.material.id)
