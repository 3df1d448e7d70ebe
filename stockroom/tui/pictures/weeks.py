"""The coming weeks: a column for each day, a row for each kind of thing, and how many of it there are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta

from textual.content import Content

from stockroom.actions.planned import Moment
from stockroom.domain.open_days import OpenDays
from stockroom.tui.pictures.canvas import Canvas

ROWS = (("order", "order"), ("make", "make"), ("booking", "booked"), ("arrival", "arrives"))
"""Each kind of thing and what its row is called, in the order in which they follow from each other."""
LEFT = 9
"""Columns for the names of the rows."""
CELL = 2
HEIGHT = len(ROWS) + 2


def days_shown(width: int) -> int:
    """Say how many days have room in so many columns."""
    return max(7, (width - LEFT) // CELL)


def draw_weeks(moments: Iterable[Moment], studio: OpenDays, today: date, marked: date | None, width: int) -> Content:
    """Draw the days from today on; what should have begun before stands today, with a sign. `marked` is pointed at."""
    days = days_shown(width)
    canvas = Canvas(width, HEIGHT)
    counts: Counter[tuple[str, int]] = Counter()
    late: set[tuple[str, int]] = set()
    for one in moments:
        at = (one.kind, max(0, (one.day - today).days))
        counts[at] += 1
        if one.late or one.day < today:
            late.add(at)
    for row, (_, name) in enumerate(ROWS, start=2):
        canvas.put(0, row, name, "dim")
    for number in range(days):
        day, column = today + timedelta(days=number), LEFT + number * CELL
        begins = number == 0 or day.weekday() == 0
        if begins:
            words = "today" if number == 0 else f"{day:%a} {day.day} {day:%b}"
            room = CELL * (7 - day.weekday()) if number == 0 else width - column
            if len(words) < room or number:
                canvas.put(column, 0, words if len(words) <= room else "", "dim")
        if day == marked:
            canvas.put(column, 1, "▼", "bold $accent")
        closed = not studio.is_open(day)
        for row, (kind, _) in enumerate(ROWS, start=2):
            number_of = counts[kind, number]
            if number_of:
                canvas.put(column, row, str(number_of) if number_of < 10 else "+", "bold")
                if (kind, number) in late:
                    canvas.put(column + 1, row, "!", "bold $error")
            else:
                canvas.put(column, row, "▒▒" if closed else "┊" if begins else "·", "dim")
    return canvas.content
