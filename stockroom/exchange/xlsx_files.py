"""XLSX (ECMA-376, Office Open XML): every text typed as text, numbers only where a double loses nothing."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from datetime import date, datetime, time
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from stockroom.errors import BadInput
from stockroom.exchange.sheet import LONGEST_CELL, Column, Table

if TYPE_CHECKING:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.worksheet._write_only import WriteOnlyWorksheet

HOW_TO_GET_IT = (
    "XLSX needs a library that is not installed here: pip install 'stockroom[spreadsheets]'. CSV and JSON need none."
)
_DIGITS_OF_A_DOUBLE = 15
"""A decimal of so many digits comes back from a double as it was (IEEE 754 binary64; DBL_DIG of ISO C)."""
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4})")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_NO_DAY = re.compile(r"(?i)^[^d]*$")
_IN_WORDS = re.compile(r'"[^"]*"|\\.|\[[^]]*\]')


def write_xlsx(table: Table, *, explained: bool = False) -> bytes:
    """Write a table as a workbook; with `explained` a second sheet says what each column holds.

    Raises BadInput for a text longer than a cell holds, or where the library is missing.
    """
    _refuse_too_long(table)
    book = _library().Workbook(write_only=True)
    sheet = book.create_sheet(table.name[:31])
    sheet.freeze_panes = "A2"
    _set_widths(sheet, [(column.name, *(row[at] for row in table.rows)) for at, column in enumerate(table.columns)])
    _write_row(sheet, [_text(sheet, column.name, bold=True) for column in table.columns])
    for row in table.rows:
        cells = zip(table.columns, row, strict=True)
        _write_row(sheet, [None if text is None else _cell(sheet, column, text) for column, text in cells])
    if explained:
        words = book.create_sheet("what to write")
        _set_widths(words, [[column.name for column in table.columns], [column.words for column in table.columns]])
        for column in table.columns:
            _write_row(words, [_text(words, column.name, bold=True), _text(words, column.words)])
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _refuse_too_long(table: Table) -> None:
    longest = max((len(escaped(text)) for row in table.rows for text in row if text), default=0)
    if longest > LONGEST_CELL:
        raise BadInput(
            f"A text of {longest:,} characters does not fit in a cell of a spreadsheet ({LONGEST_CELL:,}). Write the "
            "table as CSV or JSON."
        )


def _set_widths(sheet: WriteOnlyWorksheet, columns: Sequence[Sequence[str | None]]) -> None:
    """Make each column wide enough for what it holds, within reason."""
    from openpyxl.utils import get_column_letter

    for at, texts in enumerate(columns, 1):
        longest = max(len(text) for text in texts if text)
        sheet.column_dimensions[get_column_letter(at)].width = min(60, max(8, longest + 2))


def _write_row(sheet: WriteOnlyWorksheet, cells: list[WriteOnlyCell | None]) -> None:
    sheet.append(cells)


def _cell(sheet: WriteOnlyWorksheet, column: Column, text: str) -> WriteOnlyCell:
    number = _number(text, column.decimals) if column.number else None
    if number is None:
        return _text(sheet, text)
    from openpyxl.cell import WriteOnlyCell

    cell = WriteOnlyCell(sheet, value=number)
    if column.decimals:
        cell.number_format = "0." + "0" * column.decimals
    return cell


def _number(text: str, decimals: int | None) -> int | float | None:
    """Give the number that reads back as the very same text, or None."""
    if not re.fullmatch(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?", text):
        return None
    if len(text.lstrip("-").replace(".", "").lstrip("0")) > _DIGITS_OF_A_DOUBLE:
        return None
    number = float(text) if "." in text else int(text)
    exact = Decimal(repr(number))
    same = written_number(exact) if decimals is None else f"{exact:.{decimals}f}"
    return number if same == text else None


def written_number(exact: Decimal) -> str:
    """Write a number without exponent and without zeros at its end."""
    return str(int(exact)) if exact == exact.to_integral_value() else f"{exact.normalize():f}"


def _text(sheet: WriteOnlyWorksheet, text: str, *, bold: bool = False) -> WriteOnlyCell:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font

    cell = WriteOnlyCell(sheet)
    cell.value = escaped(text)
    cell.data_type = "s"  # never "f": a text that begins with = stays a text
    cell.number_format = "@"  # and stays one when it is edited
    if bold:
        cell.font = Font(bold=True)
    return cell


def escaped(text: str) -> str:
    """Write what XML cannot hold as _xHHHH_, and a text of that look so that it is not taken for it.

    ECMA-376, part 1, 22.9.2.19 (ST_Xstring).
    """
    return _CONTROL.sub(lambda match: f"_x{ord(match[0]):04X}_", text)


def unescaped(text: str) -> str:
    """Read what `escaped` wrote."""
    return _ESCAPED.sub(lambda match: chr(int(match[1], 16)), text)


def text_of(cell: Any) -> tuple[str, str | None]:
    """Return what a cell says as a person would type it, and what is wrong with it."""
    value = cell.value
    if value is None:
        return "", None
    shown = _IN_WORDS.sub("", cell.number_format or "")
    match cell.data_type, value:
        case "f", _:
            return "", "this is a formula, which is not taken. Put what it gives in its place (paste as a value)."
        case "e", _:
            return "", f"the spreadsheet says {value} here. Put the value itself."
        case _, bool():
            return "yes" if value else "no", None
        case _, int() | float():
            # repr has the fewest digits that give the double back
            exact = Decimal(repr(value))
            return (f"{written_number(exact.scaleb(2))} %" if "%" in shown else written_number(exact)), None
        case _, datetime() if value.time() == time():
            # the spreadsheet made the first of the month of what was typed as a month
            return f"{value:%Y-%m}" if _NO_DAY.match(shown) else f"{value:%Y-%m-%d}", None
        case _, datetime():
            return f"{value:%Y-%m-%dT%H:%M}", None
        case _, date():
            return value.isoformat(), None
        case _, str():
            return unescaped(value), None
    return "", f"this is neither text nor a number nor a day ({type(value).__name__})."


def _library() -> Any:
    try:
        import openpyxl
    except ImportError:
        raise BadInput(HOW_TO_GET_IT) from None
    return openpyxl
