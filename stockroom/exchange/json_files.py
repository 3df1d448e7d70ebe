"""JSON: one document with the table's name and its rows, each an object of texts."""

from __future__ import annotations

import json
from typing import Any

from stockroom.errors import BadInput
from stockroom.exchange.sheet import Problem, Sheet, SheetRow, Table, plain_heading, wrong_cell


def write_json(table: Table) -> bytes:
    """Write a table as `{"table": …, "columns": […], "rows": [{…}]}`; what is not said is null."""
    names = [column.name for column in table.columns]
    rows = [dict(zip(names, row, strict=True)) for row in table.rows]
    document = {"table": table.name, "columns": names, "rows": rows}
    return (json.dumps(document, ensure_ascii=False, indent=1) + "\n").encode("utf-8", "backslashreplace")


def read_json(content: bytes, name: str) -> Sheet:
    """Read such a document, or a bare list of rows. Numbers are taken digit by digit. Raises BadInput."""
    try:
        read = json.loads(content.decode("utf-8-sig"), parse_float=str, parse_int=str, object_pairs_hook=_pairs)
    except (ValueError, RecursionError) as error:
        raise BadInput(f"{name} cannot be read as JSON in UTF-8: {error or 'it is nested too deeply'}.") from None
    document = dict(read) if isinstance(read, _Pairs) else {"rows": read}
    rows, problems = document.get("rows"), list[Problem]()
    if not isinstance(rows, list) or isinstance(rows, _Pairs):
        raise BadInput(f'{name} holds no rows: write a list of objects, or {{"table": …, "rows": [ … ]}}.')
    table = document.get("table")
    sheet = Sheet(columns=(), problems=problems, name=table if isinstance(table, str) else None)
    headings = document.get("columns")
    columns = dict.fromkeys(str(name) for name in headings) if isinstance(headings, list) else {}
    for number, row in enumerate(rows, 1):
        if not isinstance(row, _Pairs):
            problems.append(Problem(row=number, column=None, words="this is not an object with names and values."))
            continue
        sheet.rows.append(SheetRow(number=number, cells=_cells(number, row, problems)))
        columns |= dict.fromkeys(plain_heading(key) for key, _ in row)
    sheet.columns = tuple(columns)
    return sheet


class _Pairs(list[tuple[str, Any]]):
    """An object's names and values in order, names given twice included."""


def _pairs(found: list[tuple[str, Any]]) -> _Pairs:
    return _Pairs(found)


def _cells(number: int, row: _Pairs, problems: list[Problem]) -> dict[str, str]:
    cells: dict[str, str] = {}
    for key, value in row:
        name = plain_heading(key)
        text = {True: "yes", False: "no"}[value] if isinstance(value, bool) else value
        if text is None or (isinstance(text, str) and not text.strip()):
            continue
        if name in cells:
            words: str | None = "this name stands twice in the object; leave one of them."
        elif not isinstance(text, str):
            words = "a text or a number is wanted here, not a list or an object."
        else:
            words = wrong_cell(text)
        if words:
            problems.append(Problem(row=number, column=name, words=words))
        else:
            cells[name] = text
    return cells
