"""XLSX: texts stay texts, numbers lose nothing, and what is hostile is refused before it is unpacked."""

from __future__ import annotations

import io
import sys
import zipfile
from datetime import date, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from stockroom.errors import BadInput
from stockroom.exchange.sheet import LONGEST_CELL, Column, Sheet, Table
from stockroom.exchange.xlsx_files import escaped, unescaped, write_xlsx
from stockroom.exchange.xlsx_reading import read_xlsx

TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=40).filter(str.strip)
COLUMNS = (Column(name="name"), Column(name="amount", number=True), Column(name="cost", number=True, decimals=2))


def table(*rows: tuple[str | None, ...]) -> Table:
    return Table(name="lots", columns=COLUMNS, rows=rows)


def read(content: bytes, **options: str) -> Sheet:
    return read_xlsx(content, "lots.xlsx", **options)


def typed(*cells: tuple[object, str]) -> list[str]:
    """What is read of a column of cells that a spreadsheet wrote, each a value and its number format."""
    book = Workbook()
    book.active["A1"] = "name"
    for row, (value, shown) in enumerate(cells, 2):
        cell = book.active.cell(row, 1, value)
        cell.number_format = shown
    file = io.BytesIO()
    book.save(file)
    sheet = read(file.getvalue())
    return [row.cells["name"] for row in sheet.rows] + [str(problem) for problem in sheet.problems]


@settings(max_examples=40)
@given(st.lists(TEXT, min_size=1, max_size=8))
def test_any_text_is_read_back(texts: list[str]) -> None:
    sheet = read(write_xlsx(table(*((text, None, None) for text in texts))))
    assert [row.cells["name"] for row in sheet.rows] == texts
    assert not sheet.problems


@given(TEXT | st.sampled_from(["_x0041_", "_x005F_x0041_", "a_x000D_", "\r", "\x01\x1f"]))
def test_what_xml_cannot_hold_is_escaped_and_comes_back(text: str) -> None:
    """ECMA-376, part 1, 22.9.2.19, ST_Xstring: a character that XML cannot represent is written _xHHHH_."""
    assert unescaped(escaped(text)) == text
    assert not any(ord(char) < 32 and char not in "\t\n" for char in escaped(text))


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", "#N/A", "007"]
)
def test_a_text_is_typed_as_text(text: str) -> None:
    cell = load_workbook(io.BytesIO(write_xlsx(table((text, None, None)))))["lots"]["A2"]
    assert (cell.data_type, cell.number_format) == ("s", "@")
    assert read(write_xlsx(table((text, None, None)))).rows[0].cells["name"] == text


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("0.1", 0.1),
        ("250", 250),
        ("-3", -3),
        ("123456789012345", 123456789012345),
        # a double holds 15 decimal digits (IEEE 754 binary64): more stay text, as does what would be written otherwise
        ("1234567890123456", "1234567890123456"),
        ("1.30", "1.30"),
        ("007", "007"),
        ("1e5", "1e5"),
        ("0.1234567890123456", "0.1234567890123456"),
    ],
)
def test_a_number_is_one_only_where_it_loses_nothing(text: str, kept: object) -> None:
    content = write_xlsx(table(("x", text, None)))
    assert load_workbook(io.BytesIO(content))["lots"]["B2"].value == kept
    assert read(content).rows[0].cells["amount"] == text


def test_money_is_a_number_that_shows_its_decimals() -> None:
    cell = load_workbook(io.BytesIO(write_xlsx(table(("x", None, "12.50")))))["lots"]["C2"]
    assert (cell.value, cell.number_format) == (12.5, "0.00")


def test_a_text_too_long_for_a_cell_is_refused_and_never_cut() -> None:
    with pytest.raises(BadInput, match="CSV or JSON"):
        write_xlsx(table(("x" * (LONGEST_CELL + 1), None, None)))


def test_a_month_that_a_spreadsheet_made_a_day_is_a_month_again() -> None:
    """Typed 08/2027, a spreadsheet keeps the first of August and shows mm/yyyy: the label meant the month's end."""
    first = datetime(2027, 8, 1)
    assert typed(
        (first, "mm/yyyy"), (first, 'mmm "of" yy'), (first, "dd.mm.yyyy"), (date(2027, 8, 1), "[$-409]d-mmm")
    ) == [
        "2027-08",
        "2027-08",
        "2027-08-01",
        "2027-08-01",
    ]


def test_percent_moments_and_answers_are_read_as_they_are_shown() -> None:
    assert typed(
        (0.95, "0%"), (0.125, "0.0%"), (datetime(2026, 11, 25, 14, 10), "yyyy-mm-dd hh:mm"), (True, "General")
    ) == [
        "95 %",
        "12.5 %",
        "2026-11-25T14:10",
        "yes",
    ]


def test_a_formula_and_an_error_are_problems_by_row_and_column() -> None:
    found = typed(("=1+1", "General"), ("#DIV/0!", "General"))
    assert [one.split(":")[0] for one in found] == ["row 2, column A", "row 3, column A"]
    assert "paste as a value" in found[0]


def test_the_sheet_is_the_one_named_or_the_first() -> None:
    book = Workbook()
    book.active.title = "Notes"
    book.active["A1"] = "remark"
    book.create_sheet("Lots")["A1"] = "material"
    file = io.BytesIO()
    book.save(file)
    assert read(file.getvalue()).columns == ("remark",)
    assert read(file.getvalue(), sheet="lots").columns == ("material",)
    assert read(file.getvalue(), table="lots").columns == ("material",)
    with pytest.raises(BadInput, match="Notes, Lots"):
        read(file.getvalue(), sheet="Shelf")


def test_where_the_library_is_missing_it_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    content = write_xlsx(table(("x", None, None)))
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    for asked in (lambda: write_xlsx(table()), lambda: read(content)):
        with pytest.raises(BadInput, match=r"stockroom\[spreadsheets\]"):
            asked()


def packed(**parts: bytes) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return file.getvalue()


def test_a_workbook_that_would_be_huge_is_refused_by_its_directory(monkeypatch: pytest.MonkeyPatch) -> None:
    bomb = packed(**{f"part{number}": b"\0" * 50_000_000 for number in range(5)})
    assert len(bomb) < 1_000_000
    monkeypatch.setattr(zipfile.ZipFile, "open", lambda *_: pytest.fail("something was unpacked"))
    with pytest.raises(BadInput, match=r"250,000,000 bytes.*Nothing was unpacked"):
        read(bomb)


@pytest.mark.parametrize("content", [b"", b"name;note\n", b"PK\x03\x04 broken", packed(), packed(a=b"no workbook")])
def test_what_is_no_workbook_is_refused(content: bytes) -> None:
    with pytest.raises(BadInput, match=r"not a workbook|cannot be read as a workbook"):
        read(content)


def test_entities_that_grow_are_refused() -> None:
    """A "billion laughs" document: entities of entities (CWE-776)."""
    grown = b'<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a "ha">' + b"".join(
        f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">'.encode() for n in range(8)
    )
    whole = write_xlsx(table(("x", None, None)))
    with zipfile.ZipFile(io.BytesIO(whole)) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    sheet = parts["xl/worksheets/sheet1.xml"]
    parts["xl/worksheets/sheet1.xml"] = grown + b"]>" + sheet.replace(b">x<", b">&i;<")
    assert b"&i;" in parts["xl/worksheets/sheet1.xml"]
    with pytest.raises(BadInput, match="cannot be read as a workbook"):
        read(packed(**parts))
