"""A report says the same as text, as Markdown and as PDF, whatever was typed into it."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from pdf_pages import pages_of

from stockroom.actions.papers import write_paper
from stockroom.domain.papers import Column, Heading, Lines, Paper, Pictograms, Points, Rows, Words
from stockroom.errors import AlreadyExists, BadInput, Refused
from stockroom.labels.paper_pdf import draw_paper
from stockroom.labels.paper_words import WIDE, write_markdown, write_text
from stockroom.labels.plain_text import count_cells, make_visible

HOSTILE = "<b>*bold* _it_ `code` [link](x) | cell & ~~gone~~ #1 \\ \x1b[31m"
COLUMNS = (Column(title="Material", share=2), Column(title="Amount", right=True))
PAPER = Paper(
    title="Held on 2026-11-25",
    blocks=(
        Heading(text="Shelf"),
        Words(text="Local rules come first.", strong=True),
        Points(items=("one", "two")),
        Pictograms(codes=("GHS02", "GHS05")),
        Rows(columns=COLUMNS, rows=(("Calcium hydroxide", "417 g"), ("Ethanol 96 %", "1 L"))),
    ),
)


def words_of_markdown(text: str) -> list[str]:
    """Read Markdown with a reader of CommonMark and of tables; return the text of each inline part."""
    tokens = MarkdownIt("commonmark").enable("table").parse(text)
    return [
        "".join(child.content for child in token.children or () if child.type == "text")
        if all(child.type == "text" for child in token.children or ())
        else f"?{[child.type for child in token.children or ()]}"
        for token in tokens
        if token.type == "inline"
    ]


def test_text_is_ruled_and_in_columns() -> None:
    """The very lines, so that it can be pasted as it stands."""
    assert write_text(PAPER).splitlines() == [
        "Held on 2026-11-25",
        "==================",
        "",
        "Shelf",
        "-----",
        "",
        "Local rules come first.",
        "",
        "- one",
        "- two",
        "",
        "Pictograms: GHS02 flame, GHS05 corrosion",
        "",
        "Material           Amount",
        "-----------------  ------",
        "Calcium hydroxide   417 g",
        "Ethanol 96 %          1 L",
    ]


def test_markdown_is_read_back_by_a_reader_of_commonmark() -> None:
    """CommonMark 0.31 and the tables of GitHub Flavored Markdown 4.10, by a reader that is not ours."""
    kinds = [token.type for token in MarkdownIt("commonmark").enable("table").parse(write_markdown(PAPER))]
    assert kinds.count("heading_open") == 2 and kinds.count("list_item_open") == 2 and kinds.count("tr_open") == 3
    assert words_of_markdown(write_markdown(PAPER))[-4:] == ["Calcium hydroxide", "417 g", "Ethanol 96 %", "1 L"]


@given(st.one_of(st.text(min_size=1, max_size=60), st.sampled_from([HOSTILE, "1. x", "- x", "+", "2) y", "=", "---"])))
def test_typed_text_never_acts_as_markdown(typed: str) -> None:
    """As a paragraph, in a list and in a cell: what is read back is the text that was typed, made visible."""
    wanted = make_visible(typed)
    paper = Paper(
        title="t", blocks=(Points(items=(typed,)), Rows(columns=COLUMNS, rows=((typed, "1"),)), Words(text=typed))
    )
    found = words_of_markdown(write_markdown(paper))
    read = ["t", wanted, "Material", "Amount", wanted, "1", wanted]
    assert [one for one in found if one] == [one for one in read if one]


@given(st.lists(st.tuples(st.text(max_size=200), st.text(max_size=30)), max_size=4))
def test_no_line_of_text_is_wider_than_said_and_no_word_is_lost(rows: list[tuple[str, str]]) -> None:
    """Wrapped in their columns, cells keep every character that can be shown."""
    text = write_text(Paper(title="t", blocks=(Rows(columns=COLUMNS, rows=tuple(rows)),)))
    assert all(count_cells(line) <= WIDE for line in text.splitlines())
    kept = sorted("".join(text.split()))
    wanted = sorted("".join("".join(make_visible(cell) for cell in row) for row in rows).replace(" ", ""))
    for character in set(wanted):
        assert kept.count(character) >= wanted.count(character)


def test_sums_stand_under_the_last_column_of_figures() -> None:
    """In text and Markdown alike below the table; lines of a heading stay lines."""
    table = Rows(
        columns=(*COLUMNS, Column(title="Why")), rows=(("Ethanol", "1 L", "spilled"),), sums=(("In all", "1 L"),)
    )
    paper = Paper(title="t", blocks=(Lines(items=("For: *A*", "Date: today")), table))
    assert write_text(paper).splitlines()[3:] == [
        "For: *A*",
        "Date: today",
        "",
        "Material  Amount  Why",
        "--------  ------  -------",
        "Ethanol      1 L  spilled",
        "     In all: 1 L",
    ]
    assert words_of_markdown(write_markdown(paper))[-1] == "In all: 1 L"
    kinds = [child.type for token in MarkdownIt().parse(write_markdown(paper)) for child in token.children or ()]
    assert kinds[:4] == ["text", "text", "hardbreak", "text"]
    (page,) = pages_of(draw_paper(paper))
    assert "In all 1 L" in " ".join(page.split())


def test_records_are_written_for_a_spreadsheet_with_nothing_that_runs(tmp_path: Path) -> None:
    """Text that would run gets a quote before it; numbers below nothing stay numbers."""
    paper = Paper(title="t", blocks=(), records=(("name", "cost"), ("=1+1\x1b", "-2.50")))
    assert write_paper(paper, tmp_path / "t.csv").read_bytes() == b'"name","cost"\r\n"\'=1+1[U+001B]","-2.50"\r\n'
    with pytest.raises(BadInput, match="csv"):
        write_paper(PAPER, tmp_path / "without.csv")


def test_the_pdf_says_the_same_and_its_bytes_do_not_change() -> None:
    (page,) = pages_of(draw_paper(PAPER))
    for words in ("Held on 2026-11-25", "Shelf", "Local rules come first.", "Calcium hydroxide", "417 g", "page 1"):
        assert words in page
    assert draw_paper(PAPER) == draw_paper(PAPER)


def test_typed_text_is_drawn_as_typed() -> None:
    """No markup of the PDF library either; what the typeface lacks is named."""
    (page,) = pages_of(draw_paper(Paper(title=HOSTILE, blocks=(Words(text="漢 & <para>"),))))
    assert "<b>*bold* _it_" in page and "[U+001B][31m" in page and "[U+6F22] & <para>" in page


def test_a_long_table_goes_on_under_its_heading_and_a_cell_of_ten_thousand_signs_breaks() -> None:
    rows = (*((f"row {number}", "1") for number in range(120)), ("x" * 10_000, "1"), ("last", "2"))
    pages = pages_of(draw_paper(Paper(title="Long", blocks=(Rows(columns=COLUMNS, rows=rows),))))
    assert len(pages) > 3 and all("Material" in page for page in pages)
    assert "row 119" in "".join(pages) and "last" in pages[-1] and f"page {len(pages)}" in pages[-1]
    assert "".join(pages).count("x") >= 10_000


@pytest.mark.parametrize("lines", range(40, 56))
def test_a_strong_line_stands_on_the_page_of_the_list_that_it_begins(lines: int) -> None:
    above = tuple(Words(text=f"line {number}") for number in range(lines))
    begun = (Words(text="Withdrawn since then:", strong=True), Points(items=("the first of them", "the second")))
    pages = pages_of(draw_paper(Paper(title="Statement", blocks=(*above, *begun))))
    (page,) = (page for page in pages if "Withdrawn since then" in page)
    assert "the first of them" in page


def test_pictograms_are_drawn_in_red_and_black() -> None:
    """Rendered at 72 dpi: both colours are on the page, side by side."""
    bitmap = pypdfium2.PdfDocument(draw_paper(PAPER))[0].render(scale=1).to_pil().convert("RGB")
    colours = {colour for _, colour in bitmap.getcolors(1_000_000) or []}
    assert any(red > 200 and green < 60 and blue < 80 for red, green, blue in colours)


@pytest.mark.parametrize("name", ["a.pdf", "a.md", "a.txt", "A.PDF"])
def test_a_file_is_written_whole_and_never_over_another(name: str, tmp_path: Path) -> None:
    path = write_paper(PAPER, tmp_path / name)
    before = path.read_bytes()
    assert before
    path.write_bytes(b"mine")
    with pytest.raises(AlreadyExists, match="--replace"):
        write_paper(PAPER, path)
    assert path.read_bytes() == b"mine"
    assert write_paper(PAPER, path, replace=True).read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_a_name_that_no_file_can_have_is_refused(tmp_path: Path) -> None:
    for name in (f"{'n' * 300}.txt", "a\0b.txt"):
        with pytest.raises(Refused, match="cannot be written"):
            write_paper(PAPER, tmp_path / name)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("name", ["a", "a.doc", ".pdf", "none/a.pdf"])
def test_another_suffix_and_a_folder_that_is_not_there_are_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(BadInput):
        write_paper(PAPER, tmp_path / name)
    assert not list(tmp_path.iterdir())


@given(
    wide=st.integers(50, 120),
    rows=st.lists(st.tuples(st.text("ab ", max_size=60), st.just("2026-11-25"), st.text("cd ", max_size=80))),
)
def test_a_table_short_of_room_keeps_its_words_whole_where_they_have_room(
    wide: int, rows: list[tuple[str, str, str]]
) -> None:
    """Whatever the shares say; a word longer than a quarter of the room is left out here."""
    kept = [row for row in rows if all(len(word) <= wide // 4 - 2 for cell in row for word in cell.split())]
    columns = (Column(title="What", share=5), Column(title="Day", share=0.1), Column(title="Why", share=5))
    text = write_text(Paper(title="T", blocks=(Rows(columns=columns, rows=tuple(kept)),)), wide)
    assert all(count_cells(line) <= wide for line in text.splitlines())
    said = text.split()
    assert said.count("2026-11-25") == len(kept)
    assert all(word in said for row in kept for cell in row for word in cell.split())
