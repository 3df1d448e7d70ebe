"""The sheet of a year: its sums add up, and it reads back from paper."""

from __future__ import annotations

import csv
import json
from decimal import Decimal
from pathlib import Path

import pytest
from conftest import CommandLine
from pdf_pages import words_on

NOW = ("--on", "2026-02-28T10:00")


@pytest.fixture
def two_years(stockroom: CommandLine) -> CommandLine:
    """A litre for 10.00 in 2025, of which 0.50 was spilled then; in 2026 another, 1.00 for a job, 0.20 cleaning."""
    stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "10.00", "--day", "2025-11-01", "--place", "shelf")
    stockroom.json(*NOW, "take", "L001W", "50 mL", "--why", "spilled", "--day", "2025-12-31")
    stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "12.00", "--day", "2026-01-01")
    stockroom.json(*NOW, "job", "new", "Sea chart")
    stockroom.json(*NOW, "take", "L001W", "100 mL", "--job", "sea chart", "--day", "2026-01-15")
    stockroom.json(*NOW, "take", "L001W", "20 mL", "--why", "cleaning", "--day", "2026-01-16")
    stockroom.json(*NOW, "take", "L001W", "10 mL", "--why", "broken", "--day", "2026-01-17")
    return stockroom


def test_opening_and_bought_less_what_went_is_what_is_left(two_years: CommandLine) -> None:
    year = two_years.json(*NOW, "year-end")
    assert {name: year[name] for name in year if name not in ("files", "lines", "currency", "cost_incomplete")} == {
        "since": "2026-01-01",
        "until": "2026-02-28",
        "opening": "9.50",
        "bought": "12.00",
        "in_jobs": "1.00",
        "studio_use": "0.20",
        "wasted": "0.10",
        "differences": "0.00",
        "closing": "20.20",
    }
    before = two_years.json(*NOW, "year-end", "2025")
    assert (before["opening"], before["bought"], before["wasted"], before["closing"]) == (
        "0.00", "10.00", "0.50", "9.50"
    )  # fmt: skip
    assert two_years(*NOW, "year-end", "2027").code == 2


@pytest.mark.parametrize("kind", ["txt", "pdf"])
def test_the_sheet_reads_back_with_stock_by_place_use_waste_and_a_line_to_sign(
    two_years: CommandLine, tmp_path: Path, kind: str
) -> None:
    two_years.json(*NOW, "close-books", "2026-01-31")
    two_years.json(*NOW, "take", "L001W", "30 mL", "--why", "cleaning", "--day", "2026-01-20")
    path = tmp_path / f"year.{kind}"
    assert two_years.json(*NOW, "year-end", "--out", str(path))["files"] == [str(path)]
    text = path.read_text() if kind == "txt" else words_on(path)
    for words in (
        "Stock and use, 2026-01-01 to 2026-02-28", "Stock: shelf", "Stock: no place stated", "790 mL", "L001W",
        "Used in jobs", "Sea chart", "1.00 EUR", "Studio use", "cleaning", "0.50 EUR", "Wasted", "broken", "0.10 EUR",
        "The books are closed up to 2026-01-31, not whole.",
        "Booked late, for days that were closed", "on 2026-02-28, for 2026-01-20", "Counted", "Signature",
    ):  # fmt: skip
        assert words in text, words
    assert two_years(*NOW, "year-end", "--out", str(path)).code == 1


def test_a_spreadsheet_of_the_year_adds_up_to_the_same(two_years: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "year.csv"
    two_years.json(*NOW, "year-end", "--out", str(path))
    rows = list(csv.DictReader(path.read_text().splitlines()))
    assert sum(round(float(row["value"]) * 100) for row in rows if row["part"] == "stock") == 2020
    assert {row["part"] for row in rows} == {"stock", "used in jobs", "studio use", "wasted"}


def test_the_year_is_exported_like_any_report_and_adds_up(two_years: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "year.json"
    two_years.json(*NOW, "export", "year-end", "2026", "--out", str(path))
    rows = json.loads(path.read_text())["rows"]
    told = two_years.json(*NOW, "year-end", "2026")
    for part, name in (("stock", "closing"), ("used in jobs", "in_jobs"), ("wasted", "wasted")):
        assert sum(Decimal(str(row["value"])) for row in rows if row["part"] == part) == Decimal(told[name]) > 0
    for form in ("csv", "xlsx"):
        two_years.json(*NOW, "export", "year-end", "2026", "--out", str(tmp_path / f"year.{form}"))
