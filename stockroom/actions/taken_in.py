"""What one row of a file brought, and the moments that its cells name."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, replace

from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.exchange.sheet import SheetRow
from stockroom.science.days import read_moment


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """One row that was taken in."""

    words: str
    row: int = 0
    here: bool = False
    """Whether it was here already, word for word, so that nothing was done."""
    codes: tuple[str, ...] = ()
    """Of the lots that began, or of the one that was counted."""
    action: str | None = None
    day: str | None = None
    """When it happened, of what is booked."""


def row_digest(row: SheetRow) -> str:
    """Return what tells one row from another, whatever form of file it came in."""
    said = json.dumps({name: cell.strip() for name, cell in sorted(row.cells.items())}, ensure_ascii=False)
    return hashlib.sha256(said.encode("utf-8", "backslashreplace")).hexdigest()


def at_moment(occasion: Occasion, text: str) -> Occasion:
    """Return the occasion at a day or a moment that a cell names; a day alone is told as its noon, today as now.

    Raises Unreadable, and BadInput for what is still to come.
    """
    at = read_moment(text, zone=occasion.zone, today=occasion.today)
    if at.astimezone(occasion.zone).date() == occasion.today and ":" not in text:
        at = occasion.now
    if at > occasion.now:
        raise BadInput(f"{text} is still to come.")
    return replace(occasion, at=at)
