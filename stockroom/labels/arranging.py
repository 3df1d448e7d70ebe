"""Where symbol, code, pictograms and boxes to write in stand on a label, the best arrangement first.

In mm from the upper left corner.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from stockroom.domain.codes import show
from stockroom.labels.fonts import Measure
from stockroom.labels.pictograms import SIDE_TO_WIDTH
from stockroom.labels.placing import (
    ASCENT,
    BOX_HEIGHT_MM,
    LEAST_BOX_HEIGHT_MM,
    LEAST_BOX_WIDTH_MM,
    LEAST_COLUMN_MM,
    LINE_HEIGHT,
    MARGIN_MM,
    SYMBOL_MARGIN_MM,
    Box,
    Frame,
    Line,
    Picture,
    Size,
    SymbolSquare,
)

LEAST_PICTOGRAM_MM = 10.0
"""The least side of a diamond: 1 cm² (CLP Annex I, 1.2.1)."""
_MOST_PICTOGRAM_MM = 46.0
_OF_LABEL = 15
"""A pictogram covers one part in so many of the label (CLP Annex I, 1.2.1), where there is room."""
_PICTOGRAM_GAP_MM = 0.5
_BOX_GAP_MM = 0.5
_CODE_MM, _LEAST_CODE_MM = 5.0, 3.0
_SYMBOL_SIDES_MM = ((60.0, 22.4), (24.0, 16.8), (0.0, 14.8))
"""By the label's shorter side: the symbol's side with its quiet zone.

The dark part is 17.0, 12.7 or, in the small version, 10.7 mm wide. A module is 0.68 or 0.51 mm, a hair above whole
dots of 300 dpi (0.51 mm of 203 dpi too), so that snapping modules to dots shrinks the symbol little.
"""
_WORDS_SIDE_MM = 24.0
"""With words in it a symbol has up to 37 modules: the dark part is 20 mm wide, a module a hair above half a mm."""


def make_frames(
    code: str, pictograms: Sequence[str], size_mm: Size, measure: Measure, *, words: str = "", boxes: int = 0
) -> Iterator[Frame]:
    """Place everything but the text, the best arrangement first; none where there is no room.

    The symbol stands in the upper right corner and the code under it, or beside it where the label is low. The
    pictograms stand under them, one or two in a row, or left of the symbol; as large as one part in 15 of the label
    each, or smaller where that has no room, and never under 1 cm². Boxes to write in may stand below them, or are
    left to the text. `words` stand in the symbol after the code, and make it larger.
    """
    full_mm = min(_MOST_PICTOGRAM_MM, max(LEAST_PICTOGRAM_MM, math.sqrt(size_mm[0] * size_mm[1] / _OF_LABEL)))
    sides = sorted({full_mm, (full_mm + LEAST_PICTOGRAM_MM) / 2, LEAST_PICTOGRAM_MM}, reverse=True)
    bare = _place_symbol(code, words, size_mm, measure)
    if bare is None:
        return
    if not pictograms:
        yield bare
        if boxes and (with_boxes := _place_boxes(bare, boxes, size_mm)):
            yield with_boxes
        return
    for side in sides:
        for in_a_row in sorted({1, min(2, len(pictograms))}):
            if frame := _place_below(bare, pictograms, side * SIDE_TO_WIDTH, in_a_row, size_mm):
                yield frame
                if boxes and (with_boxes := _place_boxes(frame, boxes, size_mm)):
                    yield with_boxes
        if frame := _place_beside(bare, pictograms, side * SIDE_TO_WIDTH, size_mm):
            yield frame


def _place_symbol(code: str, words: str, size_mm: Size, measure: Measure) -> Frame | None:
    width_mm, height_mm = size_mm
    side_mm = _WORDS_SIDE_MM if words else next(side for least, side in _SYMBOL_SIDES_MM if min(size_mm) >= least)
    symbol = SymbolSquare(
        code=code,
        text=f"{code} {words}" if words else code,
        x_mm=width_mm - SYMBOL_MARGIN_MM - side_mm,
        y_mm=SYMBOL_MARGIN_MM,
        side_mm=side_mm,
        small=side_mm == _SYMBOL_SIDES_MM[-1][1],
    )
    below_mm = symbol.y_mm + side_mm
    left_mm = height_mm - SYMBOL_MARGIN_MM - below_mm
    if symbol.x_mm < SYMBOL_MARGIN_MM or left_mm < 0:
        return None
    em = measure(show(code), 1.0, True)
    column_mm = symbol.x_mm - MARGIN_MM
    under = min(_CODE_MM, (side_mm - 1) / em, left_mm / LINE_HEIGHT)
    beside = min(_CODE_MM, column_mm / em)
    if under >= _LEAST_CODE_MM and (column_mm >= LEAST_COLUMN_MM or beside < _LEAST_CODE_MM):
        code_line = _write_code(code, symbol.x_mm + (side_mm - under * em) / 2, below_mm, under, em)
        start_mm, block_bottom_mm = MARGIN_MM, code_line.bottom_mm
    elif beside >= _LEAST_CODE_MM:
        code_line = _write_code(code, MARGIN_MM, MARGIN_MM, beside, em)
        start_mm, block_bottom_mm = code_line.bottom_mm, below_mm
    else:
        return None
    return Frame(
        symbol=symbol,
        code_line=code_line,
        pictures=(),
        start_mm=start_mm,
        right_mm=width_mm - MARGIN_MM,
        blocks=((0.0, block_bottom_mm, symbol.x_mm),),
    )


def _place_below(bare: Frame, codes: Sequence[str], width_mm: float, in_a_row: int, size_mm: Size) -> Frame | None:
    top_mm = bare.blocks[0][1]
    right_mm = size_mm[0] - SYMBOL_MARGIN_MM
    rows = math.ceil(len(codes) / in_a_row)
    left_mm = right_mm - in_a_row * width_mm
    bottom_mm = top_mm + rows * width_mm
    if left_mm < SYMBOL_MARGIN_MM or bottom_mm > size_mm[1] - SYMBOL_MARGIN_MM:
        return None
    pictures = tuple(
        Picture(
            code=code,
            x_mm=right_mm - (min(in_a_row, len(codes) - number // in_a_row * in_a_row) - number % in_a_row) * width_mm,
            y_mm=top_mm + number // in_a_row * width_mm,
            width_mm=width_mm,
        )
        for number, code in enumerate(codes)
    )
    return _with(bare, pictures, (top_mm, bottom_mm, left_mm - _PICTOGRAM_GAP_MM))


def _place_beside(bare: Frame, codes: Sequence[str], width_mm: float, size_mm: Size) -> Frame | None:
    left_mm = bare.symbol.x_mm - len(codes) * width_mm
    top_mm = bare.start_mm if bare.code_line.x_mm == MARGIN_MM else SYMBOL_MARGIN_MM
    if left_mm < SYMBOL_MARGIN_MM or top_mm + width_mm > size_mm[1] - SYMBOL_MARGIN_MM:
        return None
    pictures = tuple(
        Picture(code=code, x_mm=left_mm + number * width_mm, y_mm=top_mm, width_mm=width_mm)
        for number, code in enumerate(codes)
    )
    return _with(bare, pictures, (top_mm, top_mm + width_mm, left_mm - _PICTOGRAM_GAP_MM))


def _place_boxes(frame: Frame, boxes: int, size_mm: Size) -> Frame | None:
    """Place boxes below the pictograms, as wide as what stands above them."""
    _, top_mm, _ = frame.blocks[-1]
    left_mm = max(MARGIN_MM, min(left for _, _, left in frame.blocks))
    bottom_mm = size_mm[1] - MARGIN_MM
    width_mm = size_mm[0] - MARGIN_MM - left_mm
    height_mm = (bottom_mm - top_mm - _BOX_GAP_MM) / boxes - _BOX_GAP_MM
    if height_mm < LEAST_BOX_HEIGHT_MM or width_mm < LEAST_BOX_WIDTH_MM:
        return None
    height_mm = min(height_mm, BOX_HEIGHT_MM)
    first_mm = bottom_mm - boxes * height_mm - (boxes - 1) * _BOX_GAP_MM
    placed = tuple(
        Box(
            x_mm=left_mm,
            y_mm=first_mm + number * (height_mm + _BOX_GAP_MM),
            width_mm=width_mm,
            height_mm=height_mm,
        )
        for number in range(boxes)
    )
    return replace(frame, boxes=placed, blocks=(*frame.blocks, (first_mm, size_mm[1], left_mm - _PICTOGRAM_GAP_MM)))


def _with(bare: Frame, pictures: tuple[Picture, ...], block: tuple[float, float, float]) -> Frame:
    return replace(bare, pictures=pictures, blocks=(*bare.blocks, block))


def _write_code(code: str, x_mm: float, top_mm: float, size_mm: float, em: float) -> Line:
    return Line(
        text=show(code),
        x_mm=x_mm,
        baseline_mm=top_mm + ASCENT * size_mm,
        size_mm=size_mm,
        width_mm=size_mm * em,
        bold=True,
    )
