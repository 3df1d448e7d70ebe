"""Which of the copies taken each day are kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime

SPANS: tuple[tuple[int, Callable[[datetime], tuple[int, ...]]], ...] = (
    (7, lambda moment: (moment.year, moment.month, moment.day)),
    (4, lambda moment: moment.isocalendar()[:2]),
    (12, lambda moment: (moment.year, moment.month)),
)
"""How many days, weeks and months are kept, and what a moment's is: its last copy stands for each."""


def copies_to_keep(moments: Iterable[datetime]) -> set[datetime]:
    """Return the last copy of each of the last seven days, four weeks and twelve months that have one.

    They are counted among the copies that are there, never from today: a clock that is wrong for a day, or a studio
    that was closed for a year, loses none.
    """
    in_order = sorted(moments)
    kept: set[datetime] = set()
    for number, span in SPANS:
        last = {span(moment): moment for moment in in_order}
        kept.update(last[one] for one in sorted(last)[-number:])
    return kept
