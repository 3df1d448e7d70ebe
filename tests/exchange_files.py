"""What tests of import and export share: small tables as files, and the whole stockroom as text."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from conftest import CommandLine

TABLES = ("materials", "suppliers", "places", "people", "offers", "lots", "counts")
"""What can be taken in again, in the order in which it can."""


def sheet(folder: Path, text: str, name: str = "table.csv") -> str:
    """Write a table told as lines with | between the cells; return the file's path."""
    rows = [[cell.strip() for cell in line.split("|")] for line in text.strip().splitlines()]
    quoted = ["\t".join(f'"{cell}"' if cell else "" for cell in row) for row in rows]
    path = folder / name
    path.write_text("\n".join(quoted), "utf-8")
    return str(path)


def everything_in(line: CommandLine) -> list[str]:
    """Return the whole stockroom file as text, every row of every table."""
    with closing(sqlite3.connect(line.path)) as connection:
        return list(connection.iterdump())
