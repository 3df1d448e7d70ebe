"""What is written on paper for others: headings, tables and sums, all of it text."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table."""

    head: str
    width_mm: float
    right: bool = False
    """Whether its cells stand at the right, as numbers do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of cells under column heads, and the sums below."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    title: str | None = None
    sums: tuple[tuple[str, str], ...] = ()
    """What each sum is, and the sum."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet to print, send or keep."""

    title: str
    heading: tuple[str, ...]
    """Lines below the title."""
    tables: tuple[Table, ...]
    foot: tuple[str, ...] = ()
    """Lines at the end: what it is and is not, where to sign."""
    records: tuple[tuple[str, ...], ...] = ()
    """The same for a spreadsheet: a row of names, then rows of bare numbers and text."""
