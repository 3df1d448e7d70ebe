"""A table on its way in or out: columns, rows of text, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

LARGEST_FILE = 20_000_000
"""Bytes of a file that is read."""
MOST_ROWS = 20_000
MOST_COLUMNS = 100
LONGEST_HEADING = 40
LONGEST_CELL = 32_767
"""Characters: what a cell of a spreadsheet holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table: what it is called and what is written in it."""

    name: str
    words: str = ""
    """What to write, for a person who fills in a template."""
    example: str = ""
    number: bool = False
    """Whether a spreadsheet may take its cells as numbers."""
    decimals: int | None = None
    """Of money: how many decimals every cell has; else a number is written with as many as it needs."""
    needed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table on its way out: every cell as text that loses nothing, None where nothing is said."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str | None, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What is wrong, and where a person finds it in the spreadsheet."""

    row: int | None
    """As a spreadsheet counts, the headings being row 1; in JSON the first row of the list is row 1."""
    column: str | None
    words: str

    @property
    def place(self) -> str:
        return ", ".join(part for part in (self.row and f"row {self.row}", self.column) if part) or "the file"

    def __str__(self) -> str:
        return f"{self.place}: {self.words}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """One row of a file: its number there, and what its cells say; empty cells are not in it."""

    number: int
    cells: Mapping[str, str]


@dataclass(slots=True, kw_only=True)
class Sheet:
    """A file's table as it was read, with what was wrong in reading it."""

    columns: tuple[str, ...]
    rows: list[SheetRow] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    name: str | None = None
    """What the file says that it is, where it says so."""


def plain_heading(text: str) -> str:
    """Write a heading in one form: `Use by`, `use-by` and `USE_BY` are the same column."""
    return "_".join(text[:LONGEST_HEADING].strip().lower().replace("-", " ").replace("_", " ").split())


def sheet_of(records: Iterable[tuple[int, Sequence[str]]], problems: list[Problem]) -> Sheet:
    """Build a sheet from numbered records, the first that says anything being the headings.

    Notes cells without a heading, headings given twice, NUL characters, overlong cells and more rows than are read.
    """
    headings: tuple[str, ...] | None = None
    rows: list[SheetRow] = []
    for number, record in records:
        if not any(cell.strip() for cell in record):
            continue
        if headings is None:
            headings = _headings(record)
            problems += _wrong_headings(headings, number)
            continue
        if len(rows) == MOST_ROWS:
            problems.append(
                Problem(row=number, column=None, words=f"more than {MOST_ROWS:,} rows are not read: share them out.")
            )
            break
        rows.append(_row(number, record, headings, problems))
    return Sheet(columns=tuple(name for name in headings or () if name), rows=rows, problems=problems)


def _headings(record: Sequence[str]) -> tuple[str, ...]:
    names = [plain_heading(cell) for cell in record]
    while names and not names[-1]:
        names.pop()
    return tuple(names)


def _wrong_headings(headings: tuple[str, ...], number: int) -> list[Problem]:
    found = []
    if len(headings) > MOST_COLUMNS:
        found.append(Problem(row=number, column=None, words=f"more than {MOST_COLUMNS} columns are not read."))
    for name in dict.fromkeys(headings):
        if name and headings.count(name) > 1:
            found.append(Problem(row=number, column=name, words="this heading stands twice; leave one of them."))
    return found


def _row(number: int, record: Sequence[str], headings: tuple[str, ...], problems: list[Problem]) -> SheetRow:
    cells: dict[str, str] = {}
    for position, cell in enumerate(record):
        name = headings[position] if position < len(headings) else ""
        if not cell.strip():
            continue
        if not name:
            where = f"column {position + 1}"
            problems.append(Problem(row=number, column=where, words="this cell has no heading above it."))
        elif words := wrong_cell(cell):
            problems.append(Problem(row=number, column=name, words=words))
        else:
            cells[name] = cell
    return SheetRow(number=number, cells=cells)


def wrong_cell(cell: str) -> str | None:
    """Say what keeps a cell from being text at all, or None."""
    if "\0" in cell:
        return "this holds a NUL character, which is not text; take it out."
    if any(0xD800 <= ord(char) <= 0xDFFF for char in cell):
        return "this holds half a character, which is not text; type it again."
    if len(cell) > LONGEST_CELL:
        return f"this is {len(cell):,} characters long; a cell holds at most {LONGEST_CELL:,}."
    return None
