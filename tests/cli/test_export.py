"""Writing tables and reports to files."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest
from conftest import CommandLine
from exchange_files import everything_in

from stockroom.cli.export import REPORTS, USUAL_REPORTS
from stockroom.cli.main import COMMANDS

NOW = ("--on", "2026-11-25T14:10")


@pytest.fixture
def job(stockroom: CommandLine) -> str:
    """A stockroom with a lot, a jar and a job that used it; the job's code."""
    stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--supplier", "=By post")
    stockroom.json(*NOW, "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    code: str = stockroom.json(*NOW, "job", "new", "Sea chart", "--object", "North sheet, 65 x 48 cm")["code"]
    use = ("use", "calcium-hydroxide-1-in-4", "--job", code, "--qty", "500 mL", "--tested", "AB")
    stockroom.json("--on", "2026-12-01", *use)
    return code


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_table_and_report_is_written_and_nothing_is_changed(
    stockroom: CommandLine, job: str, tmp_path: Path
) -> None:
    before = everything_in(stockroom)
    for form in ("csv", "xlsx", "json"):
        written = stockroom.json(*NOW, "export", "--everything", str(tmp_path / form), "--form", form)["files"]
        assert sorted(map(str, (tmp_path / form).iterdir())) == sorted(written)
        assert len(written) > 20
    assert everything_in(stockroom) == before
    entries = rows(tmp_path / "csv" / "entries.csv")
    assert (entries[0]["amount"], entries[0]["unit"], entries[0]["value"]) == ("500", "g", "12.50")
    assert sum(float(one["value"]) for one in entries if one["other_end"] == "supplier") == 12.50
    (sea,) = rows(tmp_path / "csv" / "jobs.csv")
    assert (sea["job"], sea["object"], sea["size"]) == (job, "North sheet", "65 x 48 cm")
    assert rows(tmp_path / "csv" / "suppliers.csv")[0]["name"] == "'=By post"
    assert stockroom(*NOW, "export", "--everything", str(tmp_path / "csv")).code == 1
    assert stockroom(*NOW, "export", "--everything", str(tmp_path / "csv"), "--replace").code == 0


def test_a_report_says_in_a_table_what_its_command_says(stockroom: CommandLine, job: str, tmp_path: Path) -> None:
    path = tmp_path / "cost.csv"
    stockroom.json("export", "cost", job, "--out", str(path))
    answer = stockroom.json("cost", job)
    assert [row["cost"] for row in rows(path)] == [line["cost"] for line in answer["lines"]]
    stockroom.json("export", "cost", job, "--by", "material", "--out", str(path), "--replace", "--part", "objects")
    assert rows(path)[0]["object"] == "North sheet"
    shelf = tmp_path / "shelf.json"
    stockroom.json(*NOW, "export", "shelf", "calcium", "--out", str(shelf))
    lots = stockroom.json(*NOW, "shelf", "calcium")["lots"]
    assert [row["code"] for row in json.loads(shelf.read_text("utf-8"))["rows"]] == [lot["code"] for lot in lots]


def test_amounts_of_what_holds_several_lines_stand_once(stockroom: CommandLine, tmp_path: Path) -> None:
    """So that a column of a spreadsheet adds up to what was lost."""
    for material, cost in (("ethanol", "10"), ("acetone", "20")):
        code = stockroom.json(*NOW, "receive", material, "1 L", "--cost", cost)["code"]
        stockroom.json(*NOW, "discard", code, "--why", "spilled")
    path = tmp_path / "losses.csv"
    stockroom.json(*NOW, "export", "losses", "--out", str(path))
    written = rows(path)
    assert [row["reason"] for row in written] == ["spilled", "spilled"]
    assert [row["value"] for row in written] == ["30.00", ""]
    assert sorted(row["lines_value"] for row in written) == ["10.00", "20.00"]


@pytest.mark.parametrize(
    "asked",
    [
        ("receive", "ethanol", "1 L", "--cost", "9"),
        ("screens",),
        ("nothing",),
        ("shelf", "--part", "nothing"),
        ("cost", "J001R"),
        (),
    ],
)
def test_only_what_answers_can_be_exported(stockroom: CommandLine, tmp_path: Path, asked: tuple[str, ...]) -> None:
    before = everything_in(stockroom)
    path = tmp_path / "x.csv"
    assert stockroom("export", *asked, "--out", str(path)).code == 2
    assert not path.exists()
    assert everything_in(stockroom) == before


def test_a_report_that_would_book_books_nothing(stockroom: CommandLine, tmp_path: Path) -> None:
    before = everything_in(stockroom)
    ended = stockroom("export", "place", "new", "Attic", "--out", str(tmp_path / "x.csv"))
    assert (ended.code, "Nothing was changed" in ended.err) == (1, True)
    assert everything_in(stockroom) == before
    assert stockroom("place", "new", "Attic").code == 0


@pytest.mark.parametrize("out", ["lots.ods", "lots", "no-folder/lots.csv", "."])
def test_a_place_that_cannot_be_written_is_refused(
    stockroom: CommandLine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, out: str
) -> None:
    monkeypatch.chdir(tmp_path)
    assert stockroom("export", "lots", "--out", out).code == 2


def test_a_file_is_replaced_only_when_asked_and_marked_only_when_asked(stockroom: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "places.csv"
    path.write_bytes(b"mine")
    assert stockroom("export", "places", "--out", str(path)).code == 1
    assert path.read_bytes() == b"mine"
    stockroom.json("export", "places", "--out", str(path), "--replace", "--mark")
    assert path.read_bytes().startswith(b'\xef\xbb\xbf"name"')


def test_what_no_table_can_bring_anew_is_named(stockroom: CommandLine, tmp_path: Path) -> None:
    can = stockroom.json("waste-can", "new", "Alkaline waste", "--capacity", "5 L")["code"]
    ended = stockroom("export", "lots", "--out", str(tmp_path / "lots.csv"))
    assert (ended.code, can in ended.err) == (0, True)


def test_every_report_that_can_be_exported_is_a_command() -> None:
    assert set(REPORTS) <= set(COMMANDS)
    assert {words.split()[0] for words, _ in USUAL_REPORTS} <= set(REPORTS)
