"""Suppliers and what they ask, from the command line."""

from __future__ import annotations

import sqlite3

import pytest
from conftest import CommandLine

from stockroom.store.open import Store

NOW = ("--on", "2026-11-25T14:10")


@pytest.fixture
def paper(stockroom: CommandLine) -> CommandLine:
    """A stockroom with one supplier."""
    stockroom.json(*NOW, "supplier", "new", "Paper goods, by post", "--delivery-days", "10", "--minimum-order", "50")
    return stockroom


def test_a_supplier_is_kept_with_its_delivery_time_and_least_order(paper: CommandLine) -> None:
    shown = paper.json(*NOW, "supplier", "show", "paper")
    assert (shown["name"], shown["delivery_days"], shown["minimum_order"]) == ("Paper goods, by post", 10, "50.00")
    assert shown["experienced"]["orders"] == 0
    assert paper.json(*NOW, "supplier", "list")["suppliers"][0]["name"] == shown["name"]


def test_a_name_is_taken_once_and_what_a_delivery_named_is_the_same_supplier(paper: CommandLine) -> None:
    assert paper(*NOW, "supplier", "new", "PAPER GOODS, by post").code == 1
    paper.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--supplier", "paper goods, by post")
    assert len(paper.json(*NOW, "supplier", "list")["suppliers"]) == 1


@pytest.mark.parametrize("days", ["-1", "-10", "100000", "soon", "1.5"])
def test_a_delivery_time_that_cannot_be_is_refused(paper: CommandLine, days: str) -> None:
    assert paper(*NOW, "supplier", "new", "Another", "--delivery-days", days).code == 2
    assert paper(*NOW, "supplier", "edit", "paper", "--delivery-days", days).code == 2
    assert paper.json(*NOW, "supplier", "show", "paper")["delivery_days"] == 10


def test_an_edit_keeps_what_it_said_before(paper: CommandLine) -> None:
    done = paper.json(*NOW, "supplier", "edit", "paper", "--delivery-days", "7", "--minimum-order", "0")
    assert [(one["field"], one["was"], one["became"]) for one in done["changes"]] == [
        ("delivery days", "10", "7"),
        ("minimum order", "50.00", None),
    ]
    assert len(paper.json(*NOW, "supplier", "show", "paper")["edits"]) == 2


def test_a_new_price_never_overwrites_an_old_one(paper: CommandLine, store: Store) -> None:
    paper.json(*NOW, "supplier", "offer", "paper", "blotter", "25 sheets", "31", "--day", "2026-05-01", "--tax", "19")
    paper.json(*NOW, "supplier", "offer", "paper", "blotter", "25 sheets", "32.50", "--break", "4 = 30")
    (now,) = paper.json(*NOW, "supplier", "offers", "blotter")["offers"]
    assert (now["price"], now["tax_percent"], now["breaks"]) == ("32.50", "19", [{"packs": 4, "price": "30.00"}])
    history = paper.json(*NOW, "supplier", "offers", "blotter", "--history")["offers"]
    assert [(one["price"], one["seen_on"]) for one in history] == [("32.50", "2026-11-25"), ("31.00", "2026-05-01")]
    with pytest.raises(sqlite3.IntegrityError, match="never changes"), store.write():
        store.run("UPDATE offer SET price = 1")


def test_a_price_heard_late_does_not_replace_a_newer_one(paper: CommandLine) -> None:
    paper.json(*NOW, "supplier", "offer", "paper", "blotter", "25 sheets", "32.50")
    paper.json(*NOW, "supplier", "offer", "paper", "blotter", "25 sheets", "28", "--day", "2026-01-02")
    assert paper.json(*NOW, "supplier", "offers", "blotter")["offers"][0]["price"] == "32.50"


def test_another_currency_keeps_the_rate_that_was_typed(paper: CommandLine) -> None:
    """By hand: 30.00 at 0.8713 is 26.139, to the cent 26.14."""
    asked = ("supplier", "offer", "paper", "ethanol", "2.5 L", "30.00", "--currency", "usd")
    assert paper(*NOW, *asked).code == 2
    kept = paper.json(*NOW, *asked, "--rate", "0.8713")
    assert (kept["price"], kept["currency"], kept["rate"], kept["cost"]) == ("30.00", "USD", "0.8713", "26.14")
    assert paper(*NOW, "supplier", "offer", "paper", "ethanol", "1 L", "30.00", "--rate", "0.9").code == 2


@pytest.mark.parametrize(
    "wrong",
    [
        ("nobody", "blotter", "25 sheets", "31"),
        ("paper", "no such thing", "25 sheets", "31"),
        ("paper", "tap-water", "1 L", "1"),
        ("paper", "blotter", "0 sheets", "31"),
        ("paper", "blotter", "25 g", "31"),
        ("paper", "blotter", "25 sheets", "31.005"),
        ("paper", "blotter", "25 sheets", "much"),
        ("paper", "blotter", "25 sheets", "31", "--minimum-packs", "0"),
        ("paper", "blotter", "25 sheets", "31", "--break", "4 = 32"),
        ("paper", "blotter", "25 sheets", "31", "--break", "1 = 30"),
        ("paper", "blotter", "25 sheets", "31", "--break", "4 = 30", "--break", "4 = 29"),
        ("paper", "blotter", "25 sheets", "31", "--break", "four = 30"),
        ("paper", "blotter", "25 sheets", "31", "--tax", "119"),
        ("paper", "blotter", "25 sheets", "31", "--tax", "-5"),
        ("paper", "blotter", "25 sheets", "31", "--currency", "XXX", "--rate", "1"),
        ("paper", "blotter", "25 sheets", "31", "--currency", "USD", "--rate", "0"),
        ("paper", "blotter", "25 sheets", "31", "--day", "2026-11-26"),
    ],
)
def test_an_offer_that_cannot_be_is_refused_with_a_message_and_not_kept(
    paper: CommandLine, wrong: tuple[str, ...]
) -> None:
    failed = paper(*NOW, "supplier", "offer", *wrong)
    assert failed.code == 2
    assert failed.err.strip()
    assert paper.json(*NOW, "supplier", "offers", "--history")["offers"] == []


def test_an_ended_offer_is_no_longer_counted_but_stays_in_the_history(paper: CommandLine) -> None:
    paper.json(*NOW, "supplier", "offer", "paper", "blotter", "25 sheets", "31")
    paper.json(*NOW, "supplier", "end-offer", "paper", "blotter")
    assert paper.json(*NOW, "supplier", "offers")["offers"] == []
    assert paper.json(*NOW, "supplier", "offers", "--history")["offers"][0]["ended_on"] == "2026-11-25"
    assert paper(*NOW, "supplier", "end-offer", "paper", "blotter").code == 2


def test_a_supplier_with_an_open_order_is_not_retired(paper: CommandLine) -> None:
    code = paper.json(*NOW, "order", "new", "paper")["code"]
    failed = paper(*NOW, "supplier", "retire", "paper")
    assert (failed.code, code in failed.err) == (1, True)
    paper.json(*NOW, "order", "cancel", code)
    paper.json(*NOW, "supplier", "retire", "paper")
    assert paper.json(*NOW, "supplier", "list")["suppliers"] == []
    assert paper(*NOW, "order", "new", "paper").code == 2
    paper.json(*NOW, "supplier", "retire", "paper", "--undo")
    assert len(paper.json(*NOW, "supplier", "list")["suppliers"]) == 1
