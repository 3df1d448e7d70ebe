"""Tables as a printed sheet: A4, going on over as many pages as they need, each page numbered."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from stockroom.domain.papers import Column, Paper, Table
from stockroom.labels.fonts import BOLD, REGULAR, fit_to_font, load_face, measure
from stockroom.labels.pdf import POINTS_PER_MM
from stockroom.labels.wrapping import wrap

ROOM_MM = 170.0
"""How wide the columns of a table may be in all."""
_WIDTH_MM, _HEIGHT_MM, _MARGIN_MM = 210.0, 297.0, 20.0
_LETTER_MM, _LINE_MM, _TITLE_MM, _SMALL_MM = 3.6, 5.2, 6.0, 3.0
_GAP_MM = 2.0


class _Page:
    """Where writing has come to on a canvas, in mm from the top."""

    def __init__(self, canvas: Any, title: str) -> None:
        self.canvas, self.title = canvas, title
        self.top = _MARGIN_MM

    def text(
        self, text: str, x_mm: float, *, size_mm: float = _LETTER_MM, bold: bool = False, right: bool = False
    ) -> None:
        face = BOLD if bold else REGULAR
        self.canvas.setFont(face, size_mm * POINTS_PER_MM)
        x, y = x_mm * POINTS_PER_MM, (_HEIGHT_MM - self.top - size_mm) * POINTS_PER_MM
        (self.canvas.drawRightString if right else self.canvas.drawString)(x, y, text)

    def rule(self) -> None:
        y = (_HEIGHT_MM - self.top - 1) * POINTS_PER_MM
        self.canvas.line(_MARGIN_MM * POINTS_PER_MM, y, (_WIDTH_MM - _MARGIN_MM) * POINTS_PER_MM, y)
        self.top += 2.5

    def lines(self, text: str, *, size_mm: float = _LETTER_MM, bold: bool = False) -> None:
        """Write a line over the whole width, wrapped."""
        for part in _wrapped(text, ROOM_MM, size_mm, bold=bold):
            self.needs(size_mm * 1.5)
            self.text(part, _MARGIN_MM, size_mm=size_mm, bold=bold)
            self.top += size_mm * 1.5

    def needs(self, height_mm: float) -> bool:
        """Turn the page where so much does not fit; say whether it was turned."""
        if self.top + height_mm <= _HEIGHT_MM - _MARGIN_MM:
            return False
        self.end()
        self.top = _MARGIN_MM
        return True

    def end(self) -> None:
        """Number the page, and finish it."""
        self.top = _HEIGHT_MM - _MARGIN_MM + 4
        self.text(_fitted(self.title), _MARGIN_MM, size_mm=_SMALL_MM)
        self.text(f"page {self.canvas.getPageNumber()}", _WIDTH_MM - _MARGIN_MM, size_mm=_SMALL_MM, right=True)
        self.canvas.showPage()


def draw_paper(paper: Paper) -> bytes:
    """Draw a sheet as PDF. The same sheet gives the same bytes."""
    from reportlab.pdfgen.canvas import Canvas

    for name in (REGULAR, BOLD):
        load_face(name)
    stream = BytesIO()
    canvas = Canvas(stream, pagesize=(_WIDTH_MM * POINTS_PER_MM, _HEIGHT_MM * POINTS_PER_MM), invariant=1)
    canvas.setTitle(paper.title)
    canvas.setCreator("stockroom")
    page = _Page(canvas, paper.title)
    page.lines(paper.title, size_mm=_TITLE_MM, bold=True)
    for line in paper.heading:
        page.lines(line)
    for table in paper.tables:
        _table(page, table)
    page.top += _LINE_MM
    for line in paper.foot:
        page.lines(line)
    page.end()
    canvas.save()
    return stream.getvalue()


def _table(page: _Page, table: Table) -> None:
    heads = [column.head for column in table.columns]
    page.top += _LINE_MM
    page.needs(4 * _LINE_MM)
    if table.title:
        page.lines(table.title, bold=True)
    _row(page, table.columns, heads, bold=True)
    page.rule()
    for row in table.rows:
        height = _LINE_MM * max(len(_cell(cell, column)) for cell, column in zip(row, table.columns, strict=True))
        if page.needs(height):
            _row(page, table.columns, heads, bold=True)
            page.rule()
        _row(page, table.columns, row)
    page.rule()
    page.needs(_LINE_MM * len(table.sums))
    for what, value in table.sums:
        page.text(_fitted(what), _WIDTH_MM - _MARGIN_MM - 40, right=True)
        page.text(_fitted(value), _WIDTH_MM - _MARGIN_MM, bold=True, right=True)
        page.top += _LINE_MM


def _row(page: _Page, columns: Sequence[Column], cells: Sequence[str], *, bold: bool = False) -> None:
    wrapped = [_cell(cell, column, bold=bold) for cell, column in zip(cells, columns, strict=True)]
    for number in range(max(len(parts) for parts in wrapped)):
        left = _MARGIN_MM
        for index, (column, parts) in enumerate(zip(columns, wrapped, strict=True)):
            if number < len(parts):
                gap = 0.0 if index == len(columns) - 1 else _GAP_MM
                page.text(
                    parts[number],
                    left + (column.width_mm - gap if column.right else 0.0),
                    bold=bold,
                    right=column.right,
                )
            left += column.width_mm
        page.top += _LINE_MM


def _cell(text: str, column: Column, *, bold: bool = False) -> list[str]:
    return _wrapped(text, column.width_mm - _GAP_MM, _LETTER_MM, bold=bold)


def _wrapped(text: str, room_mm: float, size_mm: float, *, bold: bool) -> list[str]:
    return wrap(_fitted(text), lambda _: room_mm, lambda part: measure(part, size_mm, bold)) or [""]


def _fitted(text: str) -> str:
    return fit_to_font(text)[0]
