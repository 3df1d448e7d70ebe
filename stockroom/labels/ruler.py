"""A calibration page: rulers in mm and a frame, to measure by how much a printer is off."""

from __future__ import annotations

from stockroom.errors import BadInput
from stockroom.labels.fonts import BOLD, REGULAR
from stockroom.labels.pdf import begin_page, begin_pdf
from stockroom.labels.placing import Size

FRAME_MM = 5.0
"""How far the frame stands from the edges of the page."""
LONGEST_MM = 150
_LEAST_PAGE_MM = 30.0


def ruler_lengths(page_mm: Size) -> tuple[int, int]:
    """Give the rulers' lengths across and down: whole centimetres, as long as the page allows, up to 150 mm."""
    if min(page_mm) < _LEAST_PAGE_MM:
        raise BadInput(f"a page of {page_mm[0]:g} x {page_mm[1]:g} mm is too small for a ruler: at least 30 mm")
    across, down = (min(LONGEST_MM, int(side - 2 * FRAME_MM) // 10 * 10) for side in page_mm)
    return across, down


def draw_ruler_page(page_mm: Size) -> bytes:
    """Draw the page as a PDF: frame 5 mm from the edges, rulers from its upper left corner, what to do with it."""
    width_mm, height_mm = page_mm
    across, down = ruler_lengths(page_mm)
    canvas, stream = begin_pdf("Calibration page")
    begin_page(canvas, width_mm, height_mm)
    canvas.setLineWidth(0.1)
    canvas.rect(FRAME_MM, FRAME_MM, width_mm - 2 * FRAME_MM, height_mm - 2 * FRAME_MM)
    top_mm = height_mm - FRAME_MM
    for mm in range(across + 1):
        canvas.line(FRAME_MM + mm, top_mm, FRAME_MM + mm, top_mm - _tick(mm))
    for mm in range(down + 1):
        canvas.line(FRAME_MM, top_mm - mm, FRAME_MM + _tick(mm), top_mm - mm)
    for mm in range(10, across + 1, 10):
        _write(canvas, str(mm), FRAME_MM + mm - 2, top_mm - 6.5)
    for mm in range(10, down + 1, 10):
        _write(canvas, str(mm), FRAME_MM + 4.5, top_mm - mm + 0.3)
    words = (
        f"across {across} mm, down {down} mm",
        "Measure both rulers, and the frame's",
        "distance from the left and the upper edge.",
    )
    room = min(1.0, (width_mm - 2 * FRAME_MM - 12) / 45)
    for number, text in enumerate(words):
        _write(canvas, text, FRAME_MM + 10, top_mm - 12 - 4 * room * number, 3 * room, bold=number == 0)
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _tick(mm: int) -> float:
    return 4.0 if mm % 10 == 0 else 2.5 if mm % 5 == 0 else 1.5


def _write(canvas: object, text: str, x_mm: float, y_mm: float, size_mm: float = 2.2, *, bold: bool = False) -> None:
    canvas.setFont(BOLD if bold else REGULAR, size_mm)  # type: ignore[attr-defined]
    canvas.drawString(x_mm, y_mm, text)  # type: ignore[attr-defined]
