"""Read a table from a file and lay one out for writing, by what the file's name ends with."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from stockroom.errors import BadInput
from stockroom.exchange.sheet import LARGEST_FILE, Sheet, Table

FORMS = (".csv", ".xlsx", ".json")


def form_of(path: Path) -> str:
    """Return the ending of a name that says its form. Raises BadInput."""
    form = path.suffix.lower()
    if form not in FORMS:
        raise BadInput(f"{path.name or path}: what form? Give a name that ends in {', '.join(FORMS)}.")
    return form


def laid_out(table: Table, form: str, *, mark: bool = False, explained: bool = False) -> bytes:
    """Return a table as the bytes of a file; see each form for `mark` and `explained`. Raises BadInput."""
    if form == ".csv":
        from stockroom.exchange.csv_files import write_csv

        return write_csv(table, mark=mark)
    if form == ".xlsx":
        from stockroom.exchange.xlsx_files import write_xlsx

        return write_xlsx(table, explained=explained)
    from stockroom.exchange.json_files import write_json

    return write_json(table)


def read_sheet(
    path: Path,
    *,
    known: Collection[str],
    table: str | None = None,
    encoding: str | None = None,
    sheet: str | None = None,
) -> Sheet:
    """Read a file's table. Raises BadInput for a file that is missing, too large, or not what its name says.

    `known` are headings to expect, `table` is what it is said to be; `encoding` is of CSV, `sheet` of XLSX.
    """
    form = form_of(path)
    if encoding is not None and form != ".csv":
        raise BadInput("--encoding goes with CSV: XLSX and JSON say theirs themselves.")
    if sheet is not None and form != ".xlsx":
        raise BadInput("--sheet goes with XLSX: other files hold one table.")
    content = _content(path)
    if form == ".csv":
        from stockroom.exchange.csv_files import read_csv

        return read_csv(content, path.name, known=known, encoding=encoding)
    if form == ".xlsx":
        from stockroom.exchange.xlsx_reading import read_xlsx

        return read_xlsx(content, path.name, sheet=sheet, table=table)
    from stockroom.exchange.json_files import read_json

    return read_json(content, path.name)


def _content(path: Path) -> bytes:
    try:
        if not path.is_file():  # a folder, or a pipe that would never end
            raise BadInput(f"{path} is not a file, or is not there.")
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise BadInput(f"{path} cannot be read ({why}).") from None
    if len(content) > LARGEST_FILE:
        raise BadInput(f"{path} is larger than {LARGEST_FILE:,} bytes, which is more than is read. Share it out.")
    return content
