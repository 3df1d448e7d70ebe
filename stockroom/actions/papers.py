"""Sheets as plain text, CSV and PDF files; what people typed is never a formula, nor a control character."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from stockroom.domain.papers import Paper, Table
from stockroom.errors import AlreadyExists, BadInput

FORMULA_BEGINS = ("=", "+", "-", "@")
"""What a spreadsheet would take for a formula; such text gets an apostrophe before it."""


def shown(text: str) -> str:
    """Make typed text safe for paper and terminal: control characters are shown."""
    return "".join(char if char.isprintable() else f"\\x{ord(char):02x}" for char in text)


def plain_cell(text: str) -> str:
    """Make typed text safe for a spreadsheet and a terminal: never a formula, control characters shown."""
    safe = shown(text)
    return f"'{safe}" if safe.startswith(FORMULA_BEGINS) else safe


def paper_text(paper: Paper) -> str:
    """Write a sheet as plain text; sums stand under the last column of figures."""
    parts = [paper.title, *paper.heading]
    for table in paper.tables:
        parts += ["", *_table_text(table)]
    return "\n".join([*parts, "", *paper.foot, ""])


def _table_text(table: Table) -> list[str]:
    rows = [tuple(column.head for column in table.columns), *table.rows]
    widths = [max(len(row[index]) for row in rows) for index in range(len(table.columns))]
    lines = [
        "  ".join(
            cell.rjust(width) if column.right else cell.ljust(width)
            for cell, width, column in zip(row, widths, table.columns, strict=True)
        ).rstrip()
        for row in rows
    ]
    figures = [index for index, column in enumerate(table.columns) if column.right]
    whole = sum(widths[: figures[-1] + 1]) + 2 * figures[-1] if figures else max(len(line) for line in lines)
    titled = [table.title] if table.title else []
    return [*titled, *lines, *(f"{what}: {value}".rjust(whole) for what, value in table.sums)]


def paper_csv(paper: Paper) -> str:
    """Write a sheet's records as CSV (RFC 4180)."""
    stream = io.StringIO()
    csv.writer(stream).writerows(paper.records)
    return stream.getvalue()


def write_paper(paper: Paper, path: Path) -> Path:
    """Write a sheet to a .pdf, .txt or .csv file. Raises BadInput, AlreadyExists: no file is written over."""
    kind = path.suffix.lower()
    if kind == ".pdf":
        from stockroom.labels.table_sheet import draw_paper

        content = draw_paper(paper)
    elif kind == ".txt":
        content = paper_text(paper).encode()
    elif kind == ".csv":
        content = paper_csv(paper).encode()
    else:
        raise BadInput(f"{path.name}: a sheet is written as .pdf, .txt or .csv.")
    return write_new(content, path)


def write_new(content: bytes, path: Path) -> Path:
    """Write a file that is not there yet. Raises AlreadyExists, BadInput."""
    try:
        with path.open("xb") as file:
            file.write(content)
    except FileExistsError:
        raise AlreadyExists(f"{path} exists already and is not written over. Choose another name.") from None
    except OSError as error:
        raise BadInput(f"Cannot write {path}: {error.strerror}.") from error
    return path
