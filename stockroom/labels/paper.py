"""A page of a report: headings, paragraphs, lists, tables and pictograms, whatever it is then written as.

All of it is text that people may have typed: never markup. `paper_words` writes it as plain text and Markdown,
`paper_pdf` as PDF, so that the three always say the same.
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
class Points:
    """A list of short sentences."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table: its title, and how wide it is beside the others."""

    title: str
    share: float = 1.0
    right: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A table: as many cells in each row as there are columns."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictograms:
    """Hazard pictograms side by side, by their GHS codes; in words where nothing can be drawn."""

    codes: tuple[str, ...]


Block = Heading | Words | Points | Rows | Pictograms


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A report of one page or more."""

    title: str
    blocks: tuple[Block, ...]
