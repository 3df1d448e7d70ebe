"""What stands on a label, and what room it leaves for text. In mm from the upper left corner."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.labels.pictograms import SIDE_TO_WIDTH

Size = tuple[float, float]
"""Width and height of a label in mm."""

MARGIN_MM = 2.0
SYMBOL_MARGIN_MM = 1.0
ASCENT, DESCENT = 0.95, 0.25
"""Room above and below the base line as shares of the letter size: for accents on capitals, and for tails."""
LINE_HEIGHT = ASCENT + DESCENT

BOX_HEIGHT_MM, LEAST_BOX_HEIGHT_MM = 6.5, 5.0
LEAST_BOX_WIDTH_MM = 15.5
"""A day and initials by hand need so much."""
LINE_MM = 0.2
"""How thick the frames of write-in boxes are drawn."""
LEAST_COLUMN_MM = 18.0
"""Text beside what stands at the right needs so much; else it begins below."""


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

    code: str
    text: str
    """The code, alone or with words after it."""
    x_mm: float
    y_mm: float
    side_mm: float
    small: bool

    def snap(self, modules: int, dots_a_mm: float) -> tuple[int, int, int]:
        """Fit a symbol of so many modules a side to a printer's dots: a module's size, left and top edge, in dots."""
        module = int(self.side_mm * dots_a_mm / modules)
        inset = (self.side_mm * dots_a_mm - module * modules) / 2
        return module, round(self.x_mm * dots_a_mm + inset), round(self.y_mm * dots_a_mm + inset)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Where a pictogram stands: the upright square around its diamond."""

    code: str
    x_mm: float
    y_mm: float
    width_mm: float

    @property
    def side_mm(self) -> float:
        """The side of the diamond, the size that rules name."""
        return self.width_mm / SIDE_TO_WIDTH


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An empty frame to write in, but for its caption."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float

    def holds(self, x_mm: float, y_mm: float) -> bool:
        """Tell whether a point lies in the frame."""
        return 0 <= x_mm - self.x_mm <= self.width_mm and 0 <= y_mm - self.y_mm <= self.height_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Symbol, code and pictograms in their places, and what they leave for text."""

    symbol: SymbolSquare
    code_line: Line
    pictures: tuple[Picture, ...]
    start_mm: float
    """Where text starts."""
    right_mm: float
    """How far right text may run where nothing stands in its way."""
    blocks: tuple[tuple[float, float, float], ...]
    """Top, bottom and left edge of what stands at the right."""
    boxes: tuple[Box, ...] = ()
    """Boxes to write in that stand at the right, below the pictograms."""

    def find_room(self, top_mm: float, height_mm: float) -> tuple[float, float]:
        """Find the first place for a line from `top_mm` down: its top, and how far right it may run."""
        while True:
            right_mm, past_mm = self.right_mm, top_mm
            for top, bottom, left in self.blocks:
                if top < top_mm + height_mm and bottom > top_mm + 1e-9 and left < right_mm:
                    right_mm, past_mm = left, bottom
            if right_mm - MARGIN_MM >= LEAST_COLUMN_MM or past_mm == top_mm:
                return top_mm, right_mm
            top_mm = past_mm
