"""What the layout says is where the ink is: to 0.1 mm on a rendered PDF page, to a dot on a PNG."""

from __future__ import annotations

import io
from dataclasses import replace

import pypdfium2
import pytest
from PIL import Image

from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.layout import Layout
from stockroom.labels.pdf import draw_pdf
from stockroom.labels.placing import Size
from stockroom.labels.png import draw_png

Edges = tuple[float, float, float, float]
DPI = 600


@pytest.fixture(params=[(74, 52), (105, 74), (60, 70)], ids=str)
def label(request: pytest.FixtureRequest, jar: LabelContent) -> Layout:
    size_mm: Size = request.param
    content = replace(jar, pictograms=("GHS05",), write_in=("opened", "checked"), precautions=())
    laid_out = compose(content, size_mm)
    assert laid_out.boxes and laid_out.pictures
    return laid_out


def find_ink(picture: Image.Image, near: Edges, dpi: int) -> Edges:
    """The edges in mm of what is dark within a place that is a little larger than what stands there."""
    margin = 0.4
    corner = [round((edge - margin) * dpi / 25.4) for edge in near[:2]]
    end = [round((edge + margin) * dpi / 25.4) for edge in near[2:]]
    box = picture.crop((*corner, *end)).point(lambda grey: 255 if grey < 160 else 0).getbbox()
    assert box is not None
    left, top, right, bottom = ((edge + corner[number % 2]) * 25.4 / dpi for number, edge in enumerate(box))
    return left, top, right, bottom


def places(label: Layout) -> list[Edges]:
    """Symbol without its quiet zone, diamond and boxes, as laid out."""
    square = label.symbol
    inset = square.side_mm * 4 / 33
    found: list[Edges] = [
        (
            square.x_mm + inset,
            square.y_mm + inset,
            square.x_mm + square.side_mm - inset,
            square.y_mm + square.side_mm - inset,
        )
    ]
    found += [(p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.width_mm) for p in label.pictures]
    found += [(b.x_mm, b.y_mm, b.x_mm + b.width_mm, b.y_mm + b.height_mm) for b in label.boxes]
    return found


def test_a_rendered_pdf_page_is_right_to_a_tenth_of_a_millimetre(label: Layout) -> None:
    document = pypdfium2.PdfDocument(draw_pdf([label]))
    picture = document[0].render(scale=DPI / 72).to_pil().convert("L")
    document.close()
    assert [side * 25.4 / DPI for side in picture.size] == pytest.approx([label.width_mm, label.height_mm], abs=0.1)
    for edges in places(label):
        # half of a box's line stands outside its edge; the points of a diamond are thinner than a dot
        assert find_ink(picture, edges, DPI) == pytest.approx(edges, abs=0.1 + 0.1 + 25.4 / DPI)
    assert find_ink(picture, places(label)[0], DPI) == pytest.approx(places(label)[0], abs=0.1)


@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_a_png_is_right_to_a_dot(label: Layout, dpi: int) -> None:
    """The symbol's modules are whole dots: it is as wide as so many of them, in the middle of its place."""
    picture = Image.open(io.BytesIO(draw_png(label, dpi))).convert("L")
    assert picture.size == (round(label.width_mm * dpi / 25.4), round(label.height_mm * dpi / 25.4))
    symbol, *others = places(label)
    ink = find_ink(picture, symbol, dpi)
    modules = 25
    dots = (ink[2] - ink[0]) * dpi / 25.4
    assert round(dots) % modules == 0
    whole = label.symbol.side_mm * dpi / 25.4 / 33
    assert round(dots) // modules == int(whole)
    middle = [label.symbol.x_mm + label.symbol.side_mm / 2, label.symbol.y_mm + label.symbol.side_mm / 2]
    assert [(ink[0] + ink[2]) / 2, (ink[1] + ink[3]) / 2] == pytest.approx(middle, abs=25.4 / dpi)
    for edges in others:
        assert find_ink(picture, edges, dpi) == pytest.approx(edges, abs=0.1 + 25.4 / dpi)
