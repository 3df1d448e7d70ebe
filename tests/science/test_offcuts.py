"""Whether a few pieces can be cut out of one sheet."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.science.cutting import cut
from stockroom.science.offcuts import MOST_PIECES, can_be_cut

side = st.integers(1, 12)


@pytest.mark.parametrize(
    ("sheet", "pieces", "fits"),
    [
        ((10, 10), [(10, 10)], True),
        ((10, 10), [(10, 11)], False),
        ((10, 6), [(6, 10)], True),
        ((10, 10), [(4, 10), (6, 10)], True),
        ((10, 10), [(4, 10), (6, 10), (1, 1)], False),
        ((10, 10), [(4, 4), (6, 4), (10, 6)], True),
        ((10, 10), [(7, 3), (3, 7), (7, 7)], True),
        ((76, 56), [(40, 30), (36, 30), (76, 26)], True),
    ],
)
def test_what_fits_and_what_does_not(sheet: tuple[int, int], pieces: list[tuple[int, int]], fits: bool) -> None:
    """By hand."""
    assert can_be_cut(sheet, pieces) is fits


def test_a_pinwheel_is_no_cutting() -> None:
    """Four 3 x 2 lie round a hole in 5 x 5, but not by cuts from edge to edge; three do."""
    assert not can_be_cut((5, 5), [(3, 2)] * 4)
    assert can_be_cut((5, 5), [(3, 2)] * 3)


def test_pieces_that_may_not_turn_keep_their_way() -> None:
    assert can_be_cut((10, 4), [(4, 10)])
    assert not can_be_cut((10, 4), [(4, 10)], may_turn=False)


@given(sheet=st.tuples(side, side), piece=st.tuples(side, side), number=st.integers(1, 4))
def test_equal_pieces_fit_as_often_as_the_layout_says(
    sheet: tuple[int, int], piece: tuple[int, int], number: int
) -> None:
    """Two ways of reckoning that share nothing but the kind of cut."""
    assert can_be_cut(sheet, [piece] * number) is (cut(sheet, piece).pieces >= number)


def test_too_many_pieces_are_not_tried() -> None:
    with pytest.raises(ValueError, match="too many"):
        can_be_cut((99, 99), [(1, 1)] * (MOST_PIECES + 1))
