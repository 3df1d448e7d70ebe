"""An order as a printed sheet: A4, a table that goes on over as many pages as it needs."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from stockroom.labels.fonts import BOLD, REGULAR, fit_to_font, load_face, measure
from stockroom.labels.wrapping import wrap

_POINTS_PER_MM = 72 / 25.4
_WIDTH_MM, _HEIGHT_MM, _MARGIN_MM = 210.0, 297.0, 20.0
_LETTER_MM, _LINE_MM, _TITLE_MM, _SMALL_MM = 3.6, 5.2, 6.0, 2.8
_COLUMNS_MM = (10.0, 24.0, 54.0, 13.0, 21.0, 24.0, 24.0)
"""Widths of the columns line, number, goods, packs, pack, price and sum: 170 mm in all."""
_RIGHT = frozenset({0, 3, 5, 6})
_GAP_MM = 2.0


class _Page:
    """Where writing has come to on a canvas, in mm from the top."""

    def __init__(self, canvas: Any, title: str) -> None:
        self.canvas = canvas
        self.title = title
        self.top = _MARGIN_MM

    def text(
        self, text: str, x_mm: float, *, size_mm: float = _LETTER_MM, bold: bool = False, right: bool = False
    ) -> None:
        face = BOLD if bold else REGULAR
        self.canvas.setFont(face, size_mm * _POINTS_PER_MM)
        x, y = x_mm * _POINTS_PER_MM, (_HEIGHT_MM - self.top - size_mm) * _POINTS_PER_MM
        (self.canvas.drawRightString if right else self.canvas.drawString)(x, y, text)

    def rule(self) -> None:
        y = (_HEIGHT_MM - self.top - 1) * _POINTS_PER_MM
        self.canvas.line(_MARGIN_MM * _POINTS_PER_MM, y, (_WIDTH_MM - _MARGIN_MM) * _POINTS_PER_MM, y)
        self.top += 2.5

    def needs(self, height_mm: float) -> bool:
        """Turn the page where so much does not fit; say whether it was turned."""
        if self.top + height_mm <= _HEIGHT_MM - _MARGIN_MM:
            return False
        self.end()
        self.top = _MARGIN_MM
        return True

    def end(self) -> None:
        """Number the page and end it."""
        self.top = _HEIGHT_MM - _MARGIN_MM + _LINE_MM
        number = f"{self.title}, page {self.canvas.getPageNumber()}"
        self.text(number, _WIDTH_MM - _MARGIN_MM, size_mm=_SMALL_MM, right=True)
        self.canvas.showPage()


def draw_order(
    title: str,
    heading: Sequence[str],
    columns: Sequence[str],
    rows: Sequence[Sequence[str]],
    sums: Sequence[tuple[str, str]],
) -> bytes:
    """Draw an order as PDF: heading lines, a row of cells for each line, the sums below. Same order, same bytes."""
    from reportlab.pdfgen.canvas import Canvas

    for name in (REGULAR, BOLD):
        load_face(name)
    stream = BytesIO()
    canvas = Canvas(stream, pagesize=(_WIDTH_MM * _POINTS_PER_MM, _HEIGHT_MM * _POINTS_PER_MM), invariant=1)
    canvas.setTitle(title)
    canvas.setCreator("stockroom")
    page = _Page(canvas, title)
    for number, line in enumerate(heading):
        size = _TITLE_MM if number == 0 else _LETTER_MM
        for part in _wrapped(line, _WIDTH_MM - 2 * _MARGIN_MM, size, bold=number == 0):
            page.text(part, _MARGIN_MM, size_mm=size, bold=number == 0)
            page.top += size * 1.5
    page.top += _LINE_MM
    _row(page, columns, bold=True)
    page.rule()
    for row in rows:
        if page.needs(_LINE_MM * max(len(_cell(cell, column)) for column, cell in enumerate(row))):
            _row(page, columns, bold=True)
            page.rule()
        _row(page, row)
    page.rule()
    page.needs(_LINE_MM * len(sums))
    for what, value in sums:
        page.text(_fitted(what), _WIDTH_MM - _MARGIN_MM - 40, right=True)
        page.text(_fitted(value), _WIDTH_MM - _MARGIN_MM, bold=True, right=True)
        page.top += _LINE_MM
    page.end()
    canvas.save()
    return stream.getvalue()


def _row(page: _Page, cells: Sequence[str], *, bold: bool = False) -> None:
    wrapped = [_cell(cell, column, bold=bold) for column, cell in enumerate(cells)]
    for number in range(max(len(parts) for parts in wrapped)):
        left = _MARGIN_MM
        for column, parts in enumerate(wrapped):
            if number < len(parts):
                right = column in _RIGHT
                gap = 0.0 if column == len(cells) - 1 else _GAP_MM
                page.text(parts[number], left + (_COLUMNS_MM[column] - gap if right else 0.0), bold=bold, right=right)
            left += _COLUMNS_MM[column]
        page.top += _LINE_MM


def _cell(text: str, column: int, *, bold: bool = False) -> list[str]:
    return _wrapped(text, _COLUMNS_MM[column] - _GAP_MM, _LETTER_MM, bold=bold)


def _wrapped(text: str, room_mm: float, size_mm: float, *, bold: bool) -> list[str]:
    return wrap(_fitted(text), lambda _: room_mm, lambda part: measure(part, size_mm, bold)) or [""]


def _fitted(text: str) -> str:
    return fit_to_font(text)[0]
