"""Where the symbol and the code stand on a label, and what room they leave for text. All in mm from the top left."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.codes import show
from stockroom.labels.fonts import Measure

Size = tuple[float, float]
"""Width and height of a label in mm."""

MARGIN_MM = 2.0
SYMBOL_MARGIN_MM = 1.0
ASCENT, DESCENT = 0.95, 0.25
"""Room above and below the base line as shares of the letter size: for accents on capitals, and for tails."""
LINE_HEIGHT = ASCENT + DESCENT

_LEAST_COLUMN_MM = 18.0
_CODE_MM, _LEAST_CODE_MM = 5.0, 3.0
_SYMBOL_SIDES_MM = ((60.0, 22.4), (24.0, 16.8), (0.0, 14.8))
"""By the label's shorter side: the symbol's side with its quiet zone.

The dark part is 17.0, 12.7 or, in the small version, 10.7 mm wide. A module is 0.68 or 0.51 mm, a hair above whole
dots of 300 dpi (0.51 mm of 203 dpi too), so that snapping modules to dots shrinks the symbol little.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of text; `size_mm` is the height of the letter body, `baseline_mm` counts from the top edge."""

    text: str
    x_mm: float
    baseline_mm: float
    size_mm: float
    width_mm: float
    bold: bool

    @property
    def top_mm(self) -> float:
        """The upper edge of the line's box."""
        return self.baseline_mm - ASCENT * self.size_mm

    @property
    def bottom_mm(self) -> float:
        """The lower edge of the line's box."""
        return self.baseline_mm + DESCENT * self.size_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SymbolSquare:
    """Where the symbol of `text` stands, quiet zone included; `small` asks for the smallest version."""

    text: str
    x_mm: float
    y_mm: float
    side_mm: float
    small: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Symbol and code in their places, and what they leave for text."""

    symbol: SymbolSquare
    code_line: Line
    start_mm: float
    """Where text starts."""
    column_mm: float
    """How wide text is beside the symbol."""
    block_bottom_mm: float
    """From here down text takes the whole width."""


def make_frame(code: str, size_mm: Size, measure: Measure) -> Frame | None:
    """Place the symbol in the upper right corner and the code under it; None where they have no room.

    Where the label is too low for that, or too narrow for text beside the symbol, the code stands beside it.
    """
    width_mm, height_mm = size_mm
    side_mm = next(side for least, side in _SYMBOL_SIDES_MM if min(size_mm) >= least)
    symbol = SymbolSquare(
        text=code,
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
    has_column = column_mm >= _LEAST_COLUMN_MM
    under = min(_CODE_MM, (side_mm - 1) / em, left_mm / LINE_HEIGHT)
    beside = min(_CODE_MM, column_mm / em)
    if under >= _LEAST_CODE_MM and (has_column or beside < _LEAST_CODE_MM):
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
        start_mm=start_mm if has_column else block_bottom_mm,
        column_mm=column_mm,
        block_bottom_mm=block_bottom_mm,
    )


def _write_code(code: str, x_mm: float, top_mm: float, size_mm: float, em: float) -> Line:
    return Line(
        text=show(code),
        x_mm=x_mm,
        baseline_mm=top_mm + ASCENT * size_mm,
        size_mm=size_mm,
        width_mm=size_mm * em,
        bold=True,
    )
