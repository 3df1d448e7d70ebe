"""Making up stocks from the command line: what is drawn, what it costs, and what the jar is told to be."""

from __future__ import annotations

from typing import Any

import pytest

NOW = ("--on", "2026-11-25T14:10")
SATURATED = "calcium-hydroxide-saturated"
GEL = "methyl-cellulose-gel-5"


def receive(stockroom: Any, material: str, quantity: str, *more: str) -> str:
    cost = () if "--found" in more else ("--cost", "10.00") if "--cost" not in more else ()
    code: str = stockroom.json(*NOW, "receive", material, quantity, *cost, *more)["code"]
    return code


def held(stockroom: Any, code: str) -> tuple[str, str]:
    lot = stockroom.json(*NOW, "lot", code)
    return lot["amount"], lot["value"]


def balanced(stockroom: Any) -> bool:
    return stockroom.json("verify")["problems"] == []


def test_a_litre_of_saturated_stock_takes_three_grams_and_their_cost(stockroom: Any) -> None:
    """By hand: 3 g of 500 g for 12.50 is 1250 x 3 / 500 = 7.5 cents, so 0.08; 497 g and 12.42 stay.

    The dose of 3 g a litre is the pharmacopoeial one of the starter recipe.
    """
    powder = receive(stockroom, "calcium-hydroxide", "500 g", "--cost", "12.50")
    made = stockroom.json(*NOW, "make", SATURATED, "1 L")
    assert [(one["code"], one["amount"], one["unit"], one["cost"]) for one in made["drawn"]] == [
        (powder, "3", "g", "0.08")
    ]
    assert (made["cost"], made["currency"], made["cost_incomplete"]) == ("0.08", "EUR", False)
    assert made["code"] == made["codes"][0]
    assert held(stockroom, powder) == ("497", "12.42")
    assert held(stockroom, made["code"]) == ("1000", "0.08")
    assert balanced(stockroom)


def test_the_jar_has_its_dates_from_the_minute_it_was_made(stockroom: Any) -> None:
    """Settling takes 24 hours, kept to the minute; 12 months and 30 days are told in days."""
    receive(stockroom, "calcium-hydroxide", "500 g")
    made = stockroom.json(*NOW, "make", SATURATED, "1 L")
    assert made["ready_on"] == "2026-11-26T14:10"
    assert made["use_by"] == "2027-11-25"
    assert made["use_by_rule"] == "keeps: 12 months"
    jar = stockroom.json("--on", "2026-11-26T14:09", "lot", made["code"])
    assert jar["fit"] is False
    assert stockroom.json("--on", "2026-11-26T14:10", "lot", made["code"])["fit"] is True


def test_several_jars_share_the_cost_to_the_cent(stockroom: Any) -> None:
    """By hand: 9 g of 90 g for 10.00 cost 1.00; over three jars 0.34, 0.33 and 0.33."""
    receive(stockroom, "calcium-hydroxide", "90 g")
    made = stockroom.json(*NOW, "make", SATURATED, "3 L", "--into", "3 x 1 L")
    assert made["jars"] == ["1000"] * 3
    assert made["cost"] == "1.00"
    assert sorted(held(stockroom, code)[1] for code in made["codes"]) == ["0.33", "0.33", "0.34"]
    assert balanced(stockroom)


def test_the_last_jar_takes_what_is_left_and_too_few_jars_are_refused(stockroom: Any) -> None:
    receive(stockroom, "calcium-hydroxide", "500 g")
    made = stockroom.json(*NOW, "make", SATURATED, "1.5 L", "--into", "2 x 1 L")
    assert made["jars"] == ["1000", "500"]
    assert stockroom(*NOW, "make", SATURATED, "2.5 L", "--into", "2 x 1 L").code == 2
    one_too_many = stockroom(*NOW, "make", SATURATED, "2 L", "--into", "3 x 1 L")
    assert one_too_many.code == 2
    assert "2 L fills 2 of the 3 jars" in one_too_many.err


def test_half_a_litre_of_gel_at_5_percent_takes_25_grams(stockroom: Any) -> None:
    """% w/v is grams in 100 mL of the finished solution (USP, general notices): 5 x 500 / 100 = 25 g."""
    receive(stockroom, "methyl-cellulose", "100 g", "--cost", "15.00")
    made = stockroom.json(*NOW, "make", GEL, "500 mL")
    assert (made["drawn"][0]["amount"], made["drawn"][0]["cost"]) == ("25", "3.75")
    assert made["strength"] == "5 % w/v"


def test_what_was_really_weighed_is_drawn_and_changes_the_strength(stockroom: Any) -> None:
    """By hand: 25.3 g in 500 mL is 5.06 %; 15.00 x 25.3 / 100 = 3.795, so 3.80."""
    powder = receive(stockroom, "methyl-cellulose", "100 g", "--cost", "15.00")
    made = stockroom.json(*NOW, "make", GEL, "500 mL", "--took", "methyl-cellulose=25.3 g")
    assert (made["drawn"][0]["amount"], made["drawn"][0]["cost"]) == ("25.3", "3.80")
    assert made["strength"] == "5.06 % w/v"
    assert stockroom.json(*NOW, "lot", made["code"])["strength"] == "5.06 % w/v"
    assert held(stockroom, powder) == ("74.7", "11.20")


def test_another_yield_needs_a_reason_and_changes_strength_and_quantity_but_not_cost(stockroom: Any) -> None:
    """By hand: 25 g in 400 mL is 6.25 % w/v."""
    receive(stockroom, "methyl-cellulose", "100 g", "--cost", "15.00")
    assert stockroom(*NOW, "make", GEL, "500 mL", "--yield", "400 mL").code == 2
    made = stockroom.json(*NOW, "make", GEL, "500 mL", "--yield", "400 mL", "--why", "boiled down")
    assert (made["amount"], made["cost"], made["strength"]) == ("400", "3.75", "6.25 % w/v")
    assert made["why"] == "boiled down"
    assert held(stockroom, made["code"]) == ("400", "3.75")


@pytest.mark.parametrize("took", ["2.53 g", "=2 g", "methyl-cellulose=", "ethanol=1 mL", "methyl-cellulose=5 mm"])
def test_a_taking_that_cannot_be_read_books_nothing(stockroom: Any, took: str) -> None:
    powder = receive(stockroom, "methyl-cellulose", "100 g")
    assert stockroom(*NOW, "make", GEL, "500 mL", "--took", took).code == 2
    assert held(stockroom, powder) == ("100", "10.00")


def test_a_material_is_told_once(stockroom: Any) -> None:
    receive(stockroom, "methyl-cellulose", "100 g")
    twice = ("--took", "methyl-cellulose=20 g", "--took", "methyl cellulose=5 g")
    assert stockroom(*NOW, "make", GEL, "500 mL", *twice).code == 2


def test_the_oldest_date_goes_first_and_a_second_lot_makes_up_the_rest(stockroom: Any) -> None:
    """By hand: 25 g are 10 g of the lot that ends first (all its 3.00) and 15 g of the other (6.00 x 15 / 60)."""
    later = receive(stockroom, "methyl-cellulose", "60 g", "--cost", "6.00", "--use-by", "2029-06")
    sooner = receive(stockroom, "methyl-cellulose", "10 g", "--cost", "3.00", "--use-by", "2027-01")
    made = stockroom.json(*NOW, "make", GEL, "500 mL")
    assert [(one["code"], one["amount"], one["cost"]) for one in made["drawn"]] == [
        (sooner, "10", "3.00"),
        (later, "15", "1.50"),
    ]
    assert made["cost"] == "4.50"


def test_the_hand_chooses_the_lot_without_being_asked_why(stockroom: Any) -> None:
    receive(stockroom, "methyl-cellulose", "60 g", "--use-by", "2027-01")
    later = receive(stockroom, "methyl-cellulose", "60 g", "--use-by", "2029-06")
    made = stockroom.json(*NOW, "make", GEL, "500 mL", "--from", later)
    assert [one["code"] for one in made["drawn"]] == [later]
    assert "override" not in made["drawn"][0]


def test_a_lot_past_its_date_is_passed_over_and_taking_it_needs_a_reason(stockroom: Any) -> None:
    old = receive(stockroom, "methyl-cellulose", "60 g", "--use-by", "2026-11-24")
    short = stockroom.json(*NOW, "make", GEL, "500 mL", code=1)
    assert short["short"][0]["available"] == "0"
    assert old in short["error"]["message"]
    assert stockroom.json(*NOW, "make", GEL, "500 mL", "--from", old, code=1)["error"]["kind"] == "refused"
    made = stockroom.json(*NOW, "make", GEL, "500 mL", "--from", old, "--why", "for a trial sheet")
    assert "past use-by 2026-11-24" in made["drawn"][0]["override"]
    assert made["why"] == "for a trial sheet"
    assert stockroom.json(*NOW, "lot", made["code"])["history"][0]["reason"] == "for a trial sheet"


def test_a_lot_may_be_used_through_the_end_of_its_last_day(stockroom: Any) -> None:
    last = receive(stockroom, "methyl-cellulose", "60 g", "--use-by", "2026-11-25")
    made = stockroom.json("--on", "2026-11-25T23:59", "make", GEL, "500 mL")
    assert made["drawn"][0]["code"] == last


def test_a_short_making_says_how_much_is_missing_and_draws_nothing(stockroom: Any) -> None:
    powder = receive(stockroom, "methyl-cellulose", "20 g")
    for dry in ((), ("--dry-run",)):
        short = stockroom.json(*NOW, "make", GEL, "500 mL", *dry, code=1)
        assert short["short"] == [{"material": "methyl-cellulose", "needed": "25", "available": "20", "unit": "g"}]
        assert short.get("action") is None
        assert (short["code"], short["codes"]) == (None, [])
        assert short["error"]["kind"] == "short"
    assert held(stockroom, powder) == ("20", "10.00")
    assert len(stockroom.json(*NOW, "shelf")["lots"]) == 1


def test_counting_first_books_what_the_books_did_not_hold_and_draws_it(stockroom: Any) -> None:
    powder = receive(stockroom, "methyl-cellulose", "20 g")
    unnamed = stockroom.json(*NOW, "make", GEL, "500 mL", "--count-first", code=1)
    assert "--from" in unnamed["error"]["message"]
    made = stockroom.json(*NOW, "make", GEL, "500 mL", "--from", powder, "--count-first")
    assert (made["drawn"][0]["amount"], made["cost"]) == ("25", "10.00")
    assert balanced(stockroom)


def test_a_dry_run_equals_the_booking_and_books_nothing(stockroom: Any) -> None:
    powder = receive(stockroom, "calcium-hydroxide", "500 g", "--cost", "12.50")
    asked = ("make", SATURATED, "2 L", "--into", "2 x 1 L")
    plan = stockroom.json(*NOW, *asked, "--dry-run")
    assert (plan["action"], plan["code"], plan["codes"]) == (None, None, [None, None])
    assert held(stockroom, powder) == ("500", "12.50")
    assert stockroom.json(*NOW, "lot", powder)["opened_on"] is None
    booked = stockroom.json(*NOW, *asked)
    given = {"action", "code", "codes"}
    assert {key: value for key, value in plan.items() if key not in given} == {
        key: value for key, value in booked.items() if key not in given
    }


def test_drawing_from_a_closed_pack_opens_it(stockroom: Any) -> None:
    powder = receive(stockroom, "calcium-hydroxide", "500 g")
    assert stockroom.json(*NOW, "make", SATURATED, "1 L")["opened"] == [powder]
    assert stockroom.json(*NOW, "lot", powder)["opened_on"] == "2026-11-25"
    assert stockroom.json(*NOW, "make", SATURATED, "1 L")["opened"] == []


def test_what_is_made_from_found_stock_costs_at_least_so_much(stockroom: Any) -> None:
    receive(stockroom, "calcium-hydroxide", "500 g", "--found")
    made = stockroom.json(*NOW, "make", SATURATED, "1 L")
    assert (made["cost"], made["cost_incomplete"]) == ("0.00", True)
    assert "at least" in stockroom(*NOW, "make", SATURATED, "1 L").out


def test_cautions_come_before_numbered_steps_and_both_before_what_was_drawn(stockroom: Any) -> None:
    powder = receive(stockroom, "calcium-hydroxide", "500 g", "--cost", "12.50")
    ran = stockroom(*NOW, "make", SATURATED, "1 L")
    lines = ran.out.splitlines()
    cautions = [index for index, line in enumerate(lines) if line.startswith("  ! ")]
    steps = [index for index, line in enumerate(lines) if line.strip()[:2] in ("1.", "2.", "3.", "4.", "5.")]
    drawn = lines.index("Drawn:")
    assert cautions
    assert max(cautions) < min(steps) < max(steps) < drawn
    assert "Eye protection" in lines[cautions[0]]
    assert f"3 g of Calcium hydroxide ({powder})" in lines[steps[0]]
    assert "(wait 24 h)" in ran.out
    assert "Use by 2027-11-25 (keeps: 12 months)." in ran.out
    assert "Ready 2026-11-26, 14:10" in ran.out
    assert "stockroom label L" in ran.out


def test_a_bath_is_not_made_into_a_jar(stockroom: Any) -> None:
    failed = stockroom(*NOW, "make", "calcium-hydroxide-1-in-4", "1 L")
    assert failed.code == 2
    assert "stockroom use calcium-hydroxide-1-in-4" in failed.err


@pytest.mark.parametrize("amount", ["1:4", "500", "0 L", "500 g", "1,500 mL", "=1+1"])
def test_an_amount_that_cannot_be_read_makes_nothing(stockroom: Any, amount: str) -> None:
    receive(stockroom, "calcium-hydroxide", "500 g")
    assert stockroom(*NOW, "make", SATURATED, amount).code == 2
    assert len(stockroom.json(*NOW, "shelf")["lots"]) == 1


def test_a_jar_made_late_counts_from_the_hour_it_was_made(stockroom: Any) -> None:
    receive(stockroom, "calcium-hydroxide", "500 g", "--day", "2026-11-01")
    made = stockroom.json(*NOW, "make", SATURATED, "1 L", "--day", "2026-11-20T09:30")
    assert made["ready_on"] == "2026-11-21T09:30"
    assert made["use_by"] == "2027-11-20"


def test_nothing_is_made_from_what_had_not_come_yet(stockroom: Any) -> None:
    receive(stockroom, "calcium-hydroxide", "500 g", "--day", "2026-11-21")
    short = stockroom.json(*NOW, "make", SATURATED, "1 L", "--day", "2026-11-20", code=1)
    assert short["short"][0]["available"] == "0"
    assert "2026-11-20" in short["error"]["message"]


def test_a_stand_in_is_taken_only_when_it_is_named(stockroom: Any) -> None:
    denatured = receive(stockroom, "denatured-alcohol", "1 L")
    short = stockroom.json(*NOW, "make", "alcohol-water-50", "500 mL", code=1)
    assert f"--from {denatured}" in short["error"]["message"]
    made = stockroom.json(*NOW, "make", "alcohol-water-50", "500 mL", "--from", denatured)
    assert made["drawn"][0]["material"] == "denatured-alcohol"
    assert made["drawn"][0]["stands_in_for"].startswith("Ethanol")


def test_a_weaker_bottle_gives_more(stockroom: Any) -> None:
    """% v/v counts the alcohol itself (USP, general notices): 250 mL of it are 250 / 0.8 = 312.5 mL at 80 %."""
    code = receive(stockroom, "ethanol", "1 L", "--purity", "80 % v/v")
    made = stockroom.json(*NOW, "make", "alcohol-water-50", "500 mL")
    assert made["drawn"][0]["amount"] == "312.5"
    assert any(f"312.5 mL of Ethanol 96 % ({code})" in step["words"] for step in made["steps"])


def test_what_a_hand_took_is_drawn_as_told_and_the_strength_follows_the_bottle(stockroom: Any) -> None:
    """312.5 mL at 80 % v/v hold 250 mL of alcohol, half of 500 mL: by hand."""
    receive(stockroom, "ethanol", "1 L", "--purity", "80 % v/v")
    made = stockroom.json(*NOW, "make", "alcohol-water-50", "500 mL", "--took", "ethanol=312.5 mL")
    assert (made["drawn"][0]["amount"], made["strength"]) == ("312.5", "50 % v/v")
