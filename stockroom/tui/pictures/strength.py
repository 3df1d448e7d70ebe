"""A jar's measured strength over time: each check with its range, against saturation and the studio's limit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from textual.content import Content

from stockroom.science.ranges import Range
from stockroom.tui.pictures.canvas import Canvas, Days

BEST, OUTSIDE = "●", "○"
"""A check's best figure within the picture, and one that lies above or below it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """A figure on a day, in percent of saturation."""

    day: date
    figure: Range


def draw_strength(
    checks: Sequence[Dated],
    limit: float,
    first: date,
    last: date,
    today: date,
    line: Callable[[date], Range] | None,
    width: int,
    height: int,
) -> Content:
    """Draw checks from the first day to the last; `line` is what was fitted through them, where there is one."""
    figures = [one.figure for one in checks]
    low = min([limit - 10, *(figure.low for figure in figures)])
    high = max([110.0, *(min(figure.high, 130.0) for figure in figures)])
    low, high = max(0.0, 10 * (low // 10)), 10 * -(-high // 10)
    left, rows = 9, height - 2
    canvas = Canvas(width, height)
    days = Days(first, last, left, width - left - 1)

    def row(percent: float) -> int:
        return round((high - min(high, max(low, percent))) * (rows - 1) / (high - low))

    for percent, sign, words, style in ((100.0, "─", "100 %", "$primary"), (limit, "╌", f"{limit:g} %", "$warning")):
        canvas.put(0, row(percent), f"{words:>{left - 2}}", style)
        canvas.put(left, row(percent), sign * days.width, style)
    for percent in (low, high):
        canvas.put(0, row(percent), f"{percent:.0f} %".rjust(left - 2), "dim")
    if first <= today <= last:
        for each in range(rows):
            if canvas.is_empty(days.column(today), each):
                canvas.put(days.column(today), each, "┊", "dim")
    if line is not None and checks:
        for column in range(days.column(min(one.day for one in checks)), left + days.width):
            at = line(days.day(column)).best
            if low <= at <= high:
                canvas.put(column, row(at), "·", "$accent")
    taken: set[int] = set()
    for one in sorted(checks, key=lambda one: one.day):
        column = days.column(one.day)
        while column in taken and column < left + days.width - 1:
            column += 1
        taken.add(column)
        _bar(canvas, column, row(one.figure.high), row(one.figure.best), row(one.figure.low))
        if not low <= one.figure.best <= high:
            canvas.put(column, row(one.figure.best), OUTSIDE, "bold")
    days.write(canvas, rows)
    return canvas.content


def _bar(canvas: Canvas, column: int, high: int, best: int, low: int) -> None:
    for each in range(high, low + 1):
        canvas.put(column, each, "│", "bold")
    if high < best:
        canvas.put(column, high, "┬", "bold")
    if low > best:
        canvas.put(column, low, "┴", "bold")
    canvas.put(column, best, BEST, "bold")


def span(made: date, checks: Sequence[Dated], today: date, ends: date | None) -> tuple[date, date]:
    """Choose the days shown: from its making to today, and on to the day on which it ends where that is not far."""
    days = max(30, (today - made).days)
    last = today
    if ends is not None and ends > today and (ends - today).days <= days:
        last = ends
    last = max([last, *(one.day for one in checks)])
    return made, last + timedelta(days=max(1, days // 20))
