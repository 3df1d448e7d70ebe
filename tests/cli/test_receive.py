"""Deliveries, found stock and opened bottles from the command line."""

from __future__ import annotations

from typing import Any

import pytest

from stockroom.store.open import Store
from stockroom.store.suppliers import all_suppliers

NOW = ("--on", "2026-11-25T14:10")

HOSTILE = [
    "[A3]",
    "[/]",
    "=1+1",
    "1:100:5",
    "\"quoted\" 'twice'; -- --",
    "🗺 chart",
    "خرائط البحر",
    "\x1b[31mred\x1b[0m\x07",
    "%s {0} \\n",
]
"""What people type, and what would be markup, a formula, SQL or a terminal escape anywhere else."""


def test_a_delivery_gets_a_code_its_cost_and_its_date(stockroom: Any) -> None:
    """24 months from 25 November 2026 closed: the starter row's keeping time of the powder."""
    came = stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    assert came["code"] == came["codes"][0]
    assert came["lots"] == [{"code": came["code"], "amount": "500", "unit": "g", "cost": "12.50"}]
    assert (came["cost"], came["currency"], came["cost_incomplete"]) == ("12.50", "EUR", False)
    assert (came["use_by"], came["use_by_rule"]) == ("2028-11-25", "kept closed: 24 months")
    assert came["action"].startswith("A")
    held = stockroom.json(*NOW, "lot", came["code"])
    assert (held["amount"], held["unit"], held["value"], held["fit"]) == ("500", "g", "12.50", True)


@pytest.mark.parametrize(
    ("cost", "shares"),
    [("10.00", ["3.34", "3.33", "3.33"]), ("0.02", ["0.01", "0.01", "0.00"]), ("41.70", ["13.90", "13.90", "13.90"])],
)
def test_packs_are_lots_and_share_the_cost_to_the_cent(stockroom: Any, cost: str, shares: list[str]) -> None:
    """By hand: 1000 cents over three are 333 each and one odd cent, which the first takes."""
    came = stockroom.json(*NOW, "receive", "ethanol", "3 x 1 L", "--cost", cost, "--lot-number", "7731")
    assert [lot["cost"] for lot in came["lots"]] == shares
    assert [(lot["amount"], lot["unit"]) for lot in came["lots"]] == [("1000", "mL")] * 3
    assert len(set(came["codes"])) == 3
    assert {lot["maker_lot"] for lot in stockroom.json(*NOW, "shelf")["lots"]} == {"7731"}


def test_packs_received_as_one_are_one_lot(stockroom: Any) -> None:
    came = stockroom.json(*NOW, "receive", "blotter", "3 x 25 sheets", "--cost", "40.01", "--as-one")
    assert came["lots"] == [{"code": came["code"], "amount": "75", "unit": "pieces", "cost": "40.01"}]


def test_what_was_free_has_a_known_cost_and_what_was_found_has_none(stockroom: Any) -> None:
    free = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "0")
    assert (free["cost"], free["cost_incomplete"]) == ("0.00", False)
    found = stockroom.json(*NOW, "receive", "ethanol", "about 300 mL", "--found")
    assert (found["cost"], found["lots"][0]["cost"], found["cost_incomplete"]) == (None, None, True)
    assert stockroom.json(*NOW, "lot", found["code"])["about"] is True
    assert "cost not known" in stockroom(*NOW, "receive", "ethanol", "1 L", "--found").out


def test_a_delivery_without_a_cost_is_asked_for_it_and_not_booked(stockroom: Any) -> None:
    failed = stockroom(*NOW, "receive", "ethanol", "1 L")
    assert failed.code == 2
    assert "--cost" in failed.err
    assert "--found" in failed.err
    assert stockroom.json(*NOW, "shelf")["lots"] == []


def test_a_makers_month_means_its_last_day(stockroom: Any) -> None:
    came = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--use-by", "2028-02")
    assert (came["use_by"], came["use_by_rule"]) == ("2028-02-29", "maker's date")


def test_what_was_opened_before_it_came_keeps_from_that_day(stockroom: Any) -> None:
    """12 months once opened, from 1 October 2026; the 5 years closed would have been longer."""
    came = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--found", "--opened-before", "2026-10-01")
    assert (came["use_by"], came["use_by_rule"]) == ("2027-10-01", "once opened: 12 months")
    assert stockroom("--on", "2026-11-25", "open", came["code"]).code == 1


def test_it_cannot_have_been_opened_after_it_came(stockroom: Any) -> None:
    assert stockroom(*NOW, "receive", "ethanol", "1 L", "--found", "--opened-before", "2026-11-26").code == 2


def test_a_delivery_booked_late_counts_from_the_day_it_came(stockroom: Any) -> None:
    came = stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "1", "--day", "2026-11-20")
    assert came["use_by"] == "2028-11-20"
    assert stockroom.json(*NOW, "lot", came["code"])["received_on"] == "2026-11-20"
    assert stockroom(*NOW, "receive", "ethanol", "1 L", "--cost", "1", "--day", "2026-11-26").code == 2


@pytest.mark.parametrize(
    "typed", ["1:4", "1,500 mL", "500", "0 L", "3 x", "-1 L", "many", "", "2 x 0 L", "1e3 L L", "nan L", "\x1b[0m L"]
)
def test_an_amount_that_cannot_be_read_books_nothing(stockroom: Any, typed: str) -> None:
    failed = stockroom(*NOW, "receive", "--cost", "1", "--", "ethanol", typed)
    assert failed.code == 2
    assert failed.err.strip()
    assert "\x1b" not in failed.err
    assert stockroom.json(*NOW, "shelf")["lots"] == []


def test_a_bare_ratio_is_refused_with_both_readings(stockroom: Any) -> None:
    failed = stockroom(*NOW, "receive", "ethanol", "1:4", "--cost", "1")
    assert "1 in 4" in failed.err
    assert "1 + 4" in failed.err


@pytest.mark.parametrize("cost", ["12.345", "1,500", "much", "-3", "", "1e2"])
def test_a_cost_that_cannot_be_read_books_nothing(stockroom: Any, cost: str) -> None:
    assert stockroom(*NOW, "receive", "ethanol", "1 L", f"--cost={cost}").code == 2
    assert stockroom.json(*NOW, "shelf")["lots"] == []


def test_water_that_is_not_metered_is_not_received(stockroom: Any) -> None:
    failed = stockroom(*NOW, "receive", "tap-water", "10 L", "--cost", "1")
    assert failed.code == 2
    assert "not metered" in failed.err


@pytest.mark.parametrize("option", ["--place", "--use-by", "--purity", "--strength"])
def test_what_is_not_known_or_not_read_books_nothing(stockroom: Any, option: str) -> None:
    assert stockroom(*NOW, "receive", "ethanol", "1 L", "--cost", "1", option, "[A3]").code == 2
    assert stockroom.json(*NOW, "shelf")["lots"] == []


def test_a_dry_run_shows_what_a_booking_would_give_and_books_nothing(stockroom: Any) -> None:
    asked = ("receive", "ethanol", "3 x 1 L", "--cost", "10", "--use-by", "2028-06", "--supplier", "Harbour stores")
    plan = stockroom.json(*NOW, *asked, "--dry-run")
    assert (plan["action"], plan["code"], plan["codes"]) == (None, None, [None] * 3)
    assert stockroom.json(*NOW, "shelf")["lots"] == []
    booked = stockroom.json(*NOW, *asked)
    assert without_codes(plan) == without_codes(booked)
    assert "nothing was booked" in stockroom(*NOW, *asked, "--dry-run").out


def without_codes(document: dict[str, Any]) -> dict[str, Any]:
    lots = [{**lot, "code": None} for lot in document["lots"]]
    return {**document, "action": None, "code": None, "codes": None, "lots": lots}


@pytest.mark.parametrize("text", HOSTILE)
def test_typed_text_survives_and_never_steers_the_terminal(stockroom: Any, store: Store, text: str) -> None:
    stockroom.json(*NOW, "place", "new", text)
    told = ("--lot-number", text, "--place", text, "--supplier", text, "--why", text)
    came = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "1", *told)
    held = stockroom.json(*NOW, "lot", came["code"])
    assert (held["maker_lot"], held["place"], held["history"][0]["reason"]) == (text, text, text)
    assert text in [supplier.name for supplier in all_suppliers(store)]
    for shown in (stockroom(*NOW, "shelf"), stockroom(*NOW, "lot", came["code"])):
        assert "\x1b" not in shown.out + shown.err
        assert "\x07" not in shown.out + shown.err
        if text.isprintable():
            assert text in shown.out


def test_opening_a_bottle_begins_its_life_once_opened(stockroom: Any) -> None:
    """12 months from the day of opening, earlier than the 5 years closed."""
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--day", "2026-11-20")["code"]
    plan = stockroom.json(*NOW, "open", code, "--day", "2026-11-22", "--dry-run")
    assert (plan["action"], plan["use_by"]) == (None, "2027-11-22")
    opened = stockroom.json(*NOW, "open", code.lower(), "--day", "2026-11-22")
    assert (opened["opened_on"], opened["use_by"]) == ("2026-11-22", "2027-11-22")
    assert opened["use_by_rule"] == "once opened: 12 months"
    again = stockroom(*NOW, "open", code)
    assert again.code == 1
    assert "2026-11-22" in again.err


def test_opening_never_makes_the_makers_date_later(stockroom: Any) -> None:
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--use-by", "2027-01-31")["code"]
    assert stockroom.json(*NOW, "open", code)["use_by"] == "2027-01-31"


def test_a_code_with_one_wrong_character_is_named_as_such(stockroom: Any) -> None:
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9")["code"]
    wrong = code[:-1] + ("W" if code[-1] != "W" else "U")
    failed = stockroom(*NOW, "open", wrong)
    assert failed.code == 2
    assert "one character is wrong" in failed.err


def test_a_bottle_is_not_opened_nor_moved_before_it_came(stockroom: Any) -> None:
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--day", "2026-11-20")["code"]
    for words in (("open", code), ("move", code, "--to", "Solvent cupboard")):
        refused = stockroom.json(*NOW, *words, "--day", "2026-11-19", code=1)
        assert "was not here yet on 2026-11-19" in refused["error"]["message"]
    lot = stockroom.json(*NOW, "lot", code)
    assert (lot["opened_on"], lot["place"]) == (None, None)


def test_a_retired_material_is_not_received_until_it_is_taken_up_again(stockroom: Any) -> None:
    stockroom.json(*NOW, "material", "retire", "ethanol")
    refused = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", code=1)
    assert "stockroom material retire ethanol --undo" in refused["error"]["message"]
    stockroom.json(*NOW, "material", "retire", "ethanol", "--undo")
    stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9")


@pytest.mark.parametrize("typed", ["95 %", "95 % w/w"])
def test_a_bare_per_cent_of_a_solid_is_by_mass(stockroom: Any, typed: str) -> None:
    code = stockroom.json("receive", "calcium-hydroxide", "100 g", "--cost", "3", "--purity", typed)["code"]
    assert "95 % w/w" in stockroom("lot", code).out
    assert stockroom.json("receive", "ethanol", "1 L", "--cost", "3", "--purity", "95 %", code=2)["error"]
