"""A bench card as PDF: what to do on one side of A5, with boxes to fill in by hand and a code that scans."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Any

from stockroom.labels.fonts import BOLD, REGULAR, fit_to_font, measure
from stockroom.labels.pdf import begin_page, begin_pdf, write_symbol
from stockroom.labels.placing import ASCENT, LINE_HEIGHT, LINE_MM, SymbolSquare
from stockroom.labels.plain_text import make_visible
from stockroom.labels.wrapping import wrap

WIDTH_MM, HEIGHT_MM = 148.0, 210.0
_MARGIN_MM = 9.0
_SYMBOL_MM = 22.4
_ROW_MM = 8.0
_COLUMNS = (("", 0.0), ("planned", 46.0), ("weighed", 72.0), ("lot", 101.0))
"""Where the columns of the table begin, from the margin."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardLine:
    """One ingredient and how much of it is planned."""

    material: str
    planned: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchCard:
    """What a bench card says."""

    code: str
    title: str
    amount: str
    version: int
    printed: str
    cautions: tuple[str, ...]
    lines: tuple[CardLine, ...]
    steps: tuple[str, ...]


def draw_card(card: BenchCard) -> bytes:
    """Draw a card, on as many pages as its steps need."""
    canvas, stream = begin_pdf(f"Bench card {card.code}")
    page = _Page(canvas, card)
    page.write(card.title, 6.0, bold=True)
    page.write(card.amount, 5.0, bold=True)
    page.write(f"version {card.version} of the recipe, printed {card.printed}", 3.0)
    page.pass_symbol()
    for words in card.cautions:
        page.write(f"! {words}", 3.4, bold=True)
    page.table(card.lines)
    for number, words in enumerate(card.steps, start=1):
        page.write(f"{number}.  {words}", 3.8, hanging_mm=6.0)
    page.boxes(("begun at", "ended at", "temperature", "jars", "initials"))
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


class _Page:
    """Where the next thing stands, in mm from the upper edge; what does not fit goes to a new page."""

    def __init__(self, canvas: Any, card: BenchCard) -> None:
        self.canvas = canvas
        self.card = card
        self.begin()

    def begin(self) -> None:
        begin_page(self.canvas, WIDTH_MM, HEIGHT_MM)
        x_mm = WIDTH_MM - _MARGIN_MM - _SYMBOL_MM
        square = SymbolSquare(
            code=self.card.code, text=self.card.code, x_mm=x_mm, y_mm=_MARGIN_MM - 3, side_mm=_SYMBOL_MM, small=False
        )
        self.canvas.addLiteral(write_symbol(square, HEIGHT_MM))
        self.y_mm = _MARGIN_MM
        self.symbol_bottom_mm = _MARGIN_MM + _SYMBOL_MM + 3
        self.text(self.card.code, x_mm + 4, _MARGIN_MM + _SYMBOL_MM + 1, 5.0, bold=True)

    def need(self, height_mm: float) -> None:
        if self.y_mm + height_mm > HEIGHT_MM - _MARGIN_MM:
            self.canvas.showPage()
            self.begin()

    def pass_symbol(self) -> None:
        self.y_mm = max(self.y_mm, self.symbol_bottom_mm) + 2

    def text(self, text: str, x_mm: float, baseline_mm: float, size_mm: float, *, bold: bool = False) -> None:
        self.canvas.setFont(BOLD if bold else REGULAR, size_mm)
        self.canvas.drawString(x_mm, HEIGHT_MM - baseline_mm, text)

    def write(self, words: str, size_mm: float, *, bold: bool = False, hanging_mm: float = 0.0) -> None:
        """Write a paragraph; further lines hang in."""
        text = fit_to_font(make_visible(words))[0]
        width = partial(measure, size_mm=size_mm, bold=bold)
        height_mm = size_mm * LINE_HEIGHT

        def room(number: int) -> float:
            beside = self.y_mm + number * height_mm < self.symbol_bottom_mm
            return WIDTH_MM - 2 * _MARGIN_MM - (_SYMBOL_MM + 2 if beside else 0) - (hanging_mm if number else 0)

        for number, line in enumerate(wrap(text, room, width)):
            self.need(height_mm)
            self.text(
                line, _MARGIN_MM + (hanging_mm if number else 0), self.y_mm + ASCENT * size_mm, size_mm, bold=bold
            )
            self.y_mm += height_mm
        self.y_mm += 1.0

    def table(self, lines: tuple[CardLine, ...]) -> None:
        """Write the ingredients with empty boxes for what was weighed or measured, and of which lot."""
        self.need(2 * _ROW_MM)
        for title, at_mm in _COLUMNS:
            self.text(title, _MARGIN_MM + at_mm + 1, self.y_mm + 3.5, 3.0)
        self.y_mm += 4.5
        for line in lines:
            self.need(_ROW_MM)
            self.cells(line)
            self.y_mm += _ROW_MM
        self.y_mm += 3.0

    def cells(self, line: CardLine) -> None:
        ends = [at_mm for _, at_mm in _COLUMNS[1:]] + [WIDTH_MM - 2 * _MARGIN_MM]
        for (_, at_mm), end_mm, words in zip(_COLUMNS, ends, (line.material, line.planned, "", ""), strict=True):
            self.frame(_MARGIN_MM + at_mm, end_mm - at_mm)
            text = fit_to_font(make_visible(words))[0]
            size_mm = 3.4
            while (
                size_mm > 1.6 and len(self.fitted(text, end_mm - at_mm - 2, size_mm)) * size_mm * LINE_HEIGHT > _ROW_MM
            ):
                size_mm -= 0.2
            for number, part in enumerate(self.fitted(text, end_mm - at_mm - 2, size_mm)):
                baseline_mm = self.y_mm + 0.5 + number * size_mm * LINE_HEIGHT + ASCENT * size_mm
                self.text(part, _MARGIN_MM + at_mm + 1, baseline_mm, size_mm)

    def fitted(self, text: str, room_mm: float, size_mm: float) -> list[str]:
        return wrap(text, lambda _: room_mm, partial(measure, size_mm=size_mm, bold=False))

    def boxes(self, captions: tuple[str, ...]) -> None:
        """Draw a row of boxes with their captions."""
        height_mm = 11.0
        self.need(height_mm + 2)
        self.y_mm += 2.0
        width_mm = (WIDTH_MM - 2 * _MARGIN_MM) / len(captions)
        for number, caption in enumerate(captions):
            x_mm = _MARGIN_MM + number * width_mm
            self.frame(x_mm, width_mm, height_mm)
            self.text(caption, x_mm + 1, self.y_mm + 3.2, 2.8)
        self.y_mm += height_mm

    def frame(self, x_mm: float, width_mm: float, height_mm: float = _ROW_MM) -> None:
        self.canvas.setLineWidth(LINE_MM)
        self.canvas.rect(x_mm, HEIGHT_MM - self.y_mm - height_mm, width_mm, height_mm)
