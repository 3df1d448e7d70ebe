"""What pieces take of the sheets they are cut from: no more comes out of a sheet than the cuts give."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil

from stockroom.domain.materials import Material
from stockroom.science.cutting import Grain, Sides, cut
from stockroom.science.quantities import Quantity


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
    """Return how many pieces a sheet gives."""
    return cut(sheet, piece, grain=grain).pieces


def in_sheets(material: Material, pieces: tuple[Piece, ...]) -> Quantity | None:
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
