"""Closing the books by command: what is said, and what stays as it was."""

from __future__ import annotations

import pytest
from conftest import CommandLine

NOW = ("--on", "2026-11-28T10:00")


@pytest.fixture
def ethanol(stockroom: CommandLine) -> CommandLine:
    """A litre for 10.00, received on 1 November: lot L001W."""
    stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "10.00", "--day", "2026-11-01")
    return stockroom


def test_the_books_are_closed_up_to_a_day_and_opened_again_only_with_a_reason(ethanol: CommandLine) -> None:
    assert ethanol.json("close-books")["closed_until"] is None
    closed = ethanol.json(*NOW, "close-books", "2026-11-20")
    assert closed["closed_until"] == "2026-11-20" and closed["action"].startswith("A")
    assert ethanol("close-books").out == "The books are closed up to 2026-11-20.\n"
    assert ethanol(*NOW, "close-books", "--open-from", "2026-11-10").code == 2
    opened = ethanol.json(*NOW, "close-books", "--open-from", "2026-11-10", "--why", "a forgotten invoice")
    assert opened["closed_until"] == "2026-11-09"
    assert ethanol(*NOW, "close-books", "2026-11-28").code == 2
    assert ethanol(*NOW, "close-books", "soon").code == 2
    assert ethanol(*NOW, "close-books", "2026-11-20", "--open-from", "2026-11-10").code == 2


def test_a_dry_run_closes_nothing(ethanol: CommandLine) -> None:
    planned = ethanol.json(*NOW, "close-books", "2026-11-20", "--dry-run")
    assert (planned["closed_until"], planned["action"]) == ("2026-11-20", None)
    assert ethanol.json("close-books")["closed_until"] is None


def test_bookings_of_closed_days_that_are_still_open_are_named(ethanol: CommandLine) -> None:
    ethanol.json(*NOW, "job", "new", "Sea chart", "--object", "Chart, 30 x 40 cm")
    early = ("--on", "2026-11-05T10:00")
    booking = ethanol.json(*early, "book", "calcium-hydroxide-1-in-4", "--job", "sea chart", "--for", "2026-11-06")[
        "code"
    ]
    assert booking in ethanol(*NOW, "close-books", "2026-11-20").err


def test_what_turns_up_late_is_said_to_be_booked_today(ethanol: CommandLine) -> None:
    ethanol.json(*NOW, "close-books", "2026-11-20")
    told = ethanol(*NOW, "take", "L001W", "50 mL", "--why", "cleaning", "--day", "2026-11-10")
    assert told.code == 0
    assert "booked today, naming 2026-11-10" in told.err
    assert "for 2026-11-10, which was closed" in ethanol(*NOW, "--by", "AB", "undo").out
    history = ethanol.json("lot", "L001W")["history"]
    assert [line["day"] for line in history] == ["2026-11-01", "2026-11-28"]
    assert ethanol.json("verify")["problems"] == []


def test_a_jar_and_its_use_that_turn_up_together_are_both_booked_today(ethanol: CommandLine) -> None:
    """Made on the 5th and used on the 7th, both told after those days were closed; the jar keeps its own dates."""
    ethanol.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--day", "2026-11-01")
    ethanol.json(*NOW, "job", "new", "Sea chart", "--object", "Chart, 30 x 40 cm")
    ethanol.json(*NOW, "close-books", "2026-11-20")
    jar = ethanol.json(*NOW, "make", "calcium-hydroxide-saturated", "1 L", "--day", "2026-11-05")
    assert jar["use_by"] == "2027-11-05"
    use = ("use", "calcium-hydroxide-1-in-4", "--job", "sea chart", "--qty", "500 mL", "--tested", "AB")
    assert ethanol(*NOW, *use, "--day", "2026-11-04").code == 1
    done = ethanol.json(*NOW, *use, "--day", "2026-11-07")
    assert [one["code"] for one in done["drawn"]] == [jar["code"]]
    assert [line["day"] for line in ethanol.json("lot", jar["code"])["history"]] == ["2026-11-28", "2026-11-28"]
    assert ethanol.json("verify")["problems"] == []
