"""PDF, PNG, SVG and terminal: the symbol is read by an independent decoder, the words by an independent reader."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any
from xml.etree import ElementTree

import pypdfium2
import pytest
from PIL import Image, ImageDraw

from stockroom.errors import BadInput, Refused
from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.pdf import draw_pdf
from stockroom.labels.placing import Size
from stockroom.labels.png import draw_png
from stockroom.labels.svg import draw_svg
from stockroom.labels.terminal import draw_half_blocks, draw_terminal

ReadSymbols = Callable[[Image.Image], list[str]]
SIZES: list[Size] = [(70, 40), (105, 74), (50, 25), (24, 60)]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def bare(jar: LabelContent) -> LabelContent:
    """A label whose words fit the smallest of SIZES."""
    return LabelContent(code=jar.code, name="Starch paste", use_by="27 Nov 2026")


def read_pdf(drawn: bytes) -> list[tuple[Size, str, Image.Image]]:
    """Read each page's size in mm, its words, and its picture at 300 dpi, with PDFium."""
    document = pypdfium2.PdfDocument(drawn)
    pages = []
    for page in document:
        width, height = (round(side / 72 * 25.4, 2) for side in page.get_size())
        text = page.get_textpage()
        pages.append(((width, height), text.get_text_range(), page.render(scale=300 / 72).to_pil()))
        text.close()
    document.close()
    return pages


@pytest.mark.parametrize("size_mm", SIZES)
def test_a_pdf_page_has_the_labels_size_and_its_symbol_reads(
    bare: LabelContent, size_mm: Size, read_symbols: ReadSymbols
) -> None:
    """One page, right to a tenth of a millimetre; rendered, its symbol gives the code."""
    [(page_mm, _, picture)] = read_pdf(draw_pdf([compose(bare, size_mm)]))
    assert page_mm == pytest.approx(size_mm, abs=0.1)
    assert read_symbols(picture) == [bare.code]


def test_a_pdf_holds_the_words_as_text_in_an_embedded_typeface(jar: LabelContent) -> None:
    """What is printed can be searched for and copied, the signs of the trade included."""
    drawn = draw_pdf([compose(replace(jar, strength="½ ⅛ µ ° ≥ ₂ → – × é", hazards=(), precautions=()))])
    [(_, words, _)] = read_pdf(drawn)
    words = words.replace("\r\n", " ")
    for text in ("L001W", "Calcium hydroxide solution", "½ ⅛ µ ° ≥ ₂ → – × é", "check by 24 May 2027", "by MK"):
        assert text in words
    assert b"FontFile2" in drawn and b"IBMPlexSans" in drawn


def test_a_pdf_has_a_page_for_each_label(jar: LabelContent, read_symbols: ReadSymbols) -> None:
    """In the order they were asked for; the same labels give the same bytes."""
    labels = [compose(replace(jar, code=code)) for code in ("L006M", "L001W", "L002U")]
    drawn = draw_pdf(labels)
    assert [read_symbols(picture) for _, _, picture in read_pdf(drawn)] == [["L006M"], ["L001W"], ["L002U"]]
    assert draw_pdf(labels) == drawn


def test_hostile_text_is_printed_as_typed(hostile: str, jar: LabelContent) -> None:
    """Every character a PDF can show is there; whatever is not was reported."""
    label = compose(replace(jar, name=hostile, hazards=(), precautions=(), storage=None))
    [(_, words, _)] = read_pdf(draw_pdf([label]))
    for line in label.lines:
        assert line.text in words.replace("\r\n", " ")
    assert draw_png(label) and ElementTree.fromstring(draw_svg(label)) is not None


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize("size_mm", SIZES)
def test_a_png_has_whole_dots_for_modules_and_its_symbol_reads(
    bare: LabelContent, size_mm: Size, dpi: int, read_symbols: ReadSymbols
) -> None:
    """The picture is as large as the label to a dot, black and white alone, and every module is equally wide."""
    label = compose(bare, size_mm)
    picture = Image.open(io.BytesIO(draw_png(label, dpi)))
    assert picture.size == tuple(round(side * dpi / 25.4) for side in size_mm)
    assert picture.mode == "1"
    assert picture.info["dpi"] == pytest.approx((dpi, dpi), abs=0.1)
    assert read_symbols(picture) == [bare.code]
    square = label.symbol
    corners = (square.x_mm, square.y_mm, square.x_mm + square.side_mm, square.y_mm + square.side_mm)
    symbol = picture.crop(tuple(round(edge * dpi / 25.4) for edge in corners)).convert("L")
    dark = Image.eval(symbol, lambda value: 255 - value).getbbox()
    assert dark is not None
    modules = 21 if square.small else 25
    module, rest = divmod(dark[2] - dark[0], modules)
    assert rest == 0 and dark[3] - dark[1] == module * modules
    drawn = symbol.crop(dark)
    back = drawn.resize((modules, modules), Image.Resampling.NEAREST).resize(drawn.size, Image.Resampling.NEAREST)
    assert back.tobytes() == drawn.tobytes()
    assert 8.8 <= (dark[2] - dark[0]) * 25.4 / dpi <= 20


@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_no_ink_of_a_png_reaches_the_margin(dpi: int, jar: LabelContent) -> None:
    """What the layout promises holds for the letters as drawn, wide ones and accents included."""
    label = compose(replace(jar, name="W" * 60, strength="ÅŐÉ" * 20, note="g" * 300), (70, 60))
    picture = Image.open(io.BytesIO(draw_png(label, dpi))).convert("L")
    ink = Image.eval(picture, lambda value: 255 - value).getbbox()
    edge = 0.9 * dpi / 25.4
    assert ink is not None
    assert ink[0] > edge and ink[1] > edge
    assert ink[2] < picture.width - edge and ink[3] < picture.height - edge


@pytest.mark.parametrize("dpi", [0, 72, 149, 1201])
def test_a_resolution_no_label_printer_has_is_named(jar: LabelContent, dpi: int) -> None:
    """The message says which are usual."""
    with pytest.raises(BadInput, match="mostly 203, 300 or 600"):
        draw_png(compose(jar), dpi)


def test_an_svg_has_the_labels_size_words_and_symbol(jar: LabelContent, read_symbols: ReadSymbols) -> None:
    """Size in mm, one text element a line at its measured width, and the symbol as one path that reads."""
    label = compose(replace(jar, note='<b>&amp; "x"'), (80, 60))
    root = ElementTree.fromstring(draw_svg(label))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("80mm", "60mm", "0 0 80 60")
    texts = root.findall(f".//{SVG}text")
    assert [text.text for text in texts] == [line.text for line in label.lines]
    assert [float(text.get("textLength", "")) for text in texts] == pytest.approx(
        [line.width_mm for line in label.lines], abs=0.001
    )
    path = root.find(f".//{SVG}path")
    assert path is not None
    side = 33
    picture = Image.new("L", (side * 4, side * 4), 255)
    pen = ImageDraw.Draw(picture)
    for match in re.finditer(r"M(\d+) (\d+)h(\d+)v1h-(\d+)z", path.get("d", "")):
        x, y, length, _ = map(int, match.groups())
        pen.rectangle((4 * x, 4 * y, 4 * (x + length) - 1, 4 * y + 3), fill=0)
    assert read_symbols(picture) == [jar.code]


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize("size_mm", SIZES)
def test_an_svgs_symbol_has_whole_dots_for_modules(bare: LabelContent, size_mm: Size, dpi: int) -> None:
    """Its place and the size of a module are whole dots of the printer, and it stays inside its square."""
    label = compose(bare, size_mm)
    path = ElementTree.fromstring(draw_svg(label, dpi)).find(f".//{SVG}path")
    assert path is not None
    x, y, module = map(float, re.findall(r"[\d.]+", path.get("transform", "")))
    for length in (x, y, module):
        assert length * dpi / 25.4 == pytest.approx(round(length * dpi / 25.4), abs=0.002)
    modules = (21 if label.symbol.small else 25) + 8
    assert x >= label.symbol.x_mm - 25.4 / dpi
    assert x + module * modules <= label.symbol.x_mm + label.symbol.side_mm + 25.4 / dpi


def see_blocks(rows: list[str], ink: int, paper: int) -> Image.Image:
    """Draw half blocks as a terminal does: each cell two squares, one above the other."""
    picture = Image.new("L", (len(rows[0]), 2 * len(rows)), paper)
    for y, row in enumerate(rows):
        for x, block in enumerate(row):
            if block in "▀█":
                picture.putpixel((x, 2 * y), ink)
            if block in "▄█":
                picture.putpixel((x, 2 * y + 1), ink)
    return picture.resize((picture.width * 6, picture.height * 6), Image.Resampling.NEAREST)


def on_background(picture: Image.Image, background: int) -> Image.Image:
    around = Image.new("L", (picture.width + 80, picture.height + 80), background)
    around.paste(picture, (40, 40))
    return around


@pytest.mark.parametrize("background", [0, 255, 128])
def test_a_coloured_terminal_symbol_reads_on_any_background(
    jar: LabelContent, background: int, read_symbols: ReadSymbols
) -> None:
    """It brings its own black, white and quiet zone."""
    rows = re.findall(r"\x1b\[30;107m([ ▀▄█]+)\x1b\[0m", draw_terminal(jar))
    assert len(rows) == 17 and {len(row) for row in rows} == {33}
    assert read_symbols(on_background(see_blocks(rows, ink=0, paper=255), background)) == [jar.code]


def test_a_plain_terminal_symbol_reads_on_a_dark_background(jar: LabelContent, read_symbols: ReadSymbols) -> None:
    """Without colour the light modules are the ink, and nothing but text is sent."""
    drawn = draw_terminal(jar, colour=False)
    assert "\x1b" not in drawn
    rows = [line[:33] for line in drawn.splitlines()[:17]]
    assert read_symbols(on_background(see_blocks(rows, ink=255, paper=0), 0)) == [jar.code]


@pytest.mark.parametrize("columns", [80, 100, 50, 33])
def test_terminal_words_are_whole_at_any_width(jar: LabelContent, columns: int) -> None:
    """Beside the symbol where there is room, below it where not; nothing is left off."""
    drawn = draw_terminal(replace(jar, note="n " * 100), columns=columns, colour=False)
    words = " ".join(re.sub(r"^[ ▀▄█]{33}", "", line).strip() for line in drawn.splitlines())
    for text in ("L001W", jar.name, "check by 24 May 2027", *jar.hazards, *jar.precautions, "n " * 99):
        assert text in words
    assert all(len(line) <= columns for line in drawn.splitlines())


def test_hostile_text_cannot_act_on_the_terminal(hostile: str, jar: LabelContent, read_symbols: ReadSymbols) -> None:
    """No escape but the symbol's own colours, and the symbol still reads."""
    drawn = draw_terminal(replace(jar, name=hostile))
    rest = drawn.replace("\x1b[30;107m", "").replace("\x1b[0m", "")
    assert all(character.isprintable() or character in "\n\u200d" for character in rest)
    rows = re.findall(r"\x1b\[30;107m([ ▀▄█]+)\x1b\[0m", drawn)
    assert read_symbols(see_blocks(rows, ink=0, paper=255)) == [jar.code]


def test_half_blocks_pad_an_odd_number_of_rows_with_white() -> None:
    """The last row of an odd symbol shares its line with a white one, inverse or not."""
    odd = ((True, False, True),) * 3
    assert draw_half_blocks(odd) == ["█ █", "▀ ▀"]
    assert draw_half_blocks(odd, inverse=True) == [" █ ", "▄█▄"]


def test_a_code_that_is_none_is_refused_everywhere(jar: LabelContent) -> None:
    """No label carries a code that nothing could read."""
    for draw in (compose, draw_terminal):
        call: Any = draw
        with pytest.raises(BadInput):
            call(replace(jar, code="=1+1"))
    with pytest.raises(Refused):
        compose(jar, (30, 16))
