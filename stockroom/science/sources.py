"""Looking up where a figure comes from, through every reference table."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from stockroom.science.reference import Row, rows


def table_names() -> list[str]:
    """Name the reference tables."""
    return sorted(path.stem for path in (Path(__file__).parents[1] / "reference").glob("*.toml"))


def find_rows(words: Sequence[str]) -> list[tuple[str, Row]]:
    """Find the rows that hold every word, in their table's name or anywhere in the row; no words find all."""
    asked = [part for word in words for part in word.casefold().split()]
    found = []
    for table in table_names():
        for row in rows(table):
            text = " ".join((table.replace("_", " "), row.of, row.what, row.conditions, row.source, row.verified))
            if all(part in text.casefold() for part in asked):
                found.append((table, row))
    return found


def show_figure(row: Row) -> str:
    """Write a row's figure with its unit as its source has it: `1.40 g/L`, `0.25 to 0.7 g/mL`; empty without one."""
    if row.value is None and row.low is None:
        return ""
    low, high = row.span
    return f"{low} {row.unit}" if low == high else f"{low} to {high} {row.unit}"
