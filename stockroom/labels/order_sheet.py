"""An order as a printed sheet."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.papers import Column, Paper, Table
from stockroom.labels.table_sheet import draw_paper

_WIDTHS_MM = (10.0, 24.0, 54.0, 13.0, 21.0, 24.0, 24.0)
"""Of the columns line, number, goods, packs, pack, price and sum."""
_RIGHT = frozenset({0, 3, 5, 6})


def draw_order(
    heading: Sequence[str],
    columns: Sequence[str],
    rows: Sequence[tuple[str, ...]],
    sums: Sequence[tuple[str, str]],
) -> bytes:
    """Draw an order as PDF: heading lines, a row of cells for each line, the sums below. Same order, same bytes."""
    table = Table(
        columns=tuple(
            Column(head=head, width_mm=_WIDTHS_MM[index], right=index in _RIGHT) for index, head in enumerate(columns)
        ),
        rows=tuple(rows),
        sums=tuple(sums),
    )
    return draw_paper(Paper(title=heading[0], heading=tuple(heading[1:]), tables=(table,)))
