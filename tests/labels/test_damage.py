"""Spoilt symbols are read back, or not read at all: hardly ever wrongly.

A seeded model with few samples; tests/bench/symbols.py counts many.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from random import Random

import pypdfium2
import pytest
from label_damage import DAMAGES, LEAST, USUAL, blotch, blur, count_read
from PIL import Image

from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.layout import Layout
from stockroom.labels.pdf import draw_pdf
from stockroom.labels.photograph import read_symbols
from stockroom.labels.placing import Size
from stockroom.labels.png import draw_png

TIMES = 50


@pytest.mark.parametrize(
    ("name", "size_mm", "tries", "least"),
    LEAST,
    ids=lambda value: value.__name__ if callable(value) else str(value),
)
def test_spoilt_symbols_are_read_as_often_as_the_best_setting(
    name: str, size_mm: Size, tries: Callable[[Image.Image], list[str]], least: int
) -> None:
    """With so few samples one more than the hundredth part may fail; nothing is read wrongly."""
    right, wrong = count_read(size_mm, DAMAGES[name], TIMES, tries=tries)
    assert wrong == 0
    assert right >= TIMES * least / 100 - 1


@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_every_resolution_of_label_printers_bears_blotches_and_blur(dpi: int) -> None:
    """At 203 dpi a module is four dots."""
    for damage in (blotch(0.05), blur(0.4)):
        right, wrong = count_read(USUAL, damage, 20, tries=read_symbols, dpi=dpi)
        assert (right >= 19, wrong) == (True, 0)


def from_pdf(label: Layout) -> Image.Image:
    document = pypdfium2.PdfDocument(draw_pdf([label]))
    picture = document[0].render(scale=300 / 72).to_pil().convert("L")
    document.close()
    return picture


def from_png(label: Layout) -> Image.Image:
    return Image.open(io.BytesIO(draw_png(label, 300))).convert("L")


@pytest.mark.parametrize("draw", [from_pdf, from_png])
@pytest.mark.parametrize("size_mm", [(74, 52), (70, 40), (105, 74), (50, 25), (40, 70), (24, 60), (48, 17)])
def test_whole_labels_of_every_size_are_read_blotched_blurred_and_bent(
    draw: Callable[[Layout], Image.Image], size_mm: Size
) -> None:
    """As drawn by the program itself, words beside the symbol and all."""
    label = compose(LabelContent(code="L006M", name="Paste", use_by="2026-11-27"), size_mm)
    drawn, square = draw(label), label.symbol
    edges = [edge * 300 / 25.4 for edge in (square.x_mm, square.y_mm)]
    side = square.side_mm * 300 / 25.4
    symbol = drawn.crop((round(edges[0]), round(edges[1]), round(edges[0] + side), round(edges[1] + side)))
    modules = 29 if square.small else 33
    read = [read_symbols(drawn)] + [
        read_symbols(DAMAGES[name](symbol, modules, Random(seed)))
        for name in ("5 % blotches off the corner squares", "blur of 0.4 module", "jar 45 mm wide")
        for seed in range(3)
    ]
    assert [one for one in read if one not in ([], ["L006M"])] == []
    assert read.count(["L006M"]) >= len(read) - 1 and read[0] == ["L006M"]
