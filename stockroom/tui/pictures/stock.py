"""How much of a material there will be: filled columns, the amount to order below, and signs for what changes it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from textual.content import Content

from stockroom.domain.materials import Material
from stockroom.domain.orders import goods
from stockroom.planning.projection import Point
from stockroom.tui.pictures.canvas import Canvas, Days

COMES, GOES, EXPIRES = "+", "-", "×"
SIGNS = {
    "arrival": COMES,
    "made": COMES,
    "bought": COMES,
    "ready": COMES,
    "booking": GOES,
    "making": GOES,
    "expiry": EXPIRES,
}
"""What stands beneath the curve for each kind of change."""
_EIGHTHS = " ▁▂▃▄▅▆▇"
LEAST = (34, 8)
"""Below so many columns and rows nothing can be drawn."""


def draw_stock(
    material: Material, points: Sequence[Point], below: int | None, last: date, width: int, height: int
) -> Content:
    """Draw what will be there day by day up to the last day, in so many columns and rows."""
    most = max([point.quantity for point in points] + [below or 0, 1])
    labels = {0: "0", most: goods(material, most)}
    if below:
        labels[below] = goods(material, below)
    left = min(max(map(len, labels.values())), width // 3) + 2
    canvas = Canvas(width, height)
    rows = height - 5
    days = Days(points[0].day, last, left, width - left - 1)
    line = rows - 1 - min(rows - 1, int(below * rows / most)) if below else None
    for column in range(left, left + days.width):
        _fill(canvas, column, _there(points, days.day(column)), most, rows)
        if line is not None:
            full = not canvas.is_empty(column, line)
            canvas.put(column, line, "▒" if full else "╌", "$warning")
    _scale(canvas, labels, most, rows, left)
    for point in points[1:]:
        for kind, _, _ in point.changes:
            sign = SIGNS[kind]
            row = rows + 2 if sign == COMES else rows + 3 if sign == GOES else rows + 4
            canvas.put(days.column(point.day), row, sign, "$error bold" if sign == EXPIRES else "bold")
    days.write(canvas, rows)
    return canvas.content


def _there(points: Sequence[Point], day: date) -> int:
    return next((point.quantity for point in reversed(points) if point.day <= day), points[0].quantity)


def _fill(canvas: Canvas, column: int, quantity: int, most: int, rows: int) -> None:
    eighths = max(0, quantity) * rows * 8 // most
    if quantity > 0:
        eighths = max(1, eighths)
    for row in range(rows):
        sign = "█" if eighths >= 8 else _EIGHTHS[max(0, eighths)]
        canvas.put(column, rows - 1 - row, sign, "$primary")
        eighths -= 8


def _scale(canvas: Canvas, labels: dict[int, str], most: int, rows: int, left: int) -> None:
    for amount, words in labels.items():
        row = rows - 1 - min(rows - 1, int(amount * rows / most))
        canvas.put(0, row, f"{words[: left - 2]:>{left - 2}}", "dim")
