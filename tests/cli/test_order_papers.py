"""An order on paper: its sums and tax, as text, CSV and PDF."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from pathlib import Path

import pytest
from conftest import CommandLine
from pdf_pages import words_on

from stockroom.actions.order_papers import tax_on

NOW = ("--on", "2026-11-25T14:10")


def test_the_sheet_shows_sums_and_tax_apart(shop: CommandLine, placed: str) -> None:
    """By hand, costs net: 7 % of 36.00 is 2.52, 19 % of 118.00 is 22.42; with the goods 178.94."""
    text = shop.json(*NOW, "order", "print", placed)["text"]
    assert "Ordered by: A. Bauer" in text
    for line in ("Goods, net: 154.00 EUR", "tax 7 %: 2.52 EUR", "tax 19 %: 22.42 EUR", "Sum with tax: 178.94 EUR"):
        assert line in text


@pytest.mark.parametrize(
    ("amount", "percent", "costs", "tax"),
    [(11_900, "19", "gross", 1_900), (10_000, "19", "net", 1_900), (107, "7", "gross", 7), (3_333, "5.5", "net", 183)],
)
def test_tax_is_on_top_of_a_net_price_and_within_a_gross_one(amount: int, percent: str, costs: str, tax: int) -> None:
    """By hand: 119.00 holds 19.00 at 19 %; 5.5 % of 33.33 is 1.83315."""
    assert tax_on(amount, Decimal(percent), costs) == tax


def test_the_csv_holds_every_line_and_no_formula(shop: CommandLine, placed: str, tmp_path: Path) -> None:
    shop.json(*NOW, "order", "print", placed, "--out", str(tmp_path / "order.csv"))
    rows = list(csv.DictReader(io.StringIO((tmp_path / "order.csv").read_text("utf-8"))))
    assert [(row["material"], row["packs"], row["price"], row["sum"]) for row in rows] == [
        ("ethanol", "3", "12.00", "36.00"),
        ("blotter", "4", "29.50", "118.00"),
    ]
    assert rows[0]["catalogue_number"] == "'=E1"


@pytest.mark.parametrize("kind", ["txt", "csv", "pdf"])
def test_typed_text_stays_text_on_paper(stockroom: CommandLine, tmp_path: Path, kind: str) -> None:
    """A formula, a terminal escape and other scripts; a note of two lines."""
    name = "\x1b[31mred\x07 [/] خرائط"
    stockroom.json(*NOW, "supplier", "new", name)
    stockroom.json(*NOW, "supplier", "offer", name, "blotter", "25 sheets", "31", "--catalogue-number", "=1+1")
    code = stockroom.json(*NOW, "order", "new", name, "--note", "@cmd\nsecond line")["code"]
    stockroom.json(*NOW, "order", "add", code, "blotter", "1")
    path = tmp_path / f"order.{kind}"
    stockroom.json(*NOW, "order", "print", code, "--out", str(path))
    content = path.read_bytes()
    assert content.startswith(b"%PDF") or (b"\x1b" not in content and b"\x07" not in content)
    if kind == "csv":
        (row,) = csv.DictReader(io.StringIO(content.decode()))
        assert (row["catalogue_number"], row["pack"], row["amount"]) == ("'=1+1", "25 pieces", "25")


def test_the_pdf_reads_back_as_what_was_ordered(shop: CommandLine, placed: str, tmp_path: Path) -> None:
    path = tmp_path / "order.pdf"
    shop.json(*NOW, "order", "print", placed, "--out", str(path))
    text = words_on(path)
    for words in (placed, "Paper goods, by post", "Ethanol 96 %", "25 pieces", "118.00 EUR", "178.94 EUR"):
        assert words in text
    assert shop(*NOW, "order", "print", placed, "--out", str(path)).code == 1
    assert shop(*NOW, "order", "print", placed, "--out", str(tmp_path / "order.doc")).code == 2
