"""Counting and stock-takes from the command line."""

from __future__ import annotations

from typing import Any

import pytest

ON = ("--on", "2026-03-05T12:00")


@pytest.fixture
def ethanol(stockroom: Any) -> str:
    """A litre of ethanol for 10.00, on the shelf since 1 March."""
    code: str = stockroom.json(
        *ON, "receive", "ethanol", "1 L", "--cost", "10.00", "--place", "shelf", "--day", "2026-03-01"
    )["code"]
    return code


def test_a_count_tells_what_was_found_what_the_books_said_and_what_that_is_worth(stockroom: Any, ethanol: str) -> None:
    counted = stockroom.json(*ON, "--by", "AB", "count", ethanol, "950 mL", "--why", "spring round")
    assert counted["action"].startswith("A")
    del counted["action"]
    assert counted == {
        "code": ethanol,
        "counted": "950",
        "books_said": "1000",
        "difference": "-50",
        "unit": "mL",
        "value": "-0.50",
        "currency": "EUR",
        "ended": False,
        "strength": None,
        "reworked": [],
    }
    assert stockroom.json("shelf")["lots"][0]["amount"] == "950"
    assert "50 mL more" in stockroom(*ON, "count", ethanol, "1 L").out


def test_a_dry_run_shows_the_count_and_books_nothing(stockroom: Any, ethanol: str) -> None:
    plan = stockroom.json(*ON, "count", ethanol, "950 mL", "--dry-run")
    assert (plan["action"], plan["difference"]) == (None, "-50")
    assert stockroom.json("shelf")["lots"][0]["amount"] == "1000"


def test_an_empty_bottle_ends_with_one_of_four_reasons(stockroom: Any, ethanol: str) -> None:
    refused = stockroom(*ON, "count", ethanol, "--empty", "--why", "gone")
    assert refused.code == 2
    assert "measured short" in refused.err
    emptied = stockroom.json(*ON, "count", ethanol, "--empty", "--why", "not booked")
    assert (emptied["ended"], emptied["value"]) == (True, "-10.00")
    assert stockroom.json("shelf")["lots"] == []
    again = stockroom.json(*ON, "count", ethanol, "--empty", "--why", "unknown", code=1)
    assert "ended on 2026-03-05" in again["error"]["message"]


@pytest.mark.parametrize(
    "arguments", [(), ("950 mL", "--empty", "--why", "unknown"), ("0 mL",), ("950",), ("2 sheets",)]
)
def test_a_count_that_cannot_be_meant_is_refused_in_words(
    stockroom: Any, ethanol: str, arguments: tuple[str, ...]
) -> None:
    ran = stockroom(*ON, "count", ethanol, *arguments)
    assert ran.code == 2
    assert ran.err.strip()
    assert stockroom.json("shelf")["lots"][0]["amount"] == "1000"


def test_a_late_use_says_how_the_count_after_it_was_kept(stockroom: Any, ethanol: str) -> None:
    stockroom.json(*ON, "count", ethanol, "950 mL")
    job = stockroom.json("job", "new", "Charts")["code"]
    stockroom.json(*ON, "take", ethanol, "20 mL", "--job", job, "--day", "2026-03-03")
    earlier = stockroom.json(*ON, "count", ethanol, "970 mL", "--day", "2026-03-04")
    assert len(earlier["reworked"]) == 1
    told = stockroom(*ON, "count", ethanol, "960 mL", "--day", "2026-03-04T15:00").out
    assert "stays: 950 mL of Ethanol" in told
    assert "20 mL less and is now 10 mL less" in told
    assert stockroom.json("verify")["problems"] == []


def test_a_stock_take_is_gone_on_with_and_confirmed_once(stockroom: Any, ethanol: str) -> None:
    other = stockroom.json(*ON, "receive", "acetone", "500 mL", "--cost", "5", "--place", "shelf")["code"]
    away = stockroom.json(*ON, "receive", "isopropanol", "1 L", "--cost", "8", "--place", "refrigerator")["code"]
    begun = stockroom.json(*ON, "stock-take", "shelf", "--seen", f"{ethanol}=0.9 L")
    assert (begun["state"], begun["action"], begun["less"]) == ("open", None, [ethanol])
    page = stockroom.json(*ON, "stock-take", "shelf", "--seen", away)
    assert page["round"] == begun["round"]
    assert [line["code"] for line in page["not_seen"]] == [other]
    assert page["elsewhere"] == [away]
    assert stockroom.json("shelf")["lots"][1]["amount"] == "1000"
    booked = stockroom.json(*ON, "stock-take", "shelf", "--confirm")
    assert (booked["state"], booked["value"]) == ("confirmed", "-1.00")
    assert booked["action"].startswith("A")
    shelf = {lot["code"]: lot for lot in stockroom.json("shelf")["lots"]}
    assert (shelf[ethanol]["amount"], shelf[away]["place"]) == ("900", "shelf")
    assert shelf[other]["amount"] == "500"
    due = [item for item in stockroom.json(*ON, "due")["items"] if item["code"] == other]
    assert [item["kind"] for item in due] == ["look-for"]
    assert due[0]["why"].count("not seen") == 1


def test_the_books_amounts_can_be_hidden_while_counting(stockroom: Any, ethanol: str) -> None:
    hidden = stockroom(*ON, "stock-take", "shelf", "--hide")
    assert "1 L" not in hidden.out
    assert ethanol in hidden.out
    page = stockroom.json(*ON, "stock-take", "shelf", "--seen", f"{ethanol}=900 mL", "--hide")
    assert (page["seen"][0]["books_said"], page["less"]) == (None, [])
    assert "1 L" in stockroom(*ON, "stock-take", "shelf").out


def test_a_round_can_be_dropped(stockroom: Any, ethanol: str) -> None:
    stockroom.json(*ON, "stock-take", "shelf", "--seen", f"{ethanol}=900 mL")
    assert stockroom.json("stock-take", "shelf", "--drop")["state"] == "dropped"
    assert stockroom("stock-take", "shelf", "--confirm").code == 1
    assert stockroom.json("shelf")["lots"][0]["amount"] == "1000"


def test_confirming_can_be_tried_dry(stockroom: Any, ethanol: str) -> None:
    stockroom.json(*ON, "stock-take", "shelf", "--seen", f"{ethanol}=900 mL")
    plan = stockroom.json(*ON, "stock-take", "shelf", "--confirm", "--dry-run")
    assert (plan["action"], plan["value"]) == (None, "-1.00")
    assert stockroom.json("shelf")["lots"][0]["amount"] == "1000"


def test_a_late_take_and_a_late_use_tell_both_figures(stockroom: Any, ethanol: str) -> None:
    """The loss that nobody could explain, before and after."""
    stockroom.json(*ON, "count", ethanol, "950 mL")
    job = stockroom.json("job", "new", "Charts")["code"]
    taken = stockroom(*ON, "take", ethanol, "20 mL", "--job", job, "--day", "2026-03-03")
    assert "stays: 950 mL" in taken.out
    assert "50 mL less and is now 30 mL less" in taken.out
    made = stockroom(*ON, "make", "alcohol-water-50", "20 mL", "--from", ethanol, "--day", "2026-03-03")
    assert "30 mL less and is now" in made.out
    assert "is now" not in stockroom(*ON, "take", ethanol, "20 mL", "--job", job).out


def test_a_round_tells_how_many_lots_hold_what_the_books_said(stockroom: Any) -> None:
    """One is 2 % short, one 10 % over, and in sum they nearly agree: one of two, never two."""
    stockroom.json("place", "new", "Shelf A")
    first, second = (
        stockroom.json("receive", "ethanol", "1 L", "--cost", "10", "--place", "Shelf A")["code"] for _ in range(2)
    )
    page = stockroom.json(
        "stock-take", "Shelf A", "--seen", f"{first}=980 mL", "--seen", f"{second}=1.1 L", "--confirm"
    )  # fmt: skip
    assert (page["agree"], len(page["seen"])) == (1, 2)
