"""Pieces from a sheet or a roll."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.cutting import Cutting, Grain, cut, roll_length

sides = st.tuples(st.integers(1, 40), st.integers(1, 40))
small = st.tuples(st.integers(1, 9), st.integers(1, 9))


@pytest.mark.parametrize(
    ("sheet", "piece", "along", "across", "either"),
    [
        # ISO 216: each size is half of the one before, so sixteen A4 make an A0, and eight A3 (sizes from memory)
        ((841, 1189), (210, 297), 16, 10, 16),
        ((841, 1189), (297, 420), 4, 8, 8),
        # four letter sheets from 17 x 22 in (half inches), as printed in a lesson on paper sizes
        ((34, 44), (17, 22), 4, 2, 4),
        # the trade's classic, in half inches: eight from 23 x 35 in (from memory), and from 25 x 38 in (computed)
        ((46, 70), (17, 22), 6, 8, 8),
        ((50, 76), (17, 22), 6, 8, 8),
        # computed, and proved the most by integer programming, or by the area
        ((700, 500), (297, 210), 4, 3, 4),
        ((760, 560), (297, 210), 4, 3, 5),
        ((760, 560), (120, 80), 42, 36, 44),
        ((7, 5), (3, 2), 4, 3, 5),
        ((8, 6), (3, 2), 6, 8, 8),
        ((10, 7), (4, 3), 4, 3, 5),
        ((9, 8), (4, 3), 4, 6, 6),
        # known to be hard for heuristics: an open packing library lays 31 and 54
        ((32, 22), (5, 4), 30, 32, 34),
        ((49, 28), (8, 3), 54, 48, 56),
    ],
)
def test_sheets_give_what_is_known(
    sheet: tuple[int, int], piece: tuple[int, int], along: int, across: int, either: int
) -> None:
    """Divide the sheet by the piece straight for parallel grain, crosswise for perpendicular (merchants)."""
    assert cut(sheet, piece, grain=Grain.ALONG).pieces == along
    assert cut(sheet, piece, grain=Grain.ACROSS).pieces == across
    assert cut(sheet, piece).pieces == either
    assert cut(sheet, piece).exact


@pytest.mark.parametrize(
    ("sheet", "piece", "by_cuts", "by_any_layout"),
    [
        ((5, 5), (3, 2), 3, 4),
        ((5, 5), (3, 1), 7, 8),
        ((7, 7), (3, 2), 7, 8),
        ((7, 7), (4, 3), 3, 4),
        ((11, 7), (4, 3), 5, 6),
        ((11, 11), (4, 3), 8, 9),
    ],
)
def test_a_pinwheel_cannot_be_cut_from_edge_to_edge(
    sheet: tuple[int, int], piece: tuple[int, int], by_cuts: int, by_any_layout: int
) -> None:
    """Four 3 x 2 lie round a hole in 5 x 5, but no first cut leaves all of them whole: three come out.

    The most by any layout is proved by integer programming (computed); the area bound never lies below it.
    """
    found = cut(sheet, piece)
    assert found.pieces == by_cuts
    assert found.bound >= by_any_layout


def test_the_a_sizes_are_cut_without_loss() -> None:
    """ISO 216 (sizes from memory): a sheet of A0 holds sixteen A4, which is all that its area allows."""
    found = cut((841, 1189), (210, 297))
    assert found.pieces == found.bound == 16
    assert len(found.blocks) == 1


@cache
def _by_trying(length: int, width: int, a: int, b: int) -> int:
    """Try every cut at every whole length."""
    best = 1 if (length >= a and width >= b) or (length >= b and width >= a) else 0
    for x in range(1, length // 2 + 1):
        best = max(best, _by_trying(x, width, a, b) + _by_trying(length - x, width, a, b))
    for y in range(1, width // 2 + 1):
        best = max(best, _by_trying(length, y, a, b) + _by_trying(length, width - y, a, b))
    return best


@given(sheet=st.tuples(st.integers(1, 22), st.integers(1, 22)), piece=small)
def test_no_cut_at_any_whole_length_gives_more(sheet: tuple[int, int], piece: tuple[int, int]) -> None:
    assert cut(sheet, piece).pieces == _by_trying(*sheet, *piece)


def overlaps(found: Cutting) -> bool:
    placed = [(x, y, x + b.length, y + b.width) for b in found.blocks for x, y in b.corners()]
    return any(
        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
        for at, a in enumerate(placed)
        for b in placed[at + 1 :]
    )


@given(
    sheet=sides,
    piece=small,
    grain=st.sampled_from(Grain),
    trim=st.integers(0, 5),
    gap=st.integers(0, 3),
)
def test_pieces_lie_within_the_trim_and_apart(
    sheet: tuple[int, int], piece: tuple[int, int], grain: Grain, trim: int, gap: int
) -> None:
    found = cut(sheet, piece, grain=grain, trim=trim, gap=gap)
    assert not overlaps(found)
    assert found.pieces <= found.bound
    for block in found.blocks:
        assert (block.length, block.width) == (piece[::-1] if block.turned else piece)
        for x, y in block.corners():
            assert trim <= x <= sheet[0] - trim - block.length
            assert trim <= y <= sheet[1] - trim - block.width
    if grain is not Grain.FREE and piece[0] != piece[1]:
        assert all(block.turned == (grain is Grain.ACROSS) for block in found.blocks)


def test_neighbours_lie_a_gap_apart() -> None:
    """Three of 10 with 2 between them need 34, not 33; two fit 33."""
    assert cut((34, 10), (10, 10), gap=2).pieces == 3
    assert cut((33, 10), (10, 10), gap=2).pieces == 2
    assert list(cut((34, 10), (10, 10), gap=2).blocks[0].corners()) == [(0, 0), (12, 0), (24, 0)]


def test_a_piece_larger_than_the_sheet_gives_none() -> None:
    found = cut((10, 10), (11, 2))
    assert (found.pieces, found.blocks, found.bound) == (0, (), 4)
    assert cut((10, 10), (2, 2), trim=6).pieces == 0


def test_very_many_small_pieces_are_laid_in_two_blocks_and_the_answer_says_so() -> None:
    found = cut((50_000_000, 1_200_000), (31_000, 47_300))
    assert not found.exact
    assert 0.97 * found.bound < found.pieces <= found.bound
    assert len(found.blocks) == 2


@pytest.mark.parametrize(
    ("grain", "wanted", "length"),
    [(Grain.ALONG, 20, 1_500), (Grain.ACROSS, 20, 1_600), (Grain.FREE, 20, 1_500), (Grain.ALONG, 1, 300)],
)
def test_a_roll_is_cut_to_the_shortest_length(grain: Grain, wanted: int, length: int) -> None:
    """A roll 1,600 wide and pieces of 300 x 400: five rows of four along, four of five across (by hand)."""
    assert roll_length(1_600, (300, 400), wanted, grain=grain) == length


def test_a_roll_has_its_trim_and_gap() -> None:
    assert roll_length(100, (10, 30), 4, trim=5, gap=3, grain=Grain.ALONG) == 5 + 10 + 3 + 10
    assert cut((28, 100), (10, 30), trim=0, gap=3, grain=Grain.ALONG).pieces >= 4


@pytest.mark.parametrize(
    ("sheet", "piece", "more"),
    [
        ((10**10, 10**10), (1_000, 1_000), {}),
        ((0, 5), (1, 1), {}),
        ((5, 5), (0, 1), {}),
        ((5, 5), (1, 1), {"trim": -1}),
        ((5, 5), (1, 1), {"gap": -1}),
    ],
)
def test_what_cannot_be_cut_is_refused(sheet: tuple[int, int], piece: tuple[int, int], more: dict[str, int]) -> None:
    with pytest.raises(BadInput):
        cut(sheet, piece, **more)


@pytest.mark.parametrize(("width", "wanted"), [(2, 1), (100, 0)])
def test_a_roll_that_is_too_narrow_or_no_pieces_are_refused(width: int, wanted: int) -> None:
    with pytest.raises(BadInput):
        roll_length(width, (10, 30), wanted)
