"""Labels as PDF: one a page, at its own size, with vector symbols and the typeface embedded."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from stockroom.labels.fonts import BOLD, REGULAR, load_face
from stockroom.labels.layout import Layout
from stockroom.labels.symbol import find_runs, make_symbol

_POINTS_PER_MM = 72 / 25.4


def draw_pdf(labels: Sequence[Layout]) -> bytes:
    """Draw labels into one PDF, a page each. The same labels give the same bytes."""
    from reportlab.pdfgen.canvas import Canvas

    for name in (REGULAR, BOLD):
        load_face(name)
    stream = BytesIO()
    canvas = Canvas(stream, pageCompression=1, invariant=1)
    canvas.setTitle(" ".join(["Labels", *(label.symbol.text for label in labels[:20])]))
    canvas.setCreator("stockroom")
    for label in labels:
        canvas.setPageSize((label.width_mm * _POINTS_PER_MM, label.height_mm * _POINTS_PER_MM))
        canvas.scale(_POINTS_PER_MM, _POINTS_PER_MM)
        _draw_symbol(canvas, label)
        for line in label.lines:
            canvas.setFont(BOLD if line.bold else REGULAR, line.size_mm)
            canvas.drawString(line.x_mm, label.height_mm - line.baseline_mm, line.text)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _draw_symbol(canvas: Canvas, label: Layout) -> None:
    square = label.symbol
    matrix = make_symbol(square.text, small=square.small)
    module_mm = square.side_mm / len(matrix)
    top_mm = label.height_mm - square.y_mm
    path = canvas.beginPath()
    for row, column, length in find_runs(matrix):
        path.rect(
            square.x_mm + column * module_mm, top_mm - (row + 1) * module_mm, length * module_mm, module_mm
        )
    canvas.drawPath(path, stroke=0, fill=1)
