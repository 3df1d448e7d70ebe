"""Where everything on a label stands, in mm from its upper left corner; draws nothing.

Text runs down the left and, below symbol and code, over the whole width. What does not fit is shrunk and left off
in this order, the largest letters that fit being taken at each step:

1. all text shrinks together to four fifths of its size;
2. note, place and received are left off;
3. all shrinks to two thirds;
4. precautions are left off, the last first;
5. all shrinks to its least size;
6. solvent, initials, made, opened, storage, strength, use-by and fresh-until are left off.

Name, storage, place and note take only so many lines, and shrink, then end in an ellipsis instead. Name, signal
word, hazard statements, "keep vented", symbol and code are never left off: a label too small for them is refused.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from stockroom.domain.codes import read_code
from stockroom.errors import BadInput, Refused
from stockroom.labels.fonts import Measure
from stockroom.labels.placing import (
    ASCENT,
    LINE_HEIGHT,
    MARGIN_MM,
    Frame,
    Line,
    Size,
    SymbolSquare,
    make_frame,
)
from stockroom.labels.wording import MAJOR, MINOR, Paragraph
from stockroom.labels.wrapping import shorten, wrap

DEFAULT_SIZE_MM: Size = (70.0, 40.0)
LARGEST_MM = 300.0

_PARAGRAPH_GAP_MM = 0.3
_LARGER = (2.0, 1.8, 1.6, 1.4, 1.2)
_TO_FOUR_FIFTHS = (1.0, 0.93, 0.86, 0.8)
_TO_TWO_THIRDS = (0.73, 0.67)
_TO_THE_LEAST = (0.6, 0.5, 0.0)


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

    Raises Unreadable for a code that is none, BadInput for a size no label has, Refused for one too small; the
    refusal names a height that does and has it in `details["least_height_mm"]`.
    """
    width_mm, height_mm = size_mm
    shown = f"a label of {width_mm:g} x {height_mm:g} mm"
    if not all(math.isfinite(side) and 0 < side <= LARGEST_MM for side in size_mm):
        raise BadInput(f"{shown} cannot be: give width and height in mm, each up to {LARGEST_MM:g}")
    text = read_code(code).text
    if found := _fit(text, paragraphs, size_mm, measure):
        return found
    taller = range(int(height_mm) + 1, int(LARGEST_MM) + 1, 2)
    enough = next((height for height in taller if _fit(text, paragraphs, (width_mm, height), measure)), None)
    advice = f"one of {width_mm:g} x {enough} mm does" if enough else "it has to be wider"
    raise Refused(f"{text}: {shown} cannot hold name, hazards and code: {advice}", code=text, least_height_mm=enough)


def _fit(code: str, paragraphs: tuple[Paragraph, ...], size_mm: Size, measure: Measure) -> Layout | None:
    frame = make_frame(code, size_mm, measure)
    if frame is None:
        return None
    growth = min(size_mm[0] / DEFAULT_SIZE_MM[0], size_mm[1] / DEFAULT_SIZE_MM[1])
    larger = tuple(scale for scale in _LARGER if scale <= growth)
    for off, scales in _list_attempts(paragraphs, larger):
        kept = tuple(kept for paragraph in paragraphs if (kept := paragraph.without(off)))
        fill = partial(_fill, frame, kept, size_mm, measure)
        if not (page := fill(scales[-1])):
            continue
        page = next((wider for scale in scales[:-1] if (wider := fill(scale))), page)
        return Layout(
            width_mm=size_mm[0],
            height_mm=size_mm[1],
            symbol=frame.symbol,
            lines=(frame.code_line, *page.lines),
            dropped=(*off, *page.shortened),
        )
    return None


def _list_attempts(
    paragraphs: tuple[Paragraph, ...], larger: tuple[float, ...]
) -> Iterator[tuple[tuple[str, ...], tuple[float, ...]]]:
    """List what to leave off, with the scales to try, in the order of the module's docstring."""
    keys = [piece.key for paragraph in paragraphs for piece in paragraph.pieces]
    precautions = [key for key in reversed(keys) if key.startswith("precaution ")]
    off: tuple[str, ...] = ()
    scales = larger + _TO_FOUR_FIFTHS
    for order, smaller in ((MINOR, _TO_TWO_THIRDS), (precautions, _TO_THE_LEAST), (MAJOR, ())):
        yield off, scales
        for key in (key for key in order if key in keys):
            off = (*off, key)
            yield off, scales
        scales += smaller


def _fill(
    frame: Frame, paragraphs: tuple[Paragraph, ...], size_mm: Size, measure: Measure, scale: float
) -> _Page | None:
    page = _Page(frame, size_mm, measure)
    return page if all(page.add(paragraph, scale) for paragraph in paragraphs) else None


class _Page:
    """Lines placed so far, and where the next paragraph starts."""

    def __init__(self, frame: Frame, size_mm: Size, measure: Measure) -> None:
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
        if most and len(texts) > most and not paragraph.whole:
            width = partial(self.measure, size_mm=size, bold=paragraph.bold)
            texts[most - 1 :] = [shorten(" ".join(texts[most - 1 :]), self._room(most - 1, size), width)]
            self.shortened.append(f"{paragraph.pieces[0].key} shortened")
        for number, text in enumerate(texts):
            self.lines.append(
                Line(
                    text=text,
                    x_mm=MARGIN_MM,
                    baseline_mm=self._top(number, size) + ASCENT * size,
                    size_mm=size,
                    width_mm=self.measure(text, size, paragraph.bold),
                    bold=paragraph.bold,
                )
            )
        last_mm = self.lines[-1].bottom_mm
        self.y_mm = last_mm + _PARAGRAPH_GAP_MM
        return last_mm <= self.bottom_mm

    def _wrap(self, paragraph: Paragraph, size: float) -> list[str]:
        width = partial(self.measure, size_mm=size, bold=paragraph.bold)
        return wrap(paragraph.text, partial(self._room, size=size), width)

    def _top(self, number: int, size: float) -> float:
        return self.y_mm + number * size * LINE_HEIGHT

    def _room(self, number: int, size: float) -> float:
        return self.frame.column_mm if self._top(number, size) < self.frame.block_bottom_mm else self.full_mm
