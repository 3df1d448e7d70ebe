"""Read a workbook that may be hostile: its size is looked at before anything is unpacked."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from typing import Any

from stockroom.errors import BadInput
from stockroom.exchange.sheet import MOST_COLUMNS, MOST_ROWS, Problem, Sheet, sheet_of
from stockroom.exchange.xlsx_files import _library, text_of

LARGEST_UNPACKED = 100_000_000
MOST_PARTS = 2_000


def read_xlsx(content: bytes, name: str, *, sheet: str | None = None, table: str | None = None) -> Sheet:
    """Read one sheet of a workbook: the one named, else the one named like the table, else the first.

    Raises BadInput for what is no workbook, or one that would be too large unpacked.
    """
    _look_at_size(content, name)
    library = _library()
    try:
        book = library.load_workbook(io.BytesIO(content), read_only=True, data_only=False)
        chosen = _chosen(book, name, sheet, table)
        problems: list[Problem] = []
        found = sheet_of(_records(book[chosen], problems), problems)
    except BadInput:
        raise
    except Exception as error:  # the library raises whatever its parsers raise
        raise BadInput(f"{name} cannot be read as a workbook ({type(error).__name__}). Save it anew as XLSX.") from None
    found.name = chosen if chosen.lower() in (table or "", "") else None
    return found


def _look_at_size(content: bytes, name: str) -> None:
    """Refuse by the directory of the zip file, which also bounds what is unpacked: no part gives more than it says."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            parts = packed.infolist()
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError):
        raise BadInput(f"{name} is not a workbook. Save it as XLSX or CSV.") from None
    unpacked = sum(part.file_size for part in parts)
    if unpacked > LARGEST_UNPACKED or len(parts) > MOST_PARTS:
        raise BadInput(
            f"{name} would be {unpacked:,} bytes in {len(parts):,} parts when unpacked; at most {LARGEST_UNPACKED:,} "
            f"bytes in {MOST_PARTS:,} parts are read. Nothing was unpacked. Save only the table that is to be imported."
        )


def _chosen(book: Any, name: str, sheet: str | None, table: str | None) -> str:
    names: list[str] = [each.title for each in book.worksheets]
    if not names:
        raise BadInput(f"{name} holds no sheet with a table.")
    by_name = {each.lower(): each for each in reversed(names)}
    if sheet is not None:
        if sheet.lower() not in by_name:
            raise BadInput(f"{name} has no sheet '{sheet}'. Its sheets: {', '.join(names)}.")
        return by_name[sheet.lower()]
    return by_name.get(table or "", names[0])


def _records(sheet: Any, problems: list[Problem]) -> Iterator[tuple[int, list[str]]]:
    sheet.reset_dimensions()  # what the file says of its own size may be wrong
    last = 2 * MOST_ROWS  # empty ones among them
    for number, cells in enumerate(sheet.iter_rows(max_row=last + 1, max_col=MOST_COLUMNS + 1), 1):
        if number > last:
            after = f"the sheet goes on after row {last:,}: delete what is below the table, also what looks empty."
            problems.append(Problem(row=number, column=None, words=after))
            break
        record = []
        for position, cell in enumerate(cells, 1):
            text, words = text_of(cell)
            if words:
                problems.append(Problem(row=number, column=f"column {_letters(position)}", words=words))
            record.append(text)
        yield number, record


def _letters(position: int) -> str:
    """Write a column as a spreadsheet does: A, B … Z, AA."""
    letters = ""
    while position:
        position, rest = divmod(position - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
