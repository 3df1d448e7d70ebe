"""What the stock was worth on a day, by command."""

from __future__ import annotations

from pathlib import Path

import pytest
from conftest import CommandLine

NOW = ("--on", "2026-11-28T10:00")


@pytest.fixture
def ethanol(stockroom: CommandLine) -> CommandLine:
    """A litre for 10.00 on the shelf from 1 November, moved to the cupboard on the 10th; 20 mL spilled on the 12th."""
    stockroom.json("place", "new", "cupboard")
    stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "10.00", "--place", "shelf", "--day", "2026-11-01")
    stockroom.json(*NOW, "move", "L001W", "--to", "cupboard", "--day", "2026-11-10")
    stockroom.json(*NOW, "take", "L001W", "20 mL", "--why", "spilled", "--day", "2026-11-12")
    return stockroom


def test_the_stock_is_valued_where_it_lay_on_that_day(ethanol: CommandLine) -> None:
    early = ethanol.json(*NOW, "value", "--on", "2026-11-05")
    assert (early["total"], early["by_place"]) == ("10.00", [{"place": "shelf", "value": "10.00"}])
    late = ethanol.json(*NOW, "value")
    assert (late["on"], late["total"]) == ("2026-11-28", "9.80")
    assert late["by_place"] == [{"place": "cupboard", "value": "9.80"}]
    assert late["by_kind"] == [{"kind": "solvent", "value": "9.80"}]
    assert late["written_off"] == {
        "since": "2026-01-01",
        "total": "0.20",
        "reasons": [{"reason": "spilled", "value": "0.20"}],
    }
    assert late["sums"] == ethanol.json("verify")["sums"]
    assert ethanol.json(*NOW, "value", "--on", "2026-10-31")["total"] == "0.00"
    assert ethanol.json(*NOW, "value", "--since", "2026-11-13")["written_off"]["total"] == "0.00"


def test_what_was_written_off_and_where_the_rest_went_is_told_in_words(ethanol: CommandLine) -> None:
    told = ethanol(*NOW, "value", "--lots", "--moving-average").out
    for words in ("9.80 EUR  cupboard", "0.20 EUR waste", "0.20 EUR  spilled", "980 mL of Ethanol 96 % (L001W)"):
        assert words in told
    assert "in the books 9.80 EUR" in told


def test_the_value_is_written_as_a_paper(ethanol: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "value.txt"
    command = ("value", "--lots", "--moving-average", "--out", str(path))
    assert ethanol.json(*NOW, *command)["files"] == [str(path)]
    text = path.read_text()
    for words in (
        "Value of the stock at the end of 2026-11-28", "cupboard", "9.80 EUR", "Bought until then: 10.00 EUR", "L001W",
        "Wasted since 2026-01-01", "spilled", "0.20 EUR", "In all, at the average: 9.80 EUR",
    ):  # fmt: skip
        assert words in text, words
    assert ethanol(*NOW, *command).code == 1
    ethanol.json(*NOW, *command, "--on", "2026-10-31", "--replace")
    assert "By kind" not in path.read_text()


def test_a_day_before_everything_has_no_empty_heading(ethanol: CommandLine) -> None:
    told = ethanol(*NOW, "value", "--on", "2026-10-31").out
    assert "0.00 EUR  in all" in told and "By kind" not in told


def test_a_day_to_come_or_turned_round_is_refused(ethanol: CommandLine) -> None:
    assert ethanol(*NOW, "value", "--on", "2026-12-01").code == 2
    assert ethanol(*NOW, "value", "--on", "2026-11-05", "--since", "2026-11-06").code == 2
    assert ethanol(*NOW, "value", "--on", "yesterday-ish").code == 2


def test_found_stock_makes_the_value_at_least(ethanol: CommandLine) -> None:
    ethanol.json(*NOW, "receive", "acetone", "1 L", "--found")
    found = ethanol.json(*NOW, "value")
    assert (found["total"], found["cost_incomplete"]) == ("9.80", True)
    assert "at least" in ethanol(*NOW, "value").out


def test_what_was_booked_late_for_a_closed_day_stands_apart(ethanol: CommandLine) -> None:
    ethanol.json(*NOW, "close-books", "2026-11-20")
    ethanol.json(*NOW, "take", "L001W", "50 mL", "--why", "cleaning", "--day", "2026-11-15")
    found = ethanol.json(*NOW, "value")
    assert [(one["kind"], one["for"], one["day"], one["value"]) for one in found["booked_late"]] == [
        ("take", "2026-11-15", "2026-11-28", "0.50")
    ]
    assert ethanol.json(*NOW, "value", "--on", "2026-11-20")["total"] == "9.80"
