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
