"""What pieces take of the sheets they are cut from."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shelf_words import lot

from stockroom.domain.materials import Material
from stockroom.planning.sheets import Piece, in_sheets, lies, usable
from stockroom.science.cutting import Grain
from stockroom.science.quantities import Dimension

MM = 1_000
A0 = Material(
    id=1,
    key="paper",
    name="Paper",
    kind="sheet",
    dimension=Dimension.AREA,
    sheet_length_um=841 * MM,
    sheet_width_um=1189 * MM,
    grain="along",
)


def piece(length: int, width: int, number: int = 1, grain: str | None = None) -> Piece:
    return Piece(sides=(length * MM, width * MM), number=Fraction(number), grain=grain)


def sheets(*pieces: Piece, material: Material = A0) -> Fraction | None:
    taken = in_sheets(material, pieces)
    return None if taken is None else Fraction(taken.quanta, material.packs["sheet"].quanta)


@pytest.mark.parametrize(
    ("grain", "whole"),
    [("along", 1), (None, 1), ("across", Fraction(16, 10))],
)
def test_sixteen_a4_take_a_sheet_of_a0_and_more_where_the_grain_is_against_it(
    grain: str | None, whole: Fraction
) -> None:
    """ISO 216 (sizes from memory): sixteen A4 along, ten across."""
    assert sheets(piece(210, 297, 16, grain)) == pytest.approx(whole, abs=1e-5)


def test_what_is_lost_between_the_pieces_is_counted() -> None:
    """Five of 297 x 210 come out of 760 x 560 (see cutting): each takes a fifth of the sheet, not 15 %."""
    sheet = replace(A0, sheet_length_um=760 * MM, sheet_width_um=560 * MM, grain="none")
    assert sheets(piece(297, 210), material=sheet) == pytest.approx(0.2, abs=1e-5)
    assert sheets(piece(297, 210, 6), material=sheet) == pytest.approx(1.2, abs=1e-5)


@pytest.mark.parametrize(
    ("sheet", "one", "way"),
    [
        ("along", "along", Grain.ALONG),
        ("across", "across", Grain.ALONG),
        ("along", "across", Grain.ACROSS),
        ("across", "along", Grain.ACROSS),
        ("none", "along", Grain.FREE),
        (None, "along", Grain.FREE),
        ("along", None, Grain.FREE),
    ],
)
def test_the_grain_of_piece_and_sheet_runs_the_same_way(sheet: str | None, one: str | None, way: Grain) -> None:
    assert lies(sheet, one) is way


def test_only_the_area_is_known_without_a_sheet_or_of_a_piece_that_is_larger() -> None:
    assert sheets(piece(2_000, 100)) is None
    assert in_sheets(replace(A0, sheet_length_um=None), (piece(10, 10),)) is None
    assert in_sheets(A0, ()) is None


@given(length=st.integers(60, 800), width=st.integers(60, 800), number=st.integers(1, 40))
def test_never_less_than_the_area_itself(length: int, width: int, number: int) -> None:
    taken = in_sheets(A0, (piece(length, width, number),))
    assert taken is not None and taken.quanta >= length * width * number


@pytest.mark.parametrize(
    ("offcut", "pieces", "usable_mm2"),
    [
        ((300, 400), (piece(210, 297),), 210 * 297),
        ((300, 400), (piece(210, 297, 5),), 210 * 297),
        ((300, 200), (piece(210, 297),), 0),
        ((200, 200), (piece(210, 297),), 0),
        ((300, 400), (piece(210, 297), piece(100, 100)), 300 * 400),
        ((300, 400), (piece(210, 297), piece(500, 10)), 0),
        ((300, 400), (), 300 * 400),
    ],
)
def test_of_an_offcut_only_what_comes_out_of_it_counts(
    offcut: tuple[int, int], pieces: tuple[Piece, ...], usable_mm2: int
) -> None:
    length, width = offcut
    one = lot("A1", length * width, A0, kind="offcut", length_um=length * MM, width_um=width * MM)
    assert usable(one, length * width, pieces) == usable_mm2
    assert usable(replace(one, kind="bought"), length * width, pieces) == length * width
