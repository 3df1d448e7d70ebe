"""Whether a few pieces of different sizes can be cut out of one sheet by cuts from edge to edge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, product

from stockroom.science.cutting import Sides

MOST_PIECES = 6
"""Of more, all ways to cut are too many to try."""


def can_be_cut(sheet: Sides, pieces: Sequence[Sides], *, may_turn: bool = True) -> bool:
    """Say whether a sheet gives all of these pieces; with `may_turn` each lies either way round.

    Every first cut that parts the pieces in two is tried, at the least length that holds one part, and so on in both
    halves. Exact for up to MOST_PIECES; raises ValueError for more.
    """
    if len(pieces) > MOST_PIECES:
        raise ValueError(f"{len(pieces)} pieces are too many to try")

    def turned(one: Sides) -> tuple[Sides, ...]:
        return (one, one[::-1]) if may_turn else (one,)

    @cache
    def fits(length: int, width: int, parts: tuple[Sides, ...]) -> bool:
        if len(parts) == 1:
            return any(a <= length and b <= width for a, b in turned(parts[0]))
        if sum(a * b for a, b in parts) > length * width:
            return False
        return any(
            halves(length, width, one, other, along) for one, other in _partings(parts) for along in (True, False)
        )

    def halves(length: int, width: int, one: tuple[Sides, ...], other: tuple[Sides, ...], along: bool) -> bool:
        """Say whether one cut, at the least length that holds the first part, leaves room for the other."""
        whole = length if along else width
        for at in _lengths(one, along, may_turn):
            if at < whole and (fits(at, width, one) if along else fits(length, at, one)):
                return fits(whole - at, width, other) if along else fits(length, whole - at, other)
        return False

    return not pieces or fits(*sheet, tuple(sorted(pieces)))


def _partings(parts: tuple[Sides, ...]) -> Iterator[tuple[tuple[Sides, ...], tuple[Sides, ...]]]:
    """Yield every way to part the pieces in two."""
    rest = range(1, len(parts))
    for number in range(len(parts) - 1):
        for chosen in combinations(rest, number):
            one = (parts[0], *(parts[at] for at in chosen))
            yield one, tuple(parts[at] for at in rest if at not in chosen)


def _lengths(parts: tuple[Sides, ...], along: bool, may_turn: bool) -> list[int]:
    """Return every sum of sides, one or none of each piece, that a part can be long; the least first."""
    sides = [(0, *one) if may_turn else (0, one[0] if along else one[1]) for one in parts]
    return sorted({sum(chosen) for chosen in product(*sides)} - {0})
