"""Sheets and rolls of labels, printers that were measured, labels that were made, and bench cards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock:
    """A sheet or roll of labels of one size, in micrometres; on a roll the page is the label."""

    id: int = 0
    name: str
    label_width_um: int
    label_height_um: int
    page_width_um: int
    page_height_um: int
    columns: int = 1
    rows: int = 1
    left_um: int = 0
    """From the sheet's edge to the first label."""
    top_um: int = 0
    across_um: int = 0
    """The gap between labels side by side."""
    down_um: int = 0
    retired_on: str | None = None

    @property
    def used_um(self) -> tuple[int, int]:
        """How much of the page the grid takes, from its upper left corner."""
        return (
            self.left_um + self.columns * self.label_width_um + (self.columns - 1) * self.across_um,
            self.top_um + self.rows * self.label_height_um + (self.rows - 1) * self.down_um,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Printer:
    """What was measured on a printer's calibration page, in micrometres."""

    name: str
    ruler_across_um: int
    ruler_down_um: int
    measured_across_um: int
    measured_down_um: int
    from_left_um: int
    from_top_um: int
    measured_at: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelMade:
    """One label that was printed or written to a file."""

    lot_id: int
    at: str
    day: str
    initials: str | None
    after_action: int
    copies: int
    way: str
    said: dict[str, Any]
    """What it said: the fields of a label's content."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A bench card: a recipe's version, scaled to an amount."""

    code: str
    recipe_key: str
    recipe_name: str
    recipe_kind: str
    """stock or bath: made up, or used for a job."""
    version: int
    version_now: int
    """The recipe's newest version: a card of an older one is not to be followed."""
    quantity: str | None
    made_at: str
    initials: str | None
