"""A paper as PDF: A4, in the label's typeface, tables that go on over as many pages as they need."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from stockroom.domain.papers import Block, Heading, Lines, Paper, Pictograms, Points, Rows, Words
from stockroom.labels.fonts import BOLD, REGULAR, fit_to_font, load_face
from stockroom.labels.pdf import POINTS_PER_MM, draw_pictogram
from stockroom.labels.plain_text import make_visible

_WIDTH_MM, _HEIGHT_MM, _MARGIN_MM, _FOOT_MM = 210.0, 297.0, 18.0, 10.0
_PICTOGRAM_MM = 16.0
_PADDING = 6
"""What the PDF library leaves free within its margins, in points."""
_TITLE, _HEADING, _PART, _TEXT, _CELL, _SMALL = 18.0, 13.0, 11.0, 10.0, 9.0, 8.0
_LEADING = 1.3
_ROOM = (_WIDTH_MM - 2 * _MARGIN_MM) * POINTS_PER_MM
"""How wide a table is, in points."""
_SUM = 40 * POINTS_PER_MM


_PADDED = (
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 8),
    ("TOPPADDING", (0, 0), (-1, -1), 2),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
)


def draw_paper(paper: Paper) -> bytes:
    """Draw a paper as PDF. The same paper gives the same bytes."""
    from reportlab.platypus import SimpleDocTemplate

    for name in (REGULAR, BOLD):
        load_face(name)
    stream = BytesIO()
    document = SimpleDocTemplate(
        stream,
        pagesize=(_WIDTH_MM * POINTS_PER_MM, _HEIGHT_MM * POINTS_PER_MM),
        leftMargin=_MARGIN_MM * POINTS_PER_MM - _PADDING,
        rightMargin=_MARGIN_MM * POINTS_PER_MM - _PADDING,
        topMargin=_MARGIN_MM * POINTS_PER_MM,
        bottomMargin=_MARGIN_MM * POINTS_PER_MM,
        title=_shown(paper.title),
        creator="stockroom",
        invariant=1,
    )
    title = _shown(paper.title)

    def number_page(canvas: Any, _: object) -> None:
        canvas.setFont(REGULAR, _SMALL)
        foot = _FOOT_MM * POINTS_PER_MM
        short = title if len(title) <= 80 else f"{title[:79]}…"
        canvas.drawRightString(
            (_WIDTH_MM - _MARGIN_MM) * POINTS_PER_MM, foot, f"{short}, page {canvas.getPageNumber()}"
        )

    story = [_paragraph(paper.title, _TITLE, bold=True, after=6)]
    for block in paper.blocks:
        story += _flow(block)
    document.build(story, onFirstPage=number_page, onLaterPages=number_page)
    return stream.getvalue()


def _shown(text: str) -> str:
    return fit_to_font(make_visible(text))[0]


def _flow(block: Block) -> Iterator[Any]:
    """Give what the PDF library lays out for a block."""
    match block:
        case Heading(text=text, level=level):
            size = _HEADING if level == 1 else _PART
            yield _room_below(size)
            yield _paragraph(text, size, bold=True, before=8, after=3)
        case Words(text=text, strong=strong):
            if strong:
                yield _room_below(_TEXT)
            yield _paragraph(text, _TEXT, bold=strong, after=4)
        case Lines(items=items):
            yield from (_paragraph(item, _TEXT) for item in items)
        case Points(items=items):
            yield from (_paragraph(item, _TEXT, after=2, point=True) for item in items)
        case Pictograms(codes=codes):
            yield _pictograms(codes)
        case Rows():
            yield from _table(block)


def _paragraph(
    text: str,
    size: float,
    *,
    bold: bool = False,
    before: float = 0,
    after: float = 0,
    point: bool = False,
    right: bool = False,
) -> Any:
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph

    style = ParagraphStyle(
        "words",
        fontName=BOLD if bold else REGULAR,
        fontSize=size,
        leading=size * _LEADING,
        spaceBefore=before,
        spaceAfter=after,
        leftIndent=10 if point else 0,
        bulletFontName=REGULAR,
        bulletFontSize=size,
        alignment=2 if right else 0,
        splitLongWords=True,
    )
    return Paragraph(escape(_shown(text)) or "&nbsp;", style, bulletText="–" if point else None)


def _table(block: Rows) -> Iterator[Any]:
    from reportlab.lib.colors import black, lightgrey
    from reportlab.platypus import Table

    shares = sum(column.share for column in block.columns)
    widths = [_ROOM * column.share / shares for column in block.columns]

    def cells(row: tuple[str, ...], bold: bool) -> list[Any]:
        return [
            _paragraph(cell, _CELL, bold=bold, right=column.right)
            for cell, column in zip(row, block.columns, strict=True)
        ]

    head = cells(tuple(column.title for column in block.columns), True)
    yield Table(
        [head, *(cells(row, False) for row in block.rows)],
        colWidths=widths,
        repeatRows=1,
        splitInRow=1,
        spaceBefore=4,
        spaceAfter=8,
        style=[
            ("LINEBELOW", (0, 0), (-1, 0), 0.8, black),
            ("LINEBELOW", (0, 1), (-1, -1), 0.3, lightgrey),
            *_PADDED,
        ],
    )
    if block.sums:
        yield _sums(block, widths)


def _sums(block: Rows, widths: list[float]) -> Any:
    """Lay sums out under the last column of figures, all on one page."""
    from reportlab.platypus import KeepTogether, Table

    last = max((number for number, column in enumerate(block.columns) if column.right), default=0)
    lines = [
        [_paragraph(what, _CELL, right=True), _paragraph(value, _CELL, bold=True, right=True)]
        for what, value in block.sums
    ]
    under = [sum(widths[:last]), widths[last]] if last else [_ROOM - _SUM, _SUM]
    return KeepTogether(Table(lines, colWidths=under, hAlign="LEFT", spaceAfter=8, style=[*_PADDED]))


def _room_below(size: float) -> Any:
    """Turn the page before a heading or a strong line that would have no more than a line or two below it."""
    from reportlab.platypus import CondPageBreak

    return CondPageBreak(6 * size)


def _pictograms(codes: tuple[str, ...]) -> Any:
    """Return pictograms side by side as something that can be laid out."""
    from reportlab.platypus import Flowable

    class Row(Flowable):  # type: ignore[misc]
        def wrap(self, available: float, _: float) -> tuple[float, float]:
            return available, (_PICTOGRAM_MM + 3) * POINTS_PER_MM

        def draw(self) -> None:
            self.canv.saveState()
            self.canv.scale(POINTS_PER_MM, POINTS_PER_MM)
            for number, code in enumerate(codes):
                draw_pictogram(self.canv, code, number * (_PICTOGRAM_MM + 2), _PICTOGRAM_MM + 1.5, _PICTOGRAM_MM)
            self.canv.restoreState()

    return Row()
