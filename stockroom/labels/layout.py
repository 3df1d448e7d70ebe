"""Where everything on a label stands, in mm from its upper left corner; draws nothing.

Text runs down the left and, below what stands at the right, over the whole width. What does not fit is shrunk and left
off in this order, the largest letters that fit being taken at each step, then the largest pictograms:

1. all text shrinks together to four fifths of its size;
2. the note is left off;
3. all shrinks to two thirds;
4. precautions are left off, the last first, down to two; then write-in boxes and place; then the two;
5. all shrinks to its least size;
6. the hazard statements that a small container may go without are left off;
7. solvent, initials, received, made, topped up, opened, storage, strength, use-by and fresh-until are left off.

Name, storage, place and note take only so many lines, and shrink, then end in an ellipsis instead. Name, signal
word, other hazard statements, pictograms, "keep vented", symbol and code are never left off: a label too small for
them is refused.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from stockroom.domain.codes import read_code
from stockroom.errors import BadInput, Refused
from stockroom.labels.arranging import make_frames
from stockroom.labels.fonts import Measure
from stockroom.labels.page import Page
from stockroom.labels.placing import Box, Frame, Line, Picture, Size, SymbolSquare
from stockroom.labels.wording import MAJOR, MINOR, Paragraph

DEFAULT_SIZE_MM: Size = (74.0, 52.0)
"""What CLP Annex I, Table 1.3 asks for on containers of up to 3 L, where it is possible."""
LARGEST_MM = 300.0

_USUAL_MM: Size = (70.0, 40.0)
"""On larger labels all text may grow in proportion."""
_FIRST_PRECAUTIONS = 2
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
    pictures: tuple[Picture, ...] = ()
    boxes: tuple[Box, ...] = ()
    dropped: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToPlace:
    """What a label holds: its code, what it says, its pictograms, and which pieces a small container may go without."""

    code: str
    paragraphs: tuple[Paragraph, ...]
    pictograms: tuple[str, ...] = ()
    in_symbol: str = ""
    """Words in the symbol after the code."""
    relieved: Collection[str] = ()


def lay_out(label: ToPlace, size_mm: Size, measure: Measure) -> Layout:
    """Place a label's code, symbol, pictograms and paragraphs on a label of a width and height in mm.

    Raises Unreadable for a code that is none, BadInput for a size no label has, Refused for one too small; the
    refusal names a height that does and has it in `details["least_height_mm"]`.
    """
    width_mm, height_mm = size_mm
    shown = f"a label of {width_mm:g} x {height_mm:g} mm"
    if not all(math.isfinite(side) and 0 < side <= LARGEST_MM for side in size_mm):
        raise BadInput(f"{shown} cannot be: give width and height in mm, each up to {LARGEST_MM:g}")
    code = read_code(label.code).text
    if found := _fit(code, label, size_mm, measure):
        return found
    taller = range(int(height_mm) + 1, int(LARGEST_MM) + 1, 2)
    enough = next((height for height in taller if _fit(code, label, (width_mm, height), measure)), None)
    advice = f"one of {width_mm:g} x {enough} mm does" if enough else "it has to be wider"
    what = "name, hazards, pictograms and code" if label.pictograms else "name, hazards and code"
    raise Refused(f"{code}: {shown} cannot hold {what}: {advice}", code=code, least_height_mm=enough)


def _fit(code: str, label: ToPlace, size_mm: Size, measure: Measure) -> Layout | None:
    boxes = sum(len(paragraph.pieces) for paragraph in label.paragraphs if paragraph.boxes)
    frames = list(make_frames(code, label.pictograms, size_mm, measure, words=label.in_symbol, boxes=boxes))
    if not frames:
        return None
    growth = min(size_mm[0] / _USUAL_MM[0], size_mm[1] / _USUAL_MM[1])
    larger = tuple(scale for scale in _LARGER if scale <= growth)
    for off, scales in _list_attempts(label, larger):
        kept = tuple(kept for paragraph in label.paragraphs if (kept := paragraph.without(off)))
        fill = partial(_fill, paragraphs=kept, bottom_mm=size_mm[1], measure=measure)
        for frame in frames:
            if not (page := fill(frame, scale=scales[-1])):
                continue
            page = next((wider for scale in scales[:-1] if (wider := fill(frame, scale=scale))), page)
            return Layout(
                width_mm=size_mm[0],
                height_mm=size_mm[1],
                symbol=frame.symbol,
                lines=(frame.code_line, *page.lines),
                pictures=frame.pictures,
                boxes=tuple(page.boxes),
                dropped=(*off, *page.shortened),
            )
    return None


def _list_attempts(label: ToPlace, larger: tuple[float, ...]) -> Iterator[tuple[tuple[str, ...], tuple[float, ...]]]:
    """List what to leave off, with the scales to try, in the order of the module's docstring."""
    keys = [piece.key for paragraph in label.paragraphs for piece in paragraph.pieces]
    precautions = [key for key in keys if key.startswith("precaution ")]
    minor = (*reversed(precautions[_FIRST_PRECAUTIONS:]), *MINOR, *reversed(precautions[:_FIRST_PRECAUTIONS]))
    last = (*reversed([key for key in keys if key in label.relieved]), *MAJOR)
    off: tuple[str, ...] = ()
    scales = larger + _TO_FOUR_FIFTHS
    for order, smaller in ((("note",), _TO_TWO_THIRDS), (minor, _TO_THE_LEAST), (last, ())):
        yield off, scales
        for key in (key for key in order if key in keys):
            off = (*off, key)
            yield off, scales
        scales += smaller


def _fill(
    frame: Frame, *, paragraphs: Sequence[Paragraph], bottom_mm: float, measure: Measure, scale: float
) -> Page | None:
    page = Page(frame, bottom_mm, measure)
    return page if all(page.add(paragraph, scale) for paragraph in paragraphs) else None
