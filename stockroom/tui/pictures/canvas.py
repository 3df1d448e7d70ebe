"""A sheet of squared paper: characters at places, each with a style."""

from __future__ import annotations

from datetime import date, timedelta

from textual.content import Content

DAYS_BETWEEN = (1, 2, 7, 14, 28, 56, 91, 182, 364, 728)
"""How far apart the days under a picture may be."""


class Canvas:
    """So many columns and rows; what falls outside is left off."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._cells = [[(" ", "")] * width for _ in range(height)]

    def put(self, column: int, row: int, text: str, style: str = "") -> None:
        """Write from a place to the right."""
        if 0 <= row < self.height:
            for index, sign in enumerate(text, start=column):
                if 0 <= index < self.width:
                    self._cells[row][index] = (sign, style)

    def is_empty(self, column: int, row: int) -> bool:
        """Say whether nothing stands at a place of the sheet."""
        return 0 <= row < self.height and 0 <= column < self.width and self._cells[row][column][0] == " "

    @property
    def content(self) -> Content:
        """All of it, without spaces at the ends of lines."""
        lines = []
        for cells in self._cells:
            last = max((index for index, (sign, _) in enumerate(cells) if sign != " "), default=-1)
            lines.append(Content.assemble(*_runs(cells[: last + 1])))
        return Content("\n").join(lines)


def _runs(cells: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Join neighbours of one style."""
    runs: list[tuple[str, str]] = []
    for sign, style in cells:
        if runs and runs[-1][1] == style:
            runs[-1] = (runs[-1][0] + sign, style)
        else:
            runs.append((sign, style))
    return runs


class Days:
    """Days along the foot of a picture, from its first column to its last."""

    def __init__(self, first: date, last: date, left: int, width: int) -> None:
        """`left` is the column of the first day, `width` how many columns there are for all of them."""
        self.first, self.last, self.left, self.width = first, max(last, first + timedelta(days=1)), left, width

    @property
    def whole(self) -> int:
        """How many days there are from the first to the last."""
        return (self.last - self.first).days

    def column(self, day: date) -> int:
        """Return the column in which a day stands."""
        return self.left + min(self.width - 1, max(0, (day - self.first).days * (self.width - 1) // self.whole))

    def day(self, column: int) -> date:
        """Return the last day that stands in a column or before it."""
        past = ((column - self.left + 1) * self.whole - 1) // max(1, self.width - 1)
        return min(self.last, self.first + timedelta(days=past))

    def write(self, canvas: Canvas, row: int) -> None:
        """Draw the axis, with a tick and a date wherever there is room; the year is told where it begins or changes."""
        canvas.put(self.left, row, "─" * self.width, "dim")
        apart = next((days for days in DAYS_BETWEEN if days * self.width / self.whole >= 8), DAYS_BETWEEN[-1])
        day, year, free = self.first, 0, 0
        while day <= self.last:
            words = f"{day.day} {day:%b}" + (f" {day.year}" if day.year != year else "")
            column = self.column(day)
            if column >= free and column + len(words) <= canvas.width:
                canvas.put(column, row, "┴", "dim")
                canvas.put(column, row + 1, words, "dim")
                free, year = column + len(words) + 1, day.year
            day += timedelta(days=apart)
