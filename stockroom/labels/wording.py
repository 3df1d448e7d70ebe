"""The words of a label in their order, and which of them may be left off."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from stockroom.errors import BadInput
from stockroom.labels.content import LabelContent
from stockroom.labels.plain_text import make_visible

MINOR = ("box opened", "box checked", "place")
"""Left off, in this order, after the note and before the first two precautions."""
MAJOR = (
    "solvent",
    "initials",
    "received",
    "made",
    "topped up",
    "opened",
    "storage",
    "strength",
    "use by",
    "fresh until",
)
"""Left off, in this order, only when everything is at its least size. Nothing else is ever left off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Words that are kept or left off together, and the name under which that is reported."""

    key: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Pieces that run on in one paragraph, with its letter size and the least it may shrink to, in mm."""

    pieces: tuple[Piece, ...]
    size_mm: float
    least_mm: float
    bold: bool = False
    most_lines: int | None = None
    """Longer text shrinks, then is shortened with an ellipsis."""
    whole: bool = False
    """At its least size it takes more lines instead: half a date or strength would mislead."""
    joint: str = " · "
    boxes: bool = False
    """Each piece is the caption of a box to write in."""

    @property
    def text(self) -> str:
        """The pieces in one line of text."""
        return self.joint.join(piece.text for piece in self.pieces)

    def without(self, keys: Collection[str]) -> Paragraph | None:
        """Leave pieces off; None when nothing is left."""
        kept = tuple(piece for piece in self.pieces if piece.key not in keys)
        if not kept:
            return None
        return replace(self, pieces=kept)


def say(content: LabelContent) -> tuple[Paragraph, ...]:
    """Put a label's facts into paragraphs, top to bottom, with control characters made visible.

    Sizes are heights of the letter body. Nothing goes below 2.35 mm, in the label's typeface an x-height of 1.2 mm:
    the least that the German federal institute for occupational safety (BAuA) names for CLP labels. Raises BadInput
    where the name is empty.
    """
    if not make_visible(content.name):
        raise BadInput(f"{content.code}: a label needs a name; give the material one first")
    return tuple(paragraph for paragraph in _paragraphs(content) if paragraph.pieces)


def _paragraphs(content: LabelContent) -> Iterator[Paragraph]:
    yield Paragraph(pieces=_piece("name", "", content.name), size_mm=5.2, least_mm=3.0, bold=True, most_lines=3)
    yield Paragraph(
        pieces=_piece("strength", "", content.strength) + _piece("solvent", "in ", content.solvent),
        size_mm=3.8,
        least_mm=2.6,
        most_lines=2,
        whole=True,
        joint=", ",
    )
    day, _, time = make_visible(content.fresh_until or "").rpartition(", ")
    if time:
        caption = (Piece(key="fresh until", text=f"fresh until {day}".strip()),)
        yield Paragraph(pieces=caption, size_mm=2.8, least_mm=2.4, most_lines=1, whole=True)
        clock = (Piece(key="fresh until", text=time),)
        yield Paragraph(pieces=clock, size_mm=9.0, least_mm=3.6, bold=True, most_lines=1, whole=True)
    use_by = _piece("use by", f"{content.use_by_word} ", content.use_by)
    yield Paragraph(pieces=use_by, size_mm=3.8, least_mm=2.4, bold=True, most_lines=1, whole=True)
    facts = (
        _piece("made", "made ", content.made)
        + _piece("topped up", "topped up ", content.topped_up)
        + _piece("received", "received ", content.received)
        + _piece("opened", "opened ", content.opened)
        + _piece("initials", "by ", content.initials)
    )
    yield Paragraph(pieces=facts, size_mm=2.9, least_mm=2.4, most_lines=2, whole=True)
    signal = _piece("signal word", "", content.signal_word)
    yield Paragraph(pieces=signal, size_mm=3.8, least_mm=2.8, bold=True)
    for number, text in enumerate(content.hazards, start=1):
        yield Paragraph(pieces=_piece(hazard_key(number), "", text), size_mm=2.8, least_mm=2.35)
    if content.vented:
        vented = (Piece(key="vented", text="Keep vented"),)
        yield Paragraph(pieces=vented, size_mm=2.9, least_mm=2.4, bold=True)
    yield Paragraph(pieces=_piece("storage", "storage: ", content.storage), size_mm=2.8, least_mm=2.4, most_lines=3)
    for number, text in enumerate(content.precautions, start=1):
        yield Paragraph(pieces=_piece(f"precaution {number}", "", text), size_mm=2.7, least_mm=2.35)
    yield Paragraph(pieces=_piece("place", "place: ", content.place), size_mm=2.7, least_mm=2.35, most_lines=2)
    yield Paragraph(pieces=_piece("note", "", content.note), size_mm=2.7, least_mm=2.35, most_lines=3)
    boxes = tuple(Piece(key=f"box {name}", text=name) for name in content.write_in)
    yield Paragraph(pieces=boxes, size_mm=2.5, least_mm=2.35, boxes=True)


def hazard_key(number: int) -> str:
    """Name the hazard statement of a number, counted from 1, as it is reported."""
    return f"hazard {number}"


def _piece(key: str, before: str, text: str | None) -> tuple[Piece, ...]:
    shown = make_visible(text or "")
    return (Piece(key=key, text=before + shown),) if shown else ()
