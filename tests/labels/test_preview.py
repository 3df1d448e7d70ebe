"""The sketch of a label shows every line where it breaks, and where everything stands."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.placing import Size
from stockroom.labels.plain_text import count_cells
from stockroom.labels.preview import draw_preview


@pytest.mark.parametrize("size_mm", [(74, 52), (70, 40), (40, 70), (105, 74), (60, 35), (24, 70)])
def test_every_line_of_the_label_stands_in_it_and_only_once(jar: LabelContent, size_mm: Size) -> None:
    """Lines as they will break, pictograms by name, boxes with their captions, all within the frame."""
    content = replace(jar, pictograms=("GHS05",), write_in=("opened", "checked"))
    if size_mm[0] < 30:
        content = LabelContent(code="L001W", name="Paste", use_by="2026-11-27")
    label = compose(content, size_mm)
    sketch = draw_preview(label)
    text = "\n".join(sketch)
    for line in label.lines:
        assert text.count(line.text) >= 1
    assert text.count("[opened") == text.count("[checked") == (1 if label.boxes else 0)
    assert ("corrosion" in text) == bool(label.pictures)
    assert len({count_cells(row) for row in sketch}) == 1
    assert text.count("█▀▀▀█") == 3


def test_the_usual_label_fits_an_ordinary_screen(jar: LabelContent) -> None:
    """24 lines of 80."""
    sketch = draw_preview(compose(jar))
    assert len(sketch) <= 22 and max(map(count_cells, sketch)) <= 72


def test_lines_keep_their_order_and_what_stands_right_of_them(jar: LabelContent) -> None:
    sketch = draw_preview(compose(replace(jar, pictograms=("GHS05",))))
    at = [next(n for n, row in enumerate(sketch) if words in row) for words in ("Calcium", "about", "check by", "H318")]
    assert at == sorted(at) and len(set(at)) == 4
    assert all(row.index("corrosion") > 50 for row in sketch if "corrosion" in row)


def test_hostile_text_keeps_the_frame_straight(hostile: str) -> None:
    sketch = draw_preview(compose(LabelContent(code="L001W", name=hostile), (105, 74)))
    assert len({count_cells(row) for row in sketch}) == 1
