"""The pictograms: all nine, each a symbol inside a red diamond on its point, the same paths in every output."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import combinations

import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageDraw

from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.layout import Layout
from stockroom.labels.pdf import draw_pdf
from stockroom.labels.pictograms import NAMES, flatten, shapes_of, write_path
from stockroom.labels.png import draw_png
from stockroom.labels.svg import draw_svg
from stockroom.science.hazard_words import choose_pictograms

DPI = 600


@pytest.fixture(params=sorted(NAMES))
def code(request: pytest.FixtureRequest) -> str:
    one: str = request.param
    return one


def draw(code: str, side: int = 400) -> Image.Image:
    picture = Image.new("RGB", (side, side), "white")
    pen = ImageDraw.Draw(picture)
    for shape in shapes_of(code):
        for polygon in flatten(shape):
            pen.polygon([(x * side / 100, y * side / 100) for x, y in polygon], fill=shape.fill)
    return picture


def test_there_are_nine_of_them() -> None:
    """UN Globally Harmonized System, Annex 3: GHS01 to GHS09."""
    assert list(NAMES) == [f"GHS0{number}" for number in range(1, 10)]


def test_the_diamond_stands_on_its_point_and_the_symbol_stays_inside_its_frame(code: str) -> None:
    """UN GHS 1.4.10.4.2: black symbol, white ground, red frame wide enough to be seen, a square set on a point."""
    frame, ground, *symbol = shapes_of(code)
    assert (frame.fill, ground.fill) == ("red", "white")
    assert flatten(frame) == [[(50, 0), (100, 50), (50, 100), (0, 50)]]
    thick = flatten(ground)[0][0][1]
    assert thick >= 5
    black = [point for shape in symbol if shape.fill == "black" for polygon in flatten(shape) for point in polygon]
    assert max(abs(x - 50) + abs(y - 50) for x, y in black) <= 50 - thick + 0.01
    assert len(black) > 10


def test_the_symbol_can_be_seen_and_told_from_the_others() -> None:
    """Each has a fair share of black, and no two look alike."""
    drawn = {code: draw(code, 100).convert("L").point(lambda grey: 255 if grey < 40 else 0) for code in NAMES}
    for code, picture in drawn.items():
        share = sum(picture.histogram()[128:]) / 10_000
        assert 0.06 < share < 0.3, code
    for (_, one), (_, other) in combinations(drawn.items(), 2):
        assert sum(ImageChops.difference(one, other).histogram()[128:]) > 500


def label_with(code: str) -> Layout:
    return compose(LabelContent(code="L001W", name="reagent", signal_word="Danger", pictograms=(code,)))


def cut_out(picture: Image.Image, label: Layout, dpi: int) -> Image.Image:
    place = label.pictures[0]
    edges = (place.x_mm, place.y_mm, place.x_mm + place.width_mm, place.y_mm + place.width_mm)
    return picture.crop(tuple(round(edge * dpi / 25.4) for edge in edges))


def test_pdf_and_png_show_the_paths(code: str) -> None:
    """Rendered by an independent reader, the PDF's pictogram is the drawn one in red and black, the PNG's in black."""
    label = label_with(code)
    document = pypdfium2.PdfDocument(draw_pdf([label]))
    rendered = cut_out(document[0].render(scale=DPI / 72).to_pil().convert("RGB"), label, DPI)
    document.close()
    wanted = draw(code, 4 * rendered.width).resize(rendered.size, Image.Resampling.BOX)
    assert share_that_differs(rendered, wanted) < 0.02
    red = rendered.getpixel((3 * rendered.width // 100 + 2, rendered.height // 2))
    assert isinstance(red, tuple) and red[0] > 200 > 60 > red[1]
    png = cut_out(Image.open(io.BytesIO(draw_png(label, DPI))).convert("L"), label, DPI)
    black = wanted.point(lambda value: 0 if value < 128 else 255).convert("L").point(lambda v: 255 if v > 200 else 0)
    assert share_that_differs(png.resize(black.size), black) < 0.02


def share_that_differs(one: Image.Image, other: Image.Image) -> float:
    difference = ImageChops.difference(one.convert("L"), other.convert("L"))
    return sum(difference.histogram()[100:]) / (one.width * one.height)


def test_svg_holds_the_very_paths(code: str) -> None:
    svg = draw_svg(label_with(code)).decode()
    assert all(f'd="{write_path(shape)}"' in svg for shape in shapes_of(code))


def test_a_pictograms_paths_stand_in_a_pdf_once() -> None:
    """A hundred labels do not draw the flame a hundred times."""
    one = compose(LabelContent(code="L001W", name="alcohol", pictograms=("GHS02",)))
    grown = len(draw_pdf([one] * 100)) - len(draw_pdf([replace(one, pictures=())] * 100))
    assert grown < 100 * 150


@pytest.mark.parametrize(
    ("statements", "shown"),
    [
        (["H315 x", "H318 x"], ("GHS05",)),
        (["H315 x", "H318 x", "H335 x"], ("GHS05", "GHS07")),
        (["H301 x", "H315 x"], ("GHS06",)),
        (["H225 x", "H319 x", "H336 x"], ("GHS02", "GHS07")),
    ],
)
def test_which_pictogram_gives_way(statements: list[str], shown: tuple[str, ...]) -> None:
    """CLP Article 26: the exclamation mark to the skull, and to corrosion for skin and eye irritation only."""
    assert choose_pictograms(statements) == shown
