"""CSV: read as people's programs write it, written as RFC 4180 says.

RFC 4180, section 2: "Fields containing line breaks (CRLF), double quotes, and commas should be enclosed in
double-quotes"; "a double-quote appearing inside a field must be escaped by preceding it with another double quote";
lines end with CRLF. Every field is quoted here, so that a program that parts cells at semicolons does not part ours.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Collection, Iterator

from stockroom.errors import BadInput
from stockroom.exchange.formulas import as_it_was, harmless
from stockroom.exchange.sheet import LARGEST_FILE, Problem, Sheet, Table, plain_heading, sheet_of
from stockroom.science.numerals import quoted

SEPARATORS = (",", ";", "\t")
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)

_TRIED = {"utf-8": "UTF-8", "utf-8-sig": "UTF-8", "utf-16": "UTF-16"}
_HOW = (
    "Tried: UTF-8, with its mark or without; UTF-16 where the file begins with its mark. Save it as UTF-8, or say its "
    "encoding, such as --encoding cp1252."
)


def write_csv(table: Table, *, mark: bool = False) -> bytes:
    """Write a table in UTF-8; with `mark` beginning with the mark by which some spreadsheets know that."""
    file = io.StringIO(newline="")
    writer = csv.writer(file, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow([column.name for column in table.columns])
    for row in table.rows:
        writer.writerow([harmless(cell or "") for cell in row])
    return file.getvalue().encode("utf-8-sig" if mark else "utf-8", "backslashreplace")


def read_csv(content: bytes, name: str, *, known: Collection[str], encoding: str | None = None) -> Sheet:
    """Read a table; `known` are the headings looked for when finding out what parts the cells.

    Raises BadInput for text in an encoding that was not found out.
    """
    text = _decoded(content, name, encoding)
    problems: list[Problem] = []
    # a cell that is too long is told as one, wherever the limit of the whole process stands
    limit = csv.field_size_limit(LARGEST_FILE)
    try:
        separator = max(SEPARATORS, key=lambda sign: _fits(text, sign, known))
        return sheet_of(_records(text, separator, problems), problems)
    finally:
        csv.field_size_limit(limit)


def _decoded(content: bytes, name: str, encoding: str | None) -> str:
    marked = next((found for mark, found in _MARKS if content.startswith(mark)), None)
    tried = encoding or marked or "utf-8"
    try:
        if not codecs.lookup(tried)._is_text_encoding:
            raise LookupError(tried)
        text = content.decode(tried)
    except LookupError:
        raise BadInput(f"{quoted(tried)} is not an encoding known here. Such are utf-8, utf-16, cp1252.") from None
    except UnicodeError as error:
        at = getattr(error, "start", 0)
        line = content[:at].count(b"\n") + 1
        raise BadInput(
            f"{name} is not text in {_TRIED.get(tried, tried)}: line {line} holds a byte "
            f"(0x{content[at : at + 1].hex()}) that is none. {_HOW if encoding is None else 'Say another encoding.'}"
        ) from None
    if encoding is None and text[:1000].count("\0") * 4 > len(text[:1000]):
        raise BadInput(f"{name} looks like UTF-16 without the mark it begins with: say --encoding utf-16-le.")
    return text


def _fits(text: str, separator: str, known: Collection[str]) -> tuple[int, int]:
    """Tell how well the first record that says anything reads with a separator: known headings, then cells."""
    try:
        for record in csv.reader(io.StringIO(text, newline=""), delimiter=separator):
            if any(cell.strip() for cell in record):
                return sum(plain_heading(cell) in known for cell in record), len(record)
    except csv.Error:
        pass
    return 0, 0


def _records(text: str, separator: str, problems: list[Problem]) -> Iterator[tuple[int, list[str]]]:
    number = 0
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        for record in reader:
            number += 1
            yield number, [as_it_was(cell) for cell in record]
    except csv.Error:
        words = (
            "the quotation marks do not fit: one inside a cell is doubled, and the cell stands in quotation marks (RFC "
            "4180). Nothing after it was read."
        )
        problems.append(Problem(row=number + 1, column=None, words=words))
