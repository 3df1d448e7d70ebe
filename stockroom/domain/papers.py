"""What is written on paper for others: headings, lines, lists, tables with their sums, and pictograms.

All of it is text that people may have typed: never markup. `labels/paper_words.py` writes it as text and Markdown,
`labels/paper_pdf.py` as PDF, so that the three always say the same.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """The title of a part; level 1 is a part of the page, level 2 a part of that."""

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph."""

    text: str
    strong: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Lines one below the other, as at the head of a letter."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Points:
    """A list of short sentences."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table: its title, and how wide it is beside the others."""

    title: str
    share: float = 1.0
    right: bool = False
    """Whether its cells stand at the right, as numbers do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A table: as many cells in each row as there are columns."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    sums: tuple[tuple[str, str], ...] = ()
    """Below the table: what each sum is, and the sum."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictograms:
    """Hazard pictograms side by side, by their GHS codes; in words where nothing can be drawn."""

    codes: tuple[str, ...]


Block = Heading | Words | Lines | Points | Rows | Pictograms


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A page or more to print, send or keep."""

    title: str
    blocks: tuple[Block, ...]
    records: tuple[tuple[str, ...], ...] = ()
    """The same for a spreadsheet: a row of names, then rows of bare numbers and text."""
