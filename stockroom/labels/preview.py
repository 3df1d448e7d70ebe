"""A label as it will print, sketched in characters: every line where it breaks, everything where it stands."""

from __future__ import annotations

from stockroom.labels.layout import Layout
from stockroom.labels.pictograms import NAMES
from stockroom.labels.placing import LINE_HEIGHT
from stockroom.labels.plain_text import count_cells

_ROW_MM = 2.8
"""The least line of text is 2.82 mm high, so no two lines share a row."""
_SYMBOL = (
    "█▀▀▀█ ▄▀▄ █▀▀▀█",
    "█ █ █ █▄▀ █ █ █",
    "▀▀▀▀▀ ▀ █ ▀▀▀▀▀",
    "█▀▀▀█ ▄▀█▄▀ ▄▀█",
    "█ █ █ ▀█▄ ▄▀█▄▀",
    "▀▀▀▀▀ ▀ ▀▀▄▀ ▀▄",
)
_COLUMNS = 72
"""How wide a sketch is, where the letters have room."""
_WIDEST, _NARROWEST = 1.1, 0.9
"""Columns a mm, between which no letter of the label's sizes is crowded or lost."""


def draw_preview(label: Layout) -> list[str]:
    """Sketch a label; a frame stands for its edges.

    The symbol is sketched too, with its three corner squares, and is not for scanning.
    """
    scale = min(_WIDEST, max(_NARROWEST, (_COLUMNS - 2) / label.width_mm))
    page = _Grid()
    square = label.symbol
    x, y = round((square.x_mm + square.side_mm * 4 / 33) * scale), _row(square.y_mm + 1)
    for row, blocks in enumerate(_SYMBOL):
        page.put(x, y + row, blocks)
    for picture in label.pictures:
        middle_x, middle_y = (picture.x_mm + picture.width_mm / 2) * scale, picture.y_mm + picture.width_mm / 2
        for row, words in enumerate(("◇", NAMES[picture.code])):
            page.put(round(middle_x - len(words) / 2), _row(middle_y) + row - 1, words)
    captions = {(line.x_mm, line.top_mm): line.text for line in label.lines}
    for box in label.boxes:
        caption = next(text for (x_mm, y_mm), text in captions.items() if box.holds(x_mm, y_mm))
        wide = max(len(caption), round(box.width_mm * scale) - 2)
        page.put(round(box.x_mm * scale), _row(box.y_mm + box.height_mm / 2), f"[{caption:{wide}}]")
    last = -1
    for line in label.lines[1:]:
        if any(box.holds(line.x_mm, line.top_mm) for box in label.boxes):
            continue
        row = max(last + 1, _row(line.top_mm + line.size_mm * LINE_HEIGHT / 2))
        page.put(round(line.x_mm * scale), row, line.text)
        last = row
    code = label.lines[0]
    page.put(round(code.x_mm * scale), max(_row(code.top_mm + code.size_mm / 2), y + 6), code.text)
    return page.frame(round(label.width_mm * scale), max(_row(label.height_mm), last + 1))


def _row(mm: float) -> int:
    return int(mm / _ROW_MM)


class _Grid:
    """Rows of characters; what is put later moves right of what stands there already."""

    def __init__(self) -> None:
        self.rows: dict[int, list[tuple[int, str]]] = {}

    def put(self, x: int, y: int, text: str) -> None:
        self.rows.setdefault(max(0, y), []).append((max(0, x), text))

    def frame(self, columns: int, rows: int) -> list[str]:
        lines = []
        for number in range(max(rows, *(row + 1 for row in self.rows))):
            line = ""
            for x, text in sorted(self.rows.get(number, ()), key=lambda piece: piece[0]):
                gap = x - count_cells(line)
                line += " " * max(gap, 1 if line else 0) + text
            lines.append(line)
        wide = max(columns, *(count_cells(line) for line in lines))
        return [
            f"┌{'─' * wide}┐",
            *(f"│{line}{' ' * (wide - count_cells(line))}│" for line in lines),
            f"└{'─' * wide}┘",
        ]
