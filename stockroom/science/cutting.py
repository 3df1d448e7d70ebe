"""How many equal pieces come out of a sheet or a roll, and where the cuts go.

Every cut runs from edge to edge of what is cut, as with a straight edge or a guillotine. Lengths are whole numbers of
any one unit. A sheet and a piece are given as (first side, second side); x runs along the sheet's first side.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from stockroom.errors import BadInput

_MOST_TRIALS = 3_000_000
"""Of a cut on a rectangle: about a second. Beyond, layouts of two blocks are compared, and the answer says so."""

MOST_PIECES = 100_000
"""Of a sheet; more is a slip of the keyboard."""

Sides = tuple[int, int]


class Grain(StrEnum):
    """How a piece lies to the sheet."""

    ALONG = "along"
    """Its first side along the sheet's first side."""
    ACROSS = "across"
    """Its first side along the sheet's second side."""
    FREE = "free"
    """Either way, as gives more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Pieces that lie in columns and rows, all the same way round, a gap apart."""

    x: int
    y: int
    columns: int
    rows: int
    length: int
    """Of one piece, along x."""
    width: int
    """Of one piece, along y."""
    gap: int = 0
    turned: bool = False
    """Whether the piece's first side lies along y."""

    @property
    def pieces(self) -> int:
        return self.columns * self.rows

    def corners(self) -> Iterator[Sides]:
        """Yield where each of its pieces begins."""
        for row in range(self.rows):
            for column in range(self.columns):
                yield self.x + column * (self.length + self.gap), self.y + row * (self.width + self.gap)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """How a sheet is cut."""

    blocks: tuple[Block, ...]
    bound: int
    """No layout of any kind gives more: the usable area divided by a piece's."""
    exact: bool
    """Whether no cuts from edge to edge give more. False only for very many small pieces laid either way."""

    @property
    def pieces(self) -> int:
        return sum(block.pieces for block in self.blocks)


def cut(sheet: Sides, piece: Sides, *, grain: Grain = Grain.FREE, trim: int = 0, gap: int = 0) -> Cutting:
    """Lay out as many pieces as a sheet gives.

    `trim` is taken off every edge first, `gap` lies between neighbours. One way round, plain columns and rows give
    the most there is. Either way round the most that cuts from edge to edge give is found by dynamic programming over
    the lengths that sums of the piece's sides reach: J. C. Herz, IBM J. Research and Development 16 (1972) 462-469;
    N. Christofides, C. Whitlock, Operations Research 25 (1977) 30-44. Raises BadInput for sides that are not above
    nothing, for a trim or gap below it, and for more than MOST_PIECES.
    """
    _check(sheet, piece, trim, gap)
    # with a gap added to the sheet and to every piece, the gaps need no further thought
    length, width = (max(0, side - 2 * trim + gap) for side in sheet)
    cell = (piece[0] + gap, piece[1] + gap)
    bound = length * width // (cell[0] * cell[1])
    if bound > MOST_PIECES:
        raise BadInput(f"That would be more than {MOST_PIECES} pieces. Look at the numbers and the units.")
    exact = True
    if grain is Grain.FREE and cell[0] != cell[1]:
        found, exact = _either_way(length, width, cell)
    else:
        found = [(0, 0, length, width, grain is Grain.ACROSS)]
    blocks = [_block(one, cell, trim, gap) for one in found]
    return Cutting(
        blocks=tuple(block for block in blocks if block.pieces),
        bound=bound,
        exact=exact,
    )


def roll_length(
    width: int, piece: Sides, wanted: int, *, grain: Grain = Grain.FREE, trim: int = 0, gap: int = 0
) -> int:
    """Return the shortest length of a roll that gives the pieces wanted in plain columns and rows.

    The sheet's first side is the roll's length; `trim` is taken off both edges and the beginning. Raises BadInput where
    the roll is too narrow, and as `cut` does.
    """
    _check((1, width), piece, trim, gap)
    if wanted <= 0:
        raise BadInput("How many pieces are wanted? Write a number greater than nothing.")
    lengths: list[int] = []
    for turned in (False, True):
        along, across = (piece[1], piece[0]) if turned else piece
        rows = (width - 2 * trim + gap) // (across + gap)
        if rows > 0 and grain is not (Grain.ALONG if turned else Grain.ACROSS):
            lengths.append(trim + -(-wanted // rows) * (along + gap) - gap)
    if not lengths:
        raise BadInput("The roll is too narrow for that piece. Turn it, or take a wider roll.")
    return min(lengths)


def _check(sheet: Sides, piece: Sides, trim: int, gap: int) -> None:
    if min(*sheet, *piece) <= 0:
        raise BadInput("A sheet and a piece need sides greater than nothing.")
    if trim < 0 or gap < 0:
        raise BadInput("A trim or a gap cannot be less than nothing.")


_Part = tuple[int, int, int, int, bool]
"""A rectangle cut into columns and rows: x, y, length, width, and whether its pieces are turned."""


def _block(part: _Part, cell: Sides, trim: int, gap: int) -> Block:
    x, y, length, width, turned = part
    along, across = (cell[1], cell[0]) if turned else cell
    return Block(
        x=x + trim,
        y=y + trim,
        columns=length // along,
        rows=width // across,
        length=along - gap,
        width=across - gap,
        gap=gap,
        turned=turned,
    )


def _in_rows(length: int, width: int, cell: Sides) -> tuple[int, bool]:
    """Return how many cells plain columns and rows give, the better way round, and whether that is turned."""
    straight = (length // cell[0]) * (width // cell[1])
    turned = (length // cell[1]) * (width // cell[0])
    return max(straight, turned), turned > straight


def _either_way(length: int, width: int, cell: Sides) -> tuple[list[_Part], bool]:
    if max(_number(length, cell), _number(width, cell)) > _MOST_TRIALS:
        return _two_blocks(length, width, cell), False
    xs, ys = _sums(length, cell), _sums(width, cell)
    if len(xs) * len(ys) * (len(xs) + len(ys)) // 4 > _MOST_TRIALS:
        return _two_blocks(length, width, cell), False
    cuts = _best_cuts(xs, ys, cell)
    parts: list[_Part] = []
    waiting = [(0, 0, len(xs) - 1, len(ys) - 1)]
    while waiting:
        x, y, i, j = waiting.pop()
        at = cuts[i][j]
        if at > 0:
            waiting += [(x, y, at, j), (x + xs[at], y, _index(xs, xs[i] - xs[at]), j)]
        elif at < 0:
            waiting += [(x, y, i, -at), (x, y + ys[-at], i, _index(ys, ys[j] - ys[-at]))]
        else:
            parts.append((x, y, xs[i], ys[j], _in_rows(xs[i], ys[j], cell)[1]))
    return sorted(parts), True


def _number(most: int, cell: Sides) -> int:
    """Return about how many sums `_sums` would form, equal ones included."""
    return (most // cell[0] + 1) * (most // cell[1] + 1) // 2


def _sums(most: int, cell: Sides) -> list[int]:
    """Return every sum of the two sides, each taken any number of times, up to a length; nothing included."""
    return sorted({a + b for a in range(0, most + 1, cell[0]) for b in range(0, most + 1 - a, cell[1])})


def _index(points: list[int], length: int) -> int:
    """Return which is the last point not beyond a length."""
    return bisect_right(points, length) - 1


def _best_cuts(xs: list[int], ys: list[int], cell: Sides) -> list[list[int]]:
    """Return for every rectangle of reached lengths the index of its best first cut: x above, y below nothing.

    Nothing stands for columns and rows. A cut left of the middle is tried for both of its mirror images.
    """
    area = cell[0] * cell[1]
    rests_y = [[_index(ys, y - ys[b]) for b in range(_index(ys, y // 2) + 1)] for y in ys]
    most: list[list[int]] = []
    cuts: list[list[int]] = []
    for x in xs:
        rests_x = [_index(xs, x - xs[a]) for a in range(_index(xs, x // 2) + 1)]
        row, chosen = [0] * len(ys), [0] * len(ys)
        most.append(row)
        cuts.append(chosen)
        for j, y in enumerate(ys):
            best, at = _in_rows(x, y, cell)[0], 0
            bound = x * y // area
            if best < bound:
                for a in range(1, len(rests_x)):
                    both = most[a][j] + most[rests_x[a]][j]
                    if both > best:
                        best, at = both, a
            if best < bound:
                rests = rests_y[j]
                for b in range(1, len(rests)):
                    both = row[b] + row[rests[b]]
                    if both > best:
                        best, at = both, -b
            row[j], chosen[j] = best, at
    return cuts


def _two_blocks(length: int, width: int, cell: Sides) -> list[_Part]:
    """Return the best layout of one cut, with columns and rows on both sides of it."""
    pairs = [((0, 0, x, width), (x, 0, length - x, width)) for side in cell for x in range(0, length + 1, side)] + [
        ((0, 0, length, y), (0, y, length, width - y)) for side in cell for y in range(0, width + 1, side)
    ]
    best = max(pairs, key=lambda pair: sum(_in_rows(one[2], one[3], cell)[0] for one in pair))
    return [(*one, _in_rows(one[2], one[3], cell)[1]) for one in best]
