"""One jar poured into another."""

from __future__ import annotations

from typing import Any

import pytest

NOW = ("--on", "2026-11-28T10:00")


def receive(stockroom: Any, material: str, quantity: str, cost: str, *more: str) -> str:
    code: str = stockroom.json(*NOW, "receive", material, quantity, "--cost", cost, *more)["code"]
    return code


@pytest.fixture
def pair(stockroom: Any) -> tuple[str, str]:
    """A litre of alcohol for 10.00, by 2027-05, and half a litre for 2.00, by 2027-01."""
    large = receive(stockroom, "isopropanol", "1 L", "10.00", "--use-by", "2027-05-31")
    small = receive(stockroom, "isopropanol", "500 mL", "2.00", "--use-by", "2027-01-31")
    return large, small


def held(stockroom: Any, code: str) -> tuple[str, str]:
    lot = stockroom.json(*NOW, "lot", code)
    return lot["amount"], lot["value"]


def test_value_goes_with_what_is_poured_and_the_earlier_date_rules(stockroom: Any, pair: tuple[str, str]) -> None:
    """By hand: 250 mL of 500 mL for 2.00 take 1.00 with them."""
    large, small = pair
    poured = stockroom.json(*NOW, "pour", small, "250 mL", "--into", large)
    assert (poured["code"], poured["from"], poured["value"], poured["holds"]) == (large, small, "1.00", "1250")
    assert (poured["use_by"], poured["use_by_rule"]) == ("2027-01-31", f"as {small}, poured into it")
    assert (held(stockroom, large), held(stockroom, small)) == (("1250", "11.00"), ("250", "1.00"))
    assert stockroom.json(*NOW, "lot", large)["made_from"][0]["code"] == small
    assert stockroom.json("verify")["problems"] == []


def test_all_of_a_lot_ends_it_and_a_later_date_changes_nothing(stockroom: Any, pair: tuple[str, str]) -> None:
    large, small = pair
    poured = stockroom.json(*NOW, "pour", large, "--into", small)
    assert (poured["amount"], poured["ended"], poured["use_by"]) == ("1000", True, "2027-01-31")
    assert poured["use_by_rule"] == "maker's date"
    assert [lot["code"] for lot in stockroom.json(*NOW, "shelf")["lots"]] == [small]


def test_pouring_is_undone_with_its_values_and_its_dates(stockroom: Any, pair: tuple[str, str]) -> None:
    large, small = pair
    action = stockroom.json(*NOW, "pour", small, "--into", large)["action"]
    assert stockroom(*NOW, "put-right", action, "--amount", "100 mL", "--why", "mistyped").code == 1
    stockroom.json(*NOW, "undo", action, "--why", "wrong bottle")
    assert (held(stockroom, large), held(stockroom, small)) == (("1000", "10.00"), ("500", "2.00"))
    lot = stockroom.json(*NOW, "lot", large)
    assert (lot["use_by"], lot["state"]) == ("2027-05-31", stockroom.json(*NOW, "lot", small)["state"])
    assert stockroom.json("verify")["problems"] == []


def test_two_known_strengths_mix_by_volume_and_others_are_not_known_any_more(stockroom: Any) -> None:
    """By hand: 300 mL of 2 % and 100 mL of 1 % w/v are 7 g in 400 mL, 1.75 %."""
    strong = receive(stockroom, "ammonium-citrate-solution", "300 mL", "3", "--strength", "2 % w/v")
    weak = receive(stockroom, "ammonium-citrate-solution", "100 mL", "1", "--strength", "1 % w/v")
    unknown = receive(stockroom, "ammonium-citrate-solution", "100 mL", "1")
    assert stockroom.json(*NOW, "pour", weak, "--into", strong)["strength"] == "about 1.75 % w/v"
    assert "not known since 2026-11-28" in stockroom.json(*NOW, "pour", unknown, "--into", strong)["strength"]


def test_a_used_bath_makes_the_stock_unfit_and_needs_a_reason(stockroom: Any) -> None:
    stock = receive(stockroom, "calcium-hydroxide-solution", "2 L", "8.00")
    job = stockroom.json(*NOW, "job", "new", "Charts")["code"]
    used = stockroom.json(*NOW, "use", "calcium-hydroxide-1-in-4", "--job", job, "--qty", "1 L", "--tested", "AB")[
        "action"
    ]
    bath = stockroom.json(*NOW, "bring-back", used, "500 mL", "--used")["code"]
    refused = stockroom.json(*NOW, "pour", bath, "--into", stock, code=1)
    assert "would make" in refused["error"]["message"]
    assert stockroom.json(*NOW, "lot", stock)["fit"] is True
    poured = stockroom.json(*NOW, "pour", bath, "--into", stock, "--why", "took the wrong jar")
    assert poured["unfit"] == f"used bath ({bath}) was poured into it on 2026-11-28"
    lot = stockroom.json(*NOW, "lot", stock)
    assert (lot["fit"], lot["amount"], lot["history"][-1]["reason"]) == (False, "2250", "took the wrong jar")
    assert stockroom.json(*NOW, "use", "calcium-hydroxide-1-in-4", "--job", job, "--qty", "1 L", code=1)["short"]


def test_clear_liquid_over_solid_keeps_both_jars_balances(jar: Any) -> None:
    other = jar.json("--on", "2026-01-05", "make", "calcium-hydroxide-saturated", "1 L", "--temperature", "22 °C")[
        "code"
    ]
    on = ("--on", "2026-02-01")
    before = jar.json(*on, "lot", other)["solid"]
    poured = jar.json(*on, "pour", "L002U", "400 mL", "--into", other)
    assert (poured["holds"], poured["solid_stays"], poured["strength"]) == ("1400", True, "about 1.6 g/L (saturated)")
    assert jar.json(*on, "lot", other)["solid"] == before
    assert jar.json(*on, "pour", "L002U", "--into", other)["ended"] is False
    assert jar.json(*on, "lot", "L002U")["why"] == "only solid left: top up"
    assert jar.json("verify")["problems"] == []


def test_what_must_not_meet_is_not_poured_together_without_a_reason(stockroom: Any) -> None:
    acid = receive(stockroom, "hydrochloric-acid-0-1", "500 mL", "5")
    peroxide = receive(stockroom, "hydrogen-peroxide-3", "500 mL", "5")
    assert stockroom.json(*NOW, "pour", acid, "--into", peroxide, code=1)["error"]["kind"] == "refused"
    assert held(stockroom, peroxide) == ("500", "5.00")


@pytest.mark.parametrize(("amount", "code"), [("600 mL", 1), ("0 mL", 2), ("much", 2), ("3 sheets", 2)])
def test_what_cannot_be_poured_books_nothing(stockroom: Any, pair: tuple[str, str], amount: str, code: int) -> None:
    large, small = pair
    assert stockroom(*NOW, "pour", small, amount, "--into", large).code == code
    assert stockroom(*NOW, "pour", small, "--into", small).code == 2
    powder = receive(stockroom, "methyl-cellulose", "100 g", "9")
    assert stockroom(*NOW, "pour", powder, "--into", large).code == 1
    assert stockroom(*NOW, "pour", small, "--into", large, "--day", "2026-11-01").code == 1
    assert stockroom.json(*NOW, "pour", small, "--into", large, "--dry-run")["action"] is None
    assert (held(stockroom, large), held(stockroom, small)) == (("1000", "10.00"), ("500", "2.00"))
