"""The page for the wall."""

from __future__ import annotations

from datetime import datetime

from stockroom.domain.papers import Paper
from stockroom.store.open import Store
from stockroom.tui.forms.fields import whole_number
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.papers.asked import AskedPaper

MOST_DAYS = 62


def _days(answers: Answers) -> int:
    return whole_number(answers.get("days"), "days", MOST_DAYS) or 7


def _draw(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.wall import wall, wall_paper

    return wall_paper(wall(store, local, _days(answers)))


WALL = AskedPaper(
    name="wall",
    title="The coming days",
    use="one page for the wall",
    help="""
The coming days on one page for the wall: what is booked, what to make and to order, and what
else is due, day by day; then what waits already.
""",
    fields=(
        Asked(
            key="days",
            words="Days",
            hint=f"7, today among them; up to {MOST_DAYS}",
            read=lambda store, answers: _days(answers),
        ),
    ),
    draw=_draw,
)
