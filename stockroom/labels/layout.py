"""Where everything on a label stands, in mm from its upper left corner; draws nothing.

The symbol stands in the upper right corner with the code under it, or beside it where the label is too low or too
narrow for that. Text runs down the left and, below the symbol, over the whole width.

What does not fit is shrunk and left off in this order:
1. everything shrinks together to four fifths; a text that may take only so many lines shrinks on, then ends in "…";
2. note, place, received, then precautions from the last to the first, are left off;
3. everything shrinks to its least size;
4. solvent, initials, made, opened, storage, strength, use-by and fresh-until are left off, in this order.
Name, signal word, hazard statements, "keep vented", symbol and code are never left off: a label too small for them
is refused, and the message names a height that does.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from stockroom.domain.codes import read_code, show
from stockroom.errors import BadInput, Refused
from stockroom.labels.fonts import Measure
from stockroom.labels.wording import MAJOR, MINOR, Paragraph
from stockroom.labels.wrapping import shorten, wrap

Size = tuple[float, float]
DEFAULT_SIZE_MM: Size = (70.0, 40.0)
MARGIN_MM = 2.0
SYMBOL_MARGIN_MM = 1.0
LARGEST_MM = 300.0

_ASCENT, _DESCENT = 0.95, 0.25
"""Above and below the base line, as shares of the letter size: room for accents on capitals, and for tails."""
_PARAGRAPH_GAP_MM = 0.3
_LEAST_COLUMN_MM = 18.0
_CODE_MM, _LEAST_CODE_MM = 5.0, 3.0
_SYMBOLS = ((60.0, 22.4, False), (24.0, 16.8, False), (0.0, 14.8, True))
"""By the label's shorter side in mm: the symbol's side with quiet zone in mm, and whether it is the small version.

A module is 0.68 or 0.51 mm, a hair above whole dots of 300 dpi (and 0.51 mm of 203 dpi), so that snapping to dots
shrinks it little; the dark part is 17.0, 12.7 or
10.7 mm wide.
"""
_LARGER = (2.0, 1.8, 1.6, 1.4, 1.2)
_TO_FOUR_FIFTHS = (1.0, 0.93, 0.86, 0.8)
_TO_TWO_THIRDS = (0.73, 0.67)
_TO_THE_LEAST = (0.6, 0.5, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of text; `size_mm` is the height of the letter body, `baseline_mm` counts down from the top edge."""

    text: str
    x_mm: float
    baseline_mm: float
    size_mm: float
    width_mm: float
    bold: bool

    @property
    def top_mm(self) -> float:
        """The upper edge of the line's box."""
        return self.baseline_mm - _ASCENT * self.size_mm

    @property
    def bottom_mm(self) -> float:
        """The lower edge of the line's box."""
        return self.baseline_mm + _DESCENT * self.size_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SymbolSquare:
    """Where the symbol of `text` stands, quiet zone included; `small` asks for the smallest version."""

    text: str
    x_mm: float
    y_mm: float
    side_mm: float
    small: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A label laid out: its symbol, its lines with the code first, and what was left off or shortened."""

    width_mm: float
    height_mm: float
    symbol: SymbolSquare
    lines: tuple[Line, ...]
    dropped: tuple[str, ...]


def lay_out(code: str, paragraphs: tuple[Paragraph, ...], size_mm: Size, measure: Measure) -> Layout:
    """Place a label's code, symbol and paragraphs on a label of a width and height in mm.

    Raises Unreadable for a code that is none, BadInput for a size that no label has, Refused for one too small.
    """
    width_mm, height_mm = size_mm
    if not all(math.isfinite(side) and 0 < side <= LARGEST_MM for side in size_mm):
        raise BadInput(f"a label of {width_mm:g} x {height_mm:g} mm cannot be: give both in mm, up to {LARGEST_MM:g}")
    text = read_code(code).text
    found = _fit(text, paragraphs, size_mm, measure)
    if found:
        return found
    taller = (height for height in range(int(height_mm) + 1, int(LARGEST_MM), 2))
    enough = next((height for height in taller if _fit(text, paragraphs, (width_mm, height), measure)), None)
    advice = f"one of {width_mm:g} x {enough} mm does" if enough else "it has to be wider"
    raise Refused(
        f"{text}: a label of {width_mm:g} x {height_mm:g} mm cannot hold its name, hazards and code: {advice}",
        code=text,
        least_height_mm=enough,
    )


def _fit(code: str, paragraphs: tuple[Paragraph, ...], size_mm: Size, measure: Measure) -> Layout | None:
    frame = _make_frame(code, size_mm, measure)
    if frame is None:
        return None
    growth = min(size_mm[0] / DEFAULT_SIZE_MM[0], size_mm[1] / DEFAULT_SIZE_MM[1])
    larger = tuple(scale for scale in _LARGER if scale <= growth)
    for off, scales in _attempts(paragraphs, larger):
        kept = tuple(kept for paragraph in paragraphs if (kept := paragraph.without(off)))
        for scale in scales:
            page = _Page(frame, size_mm, measure)
            if all(page.add(paragraph, scale) for paragraph in kept):
                return Layout(
                    width_mm=size_mm[0],
                    height_mm=size_mm[1],
                    symbol=frame.symbol,
                    lines=(frame.code_line, *page.lines),
                    dropped=(*off, *page.shortened),
                )
    return None


def _attempts(
    paragraphs: tuple[Paragraph, ...], larger: tuple[float, ...]
) -> Iterator[tuple[tuple[str, ...], tuple[float, ...]]]:
    """List what to leave off with the scales to try, in the order of the module's docstring."""
    keys = [piece.key for paragraph in paragraphs for piece in paragraph.pieces]
    precautions = [key for key in reversed(keys) if key.startswith("precaution ")]
    off: tuple[str, ...] = ()
    scales = larger + _TO_FOUR_FIFTHS
    for order, smaller in ((MINOR, _TO_TWO_THIRDS), (precautions, _TO_THE_LEAST), (MAJOR, ())):
        yield off, scales
        for key in (key for key in order if key in keys):
            off = (*off, key)
            yield off, scales[-1:]
        scales = smaller


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Symbol and code in their places, and what they leave: where text starts, and how wide it is beside them."""

    symbol: SymbolSquare
    code_line: Line
    start_mm: float
    column_mm: float
    block_bottom_mm: float


def _make_frame(code: str, size_mm: Size, measure: Measure) -> _Frame | None:
    """Place symbol and code; None where they have no room."""
    width_mm, height_mm = size_mm
    side_mm, small = next(choice for least_mm, *choice in _SYMBOLS if min(size_mm) >= least_mm)
    symbol = SymbolSquare(
        text=code, x_mm=width_mm - SYMBOL_MARGIN_MM - side_mm, y_mm=SYMBOL_MARGIN_MM, side_mm=side_mm, small=small
    )
    below_mm = symbol.y_mm + side_mm
    if symbol.x_mm < SYMBOL_MARGIN_MM or below_mm > height_mm - SYMBOL_MARGIN_MM:
        return None
    shown = show(code)
    em = measure(shown, 1.0, True)
    column_mm = symbol.x_mm - MARGIN_MM
    has_column = column_mm >= _LEAST_COLUMN_MM
    under = min(_CODE_MM, (side_mm - 1) / em, (height_mm - SYMBOL_MARGIN_MM - below_mm) / (_ASCENT + _DESCENT))
    beside = min(_CODE_MM, column_mm / em)
    if under >= _LEAST_CODE_MM and (has_column or beside < _LEAST_CODE_MM):
        size, x_mm, top_mm = under, symbol.x_mm + (side_mm - under * em) / 2, below_mm
        start_mm, block_bottom_mm = MARGIN_MM, below_mm + size * (_ASCENT + _DESCENT)
    elif beside >= _LEAST_CODE_MM:
        size, x_mm, top_mm = beside, MARGIN_MM, MARGIN_MM
        start_mm, block_bottom_mm = top_mm + size * (_ASCENT + _DESCENT), below_mm
    else:
        return None
    return _Frame(
        symbol=symbol,
        code_line=Line(
            text=shown, x_mm=x_mm, baseline_mm=top_mm + _ASCENT * size, size_mm=size, width_mm=size * em, bold=True
        ),
        start_mm=start_mm if has_column else block_bottom_mm,
        column_mm=column_mm,
        block_bottom_mm=block_bottom_mm,
    )


class _Page:
    """Lines placed so far, and where the next paragraph starts."""

    def __init__(self, frame: _Frame, size_mm: Size, measure: Measure) -> None:
        self.frame = frame
        self.full_mm = size_mm[0] - 2 * MARGIN_MM
        self.bottom_mm = size_mm[1] - MARGIN_MM
        self.y_mm = frame.start_mm
        self.measure = measure
        self.lines: list[Line] = []
        self.shortened: list[str] = []

    def add(self, paragraph: Paragraph, scale: float) -> bool:
        """Add a paragraph at its size times `scale`, or less; tell whether it fitted."""
        size = max(paragraph.least_mm, paragraph.size_mm * scale)
        most = paragraph.most_lines
        try:
            texts = self._wrap(paragraph, size)
            while most and len(texts) > most and size > paragraph.least_mm:
                size = max(paragraph.least_mm, size * 0.92)
                texts = self._wrap(paragraph, size)
        except ValueError:
            return False
        if most and len(texts) > most:
            width = partial(self.measure, size_mm=size, bold=paragraph.bold)
            texts[most - 1 :] = [shorten(" ".join(texts[most - 1 :]), self._room(most - 1, size), width)]
            self.shortened.append(f"{paragraph.pieces[0].key} shortened")
        for number, text in enumerate(texts):
            self.lines.append(
                Line(
                    text=text,
                    x_mm=MARGIN_MM,
                    baseline_mm=self._top(number, size) + _ASCENT * size,
                    size_mm=size,
                    width_mm=self.measure(text, size, paragraph.bold),
                    bold=paragraph.bold,
                )
            )
        self.y_mm = self.lines[-1].bottom_mm + _PARAGRAPH_GAP_MM
        return self.lines[-1].bottom_mm <= self.bottom_mm

    def _wrap(self, paragraph: Paragraph, size: float) -> list[str]:
        width = partial(self.measure, size_mm=size, bold=paragraph.bold)
        return wrap(paragraph.text, partial(self._room, size=size), width)

    def _top(self, number: int, size: float) -> float:
        return self.y_mm + number * size * (_ASCENT + _DESCENT)

    def _room(self, number: int, size: float) -> float:
        return self.frame.column_mm if self._top(number, size) < self.frame.block_bottom_mm else self.full_mm
