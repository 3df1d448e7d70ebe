"""Sheets of labels and printers that are off, measured on the rendered page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from stockroom.errors import BadInput
from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.pdf import draw_pdf
from stockroom.labels.ruler import FRAME_MM, draw_ruler_page, ruler_lengths
from stockroom.labels.sheet import Grid, PrinterScale

DPI = 600
MM = DPI / 25.4
CODES = ("L001W", "L002U", "L006M", "L001W", "L002U")
GRID = Grid(
    page_width_mm=210,
    page_height_mm=297,
    label_width_mm=62,
    label_height_mm=40,
    columns=3,
    rows=6,
    left_mm=7.5,
    top_mm=12,
    across_mm=4,
    down_mm=5.5,
)


def render(drawn: bytes) -> list[Image.Image]:
    document = pypdfium2.PdfDocument(drawn)
    pages = [page.render(scale=DPI / 72).to_pil().convert("L") for page in document]
    document.close()
    return pages


def find_ink(picture: Image.Image) -> tuple[float, ...]:
    """The edges of all that is dark, in mm."""
    box = picture.point(lambda grey: 255 if grey < 128 else 0).getbbox()
    assert box is not None
    return tuple(edge / MM for edge in box)


def find_symbols(picture: Image.Image) -> dict[str, tuple[float, float]]:
    """Each symbol's text, and its upper left corner in mm."""
    found = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    return {one.text: (one.position.top_left.x / MM, one.position.top_left.y / MM) for one in found}


@pytest.fixture
def labels() -> list:  # type: ignore[type-arg]
    return [compose(LabelContent(code=code, name="paste"), (62, 40)) for code in CODES]


def test_every_label_stands_at_its_position_to_a_tenth_of_a_millimetre(labels: list) -> None:  # type: ignore[type-arg]
    """From the first free position along the rows, on to the next sheet; the symbol's dark edge shows where."""
    first, second = render(draw_pdf(labels, GRID, first=16))
    inset = labels[0].symbol.side_mm / 33 * 4
    corner = (labels[0].symbol.x_mm + inset, labels[0].symbol.y_mm + inset)
    for page, placed in ((first, {0: (0, 5), 1: (1, 5), 2: (2, 5)}), (second, {3: (0, 0), 4: (1, 0)})):
        for number, (column, row) in placed.items():
            x, y = 7.5 + column * 66 + corner[0], 12 + row * 45.5 + corner[1]
            edges = (x - 1, y - 1, x + labels[0].symbol.side_mm - 2 * inset + 1, y + 8)
            ink = find_ink(page.crop(tuple(round(edge * MM) for edge in edges)))
            assert (ink[0] - 1, ink[1] - 1) == pytest.approx((0, 0), abs=0.1), number
    assert set(find_symbols(first)) == set(CODES[:3])
    assert set(find_symbols(second)) == set(CODES[3:])


def test_positions_that_a_sheet_has_not_are_refused(labels: list) -> None:  # type: ignore[type-arg]
    for first in (0, 19, -3):
        with pytest.raises(BadInput, match="a sheet has 18"):
            draw_pdf(labels, GRID, first=first)


@pytest.mark.parametrize(
    "scale", [PrinterScale(across=1 / 0.994, down=1 / 1.01), PrinterScale(right_mm=-0.8, down_mm=1.5)]
)
def test_what_a_printer_is_off_is_drawn_the_other_way(scale: PrinterScale) -> None:
    """Each point is drawn where this printer will put it right, from the page's upper left corner."""
    label = compose(LabelContent(code="L001W", name="x"), (62, 40))
    true, corrected = (find_ink(render(draw_pdf([label], scale=one))[0]) for one in (PrinterScale(), scale))
    wanted = (
        true[0] * scale.across + scale.right_mm,
        true[1] * scale.down + scale.down_mm,
        true[2] * scale.across + scale.right_mm,
        true[3] * scale.down + scale.down_mm,
    )
    assert corrected == pytest.approx(wanted, abs=0.1)


@pytest.mark.parametrize("page_mm", [(210.0, 297.0), (74.0, 52.0)])
def test_the_rulers_of_the_calibration_page_are_true(page_mm: tuple[float, float]) -> None:
    """Frame and ruler ends measured on the rendered page, to a tenth of a millimetre."""
    (page,) = render(draw_ruler_page(page_mm))
    assert find_ink(page) == pytest.approx((5, 5, page_mm[0] - 5, page_mm[1] - 5), abs=0.1)
    across, down = ruler_lengths(page_mm)
    along_top = round((FRAME_MM + 3.5) * MM)
    ticks = [x / MM for x in range(page.width) if page.getpixel((x, along_top)) < 128]  # type: ignore[operator]
    assert any(abs(x - FRAME_MM - across) < 0.1 for x in ticks)
    along_left = round((FRAME_MM + 3.5) * MM)
    ticks = [y / MM for y in range(page.height) if page.getpixel((along_left, y)) < 128]  # type: ignore[operator]
    assert any(abs(y - FRAME_MM - down) < 0.1 for y in ticks)


def test_a_page_too_small_for_a_ruler_is_named() -> None:
    with pytest.raises(BadInput, match="at least 30 mm"):
        ruler_lengths((20, 200))


def test_words_may_stand_in_the_symbol_after_the_code(read_symbols: Callable[[Image.Image], list[str]]) -> None:
    """One line, the code first, cut where the modules would become too small."""
    content = LabelContent(code="L001W", name="Lime", in_symbol="Calcium hydroxide solution, About 1.6 g/L µ " * 3)
    label = compose(content, (74, 52))
    (page,) = render(draw_pdf([label]))
    (text,) = read_symbols(page)
    assert text.startswith("L001W Calcium hydroxide solution, About 1.6 g/L µ") and len(text) == 66
    small = compose(replace(content, in_symbol=None), (74, 52))
    assert small.symbol.side_mm < label.symbol.side_mm
