"""CSV by RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files" (2005)."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.exchange.csv_files import read_csv, write_csv
from stockroom.exchange.sheet import LONGEST_CELL, MOST_ROWS, Column, Sheet, Table

TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=40).filter(str.strip)


def table(*rows: tuple[str | None, ...]) -> Table:
    return Table(name="places", columns=(Column(name="name"), Column(name="note")), rows=rows)


def read(content: str | bytes, **options: str) -> Sheet:
    raw = content if isinstance(content, bytes) else content.encode()
    return read_csv(raw, "places.csv", known={"name", "note"}, **options)


def cells(sheet: Sheet) -> list[dict[str, str]]:
    assert not sheet.problems
    return [dict(row.cells) for row in sheet.rows]


@given(st.lists(st.tuples(TEXT, TEXT | st.none()), max_size=5))
def test_what_was_written_is_read_back(rows: list[tuple[str, str | None]]) -> None:
    expected = [{"name": name} | ({"note": note} if note else {}) for name, note in rows]
    assert cells(read(write_csv(table(*rows)))) == expected


def test_it_is_written_as_the_standard_says() -> None:
    """RFC 4180, 2.1, 2.6 and 2.7.

    "Each record is located on a separate line, delimited by a line break (CRLF)"; "Fields containing line breaks
    (CRLF), double quotes, and commas should be enclosed in double-quotes"; "a double-quote appearing inside a field
    must be escaped by preceding it with another double quote".
    """
    assert write_csv(table(('b"b', "c\r\nc"), (None, "d,d"))) == (b'"name","note"\r\n"b""b","c\r\nc"\r\n"","d,d"\r\n')


def test_the_examples_of_the_standard_are_read() -> None:
    """RFC 4180, 2.5 to 2.7: `"aaa","b CRLF bb","ccc"` and `"aaa","b""bb","ccc"`, with and without the last CRLF."""
    sheet = read('name,note,x\r\n"aaa","b \r\nbb","ccc"\r\n"aaa","b""bb","ccc"')
    assert cells(sheet) == [
        {"name": "aaa", "note": "b \r\nbb", "x": "ccc"},
        {"name": "aaa", "note": 'b"bb', "x": "ccc"},
    ]


def test_spaces_belong_to_the_cell() -> None:
    """RFC 4180, 2.4: "Spaces are considered part of a field and should not be ignored." """
    assert cells(read("name,note\r\n a , b\r\n")) == [{"name": " a ", "note": " b"}]


def test_another_reader_finds_the_same_cells() -> None:
    content = write_csv(table(("Drawer; left", 'says "flat"'), ("=1+1", "one\ntwo")))
    found = list(csv.reader(io.StringIO(content.decode(), newline="")))
    assert found == [["name", "note"], ["Drawer; left", 'says "flat"'], ["'=1+1", "one\ntwo"]]


def test_a_program_that_parts_at_semicolons_does_not_part_ours() -> None:
    found = list(csv.reader(io.StringIO(write_csv(table(("a;=1+1", "b"))).decode(), newline=""), delimiter=";"))
    assert found[1][0].startswith("a;=1+1")


@pytest.mark.parametrize("sign", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_what_parts_the_cells_is_found_out(sign: str, end: str) -> None:
    content = end.join([f"Name{sign}note", f'"Drawer, left; top"{sign}"0,5"'])
    assert cells(read(content)) == [{"name": "Drawer, left; top", "note": "0,5"}]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_unicode_is_known_by_its_mark(encoding: str) -> None:
    assert cells(read("name\r\nKühlschrank №½\r\n".encode(encoding))) == [{"name": "Kühlschrank №½"}]


def test_another_encoding_is_refused_until_it_is_named() -> None:
    content = "name\r\nKühlschrank\r\n".encode("cp1252")
    with pytest.raises(BadInput, match=r"line 2 holds a byte \(0xfc\).*Tried: UTF-8.*UTF-16.*--encoding"):
        read(content)
    assert cells(read(content, encoding="cp1252")) == [{"name": "Kühlschrank"}]
    with pytest.raises(BadInput, match="UTF-16 without the mark"):
        read("name\r\nShelf\r\n".encode("utf-16-le"))
    for wrong in ("hex", "no-such"):
        with pytest.raises(BadInput, match="not an encoding"):
            read(content, encoding=wrong)


@pytest.mark.parametrize(
    ("content", "place", "words"),
    [
        ("name,note\na\0b,x\n", "row 2, name", "NUL"),
        (f"name\n{'x' * (LONGEST_CELL + 1)}\n", "row 2, name", "32,767"),
        (f"name\n{'x' * 200_000}\n", "row 2, name", "200,000"),
        ("name,note\na,b,c\n", "row 2, column 3", "no heading"),
        ("name,,note\na,b,c\n", "row 2, column 2", "no heading"),
        ("name,NAME\na,b\n", "row 1, name", "twice"),
        ('name\n"a\nb\n', "row 2", "quotation marks"),
        ('name\n"a"b\n', "row 2", "quotation marks"),
        (",".join(f"c{n}" for n in range(101)) + "\n", "row 1", "100 columns"),
        ("name\n" + "x\n" * (MOST_ROWS + 1), f"row {MOST_ROWS + 2}", "rows are not read"),
    ],
)
def test_what_is_wrong_is_told_by_row_and_column(content: str, place: str, words: str) -> None:
    (problem,) = read(content).problems
    assert problem.place == place
    assert words in problem.words


def test_rows_count_as_a_spreadsheet_counts_them() -> None:
    sheet = read('\nname,note\n"one\ntwo",x\n\n,\nlast,y\n')
    assert [(row.number, row.cells["name"]) for row in sheet.rows] == [(3, "one\ntwo"), (6, "last")]
