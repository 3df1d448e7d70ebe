"""The main job by command, against sums done by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from conftest import CommandLine


@pytest.fixture
def shelf(stockroom: CommandLine) -> CommandLine:
    """Lime and methyl cellulose received, a jar made and settled, a gel swollen, sheets, a job on one object."""
    stockroom.json("receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--day", "2026-01-02")
    stockroom.json("receive", "methyl-cellulose", "250 g", "--cost", "22.00", "--day", "2026-01-02")
    stockroom.json("receive", "polyester-web-light", "10 sheets", "--cost", "48.00", "--day", "2026-01-02")
    stockroom.json("receive", "blotter", "25 sheets", "--cost", "29.50", "--day", "2026-01-02")
    return stockroom


def later(stockroom: CommandLine, moment: str, *arguments: str, code: int = 0) -> dict[str, object]:
    return stockroom.json("--on", moment, *arguments, code=code)


def job(stockroom: CommandLine) -> str:
    return str(stockroom.json("job", "new", "Sea chart", "--object", "Chart, 40 x 30 cm")["code"])


def test_a_delivery_in_packs_is_a_lot_each_and_the_cost_is_shared_to_the_cent(stockroom: CommandLine) -> None:
    """41.72 over three bottles: 13.91, 13.91 and 13.90 (largest remainder)."""
    came = stockroom.json("receive", "ethanol", "3 x 1 L", "--cost", "41.72", "--lot-number", "E-1")
    assert [lot["cost"] for lot in came["lots"]] == ["13.91", "13.91", "13.90"]
    assert len(set(came["codes"])) == 3
    assert came["code"] == came["codes"][0]
    assert {stockroom.json("lot", code)["maker_lot"] for code in came["codes"]} == {"E-1"}


def test_a_month_alone_as_the_makers_date_means_its_last_day(stockroom: CommandLine) -> None:
    """USP <7> (secondary): a month and year mean the last day of that month."""
    assert stockroom.json("receive", "ethanol", "1 L", "--cost", "0", "--use-by", "2028-02")["use_by"] == "2028-02-29"


def test_a_delivery_without_a_cost_is_asked_about_and_found_stock_is_at_least(stockroom: CommandLine) -> None:
    refused = stockroom.json("receive", "ethanol", "1 L", code=2)
    assert "--found" in refused["error"]["message"]
    found = stockroom.json("receive", "ethanol", "about 300 mL", "--found")
    assert (found["cost"], found["cost_incomplete"]) == (None, True)
    used = stockroom.json("take", found["code"], "50 mL", "--job", job(stockroom))
    assert used["cost"] == "0.00"
    assert stockroom.json("cost", "Sea chart")["cost_incomplete"] is True


def test_a_litre_of_saturated_solution_takes_three_grams_and_their_cost(shelf: CommandLine) -> None:
    """USP, Calcium Hydroxide Topical Solution: 3 g in 1000 mL. 12.50 x 3 / 500 = 0.075, a half: rounded up to 0.08."""
    made = later(shelf, "2026-01-03T10:00", "make", "calcium-hydroxide-saturated", "1 L")
    assert made["drawn"] == [
        {
            "code": "L001W",
            "material": "calcium-hydroxide",
            "name": "Calcium hydroxide",
            "amount": "3",
            "unit": "g",
            "cost": "0.08",
        }
    ]
    assert (made["cost"], made["ready_on"], made["use_by"]) == ("0.08", "2026-01-04T10:00", "2027-01-03")
    assert shelf.json("lot", str(made["code"]))["value"] == "0.08"


def test_jars_share_what_was_drawn_and_the_first_are_full(shelf: CommandLine) -> None:
    made = later(shelf, "2026-01-03", "make", "calcium-hydroxide-saturated", "2.5 L", "--into", "3 x 1 L")
    assert made["jars"] == ["1000", "1000", "500"]
    refused = later(shelf, "2026-01-03", "make", "calcium-hydroxide-saturated", "2.5 L", "--into", "2 x 1 L", code=2)
    assert "holds 2 L" in str(refused["error"])


def prepared(shelf: CommandLine) -> str:
    later(shelf, "2026-01-03T10:00", "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    later(shelf, "2026-01-03T11:00", "make", "methyl-cellulose-gel-5", "500 mL")
    return job(shelf)


def test_a_bath_changed_once_takes_exactly_twice_the_materials(shelf: CommandLine) -> None:
    """By hand: 1 in 4 of 500 mL is 125 mL, 1 in 10 is 50 mL of gel; two fills take 250 and 100 mL."""
    name = prepared(shelf)
    arguments = ("use", "calcium-hydroxide-1-in-4-with-methyl-cellulose", "--job", name, "--qty", "500 mL")
    once = later(shelf, "2026-01-05", *arguments, "--fills", "1", "--dry-run")
    twice = later(shelf, "2026-01-05", *arguments, "--fills", "2")
    assert [(line["material"], line["amount"]) for line in once["drawn"]] == [  # type: ignore[attr-defined]
        ("calcium-hydroxide-solution", "125"),
        ("methyl-cellulose-gel", "50"),
    ]
    assert [line["amount"] for line in twice["drawn"]] == ["250", "100"]  # type: ignore[attr-defined]


def test_a_treatment_costs_its_lots_shares_to_the_cent(shelf: CommandLine) -> None:
    """By hand: web 48.00 x 3312 / 70000 = 2.27, blotters 29.50 x 2 / 25 = 2.36, gel 2.20 x 100 / 500 = 0.44."""
    name = prepared(shelf)
    used = later(shelf, "2026-01-05", "use", "deacidify-and-size", "--job", name, "--qty", "500 mL", "--fills", "2")
    costs = {line["material"]: line["cost"] for line in used["drawn"]}  # type: ignore[attr-defined]
    assert costs == {
        "calcium-hydroxide-solution": "0.02",
        "methyl-cellulose-gel": "0.44",
        "polyester-web-light": "2.27",
        "blotter": "2.36",
    }
    assert shelf.json("cost", name)["total"] == used["cost"] == "5.09"
    assert shelf.json("verify")["problems"] == []


def test_a_dry_run_shows_the_very_plan_and_books_nothing(shelf: CommandLine) -> None:
    name = prepared(shelf)
    arguments = ("use", "deacidify-and-size", "--job", name, "--qty", "500 mL")
    before = shelf.json("shelf")
    plan = later(shelf, "2026-01-05", *arguments, "--dry-run")
    assert plan["action"] is None
    assert shelf.json("shelf") == before
    booked = later(shelf, "2026-01-05", *arguments)
    assert {**booked, "action": None} == plan


def test_everything_that_is_short_is_said_at_once_and_nothing_is_drawn(shelf: CommandLine) -> None:
    name = prepared(shelf)
    before = shelf.json("shelf")
    for extra in ((), ("--dry-run",)):
        arguments = ("use", "deacidify-and-size", "--job", name, "--qty", "8 L", "--fills", "2", *extra)
        refused = later(shelf, "2026-01-05", *arguments, code=1)
        assert [(one["material"], one["needed"], one["available"]) for one in refused["short"]] == [  # type: ignore[attr-defined]
            ("calcium-hydroxide-solution", "4000", "2000"),
            ("methyl-cellulose-gel", "1600", "500"),
        ]
        assert "action" not in refused
    assert shelf.json("shelf") == before


def test_oldest_date_first_over_several_jars(shelf: CommandLine) -> None:
    name = prepared(shelf)
    used = later(shelf, "2026-01-05", "use", "calcium-hydroxide-1-in-2", "--job", name, "--qty", "2.4 L")
    assert [line["amount"] for line in used["drawn"]] == ["1000", "200"]  # type: ignore[attr-defined]


def test_a_jar_that_is_settling_needs_a_reason_that_stays_in_the_record(shelf: CommandLine) -> None:
    name = prepared(shelf)
    arguments = ("use", "calcium-hydroxide-1-in-4", "--job", name, "--qty", "400 mL")
    short = later(shelf, "2026-01-03T12:00", *arguments, code=1)
    assert "not ready until 2026-01-04, 10:00" in short["error"]["message"]  # type: ignore[index]
    jar = next(one["code"] for one in shelf.json("shelf", "calcium")["lots"] if one["amount"] == "1000")
    refused = later(shelf, "2026-01-03T12:00", *arguments, "--from", jar, code=1)
    assert "--why" in refused["error"]["message"]  # type: ignore[index]
    used = later(shelf, "2026-01-03T12:00", *arguments, "--from", jar, "--why", "filtered, clear")
    assert used["drawn"][0]["override"].startswith("not ready")  # type: ignore[index]


def test_what_was_really_taken_sets_strength_and_cost(shelf: CommandLine) -> None:
    """By hand: 30 g where 25 g make 5 % w/v in 500 mL is 6 % w/v; 22.00 x 30 / 250 = 2.64."""
    made = later(shelf, "2026-01-03", "make", "methyl-cellulose-gel-5", "500 mL", "--took", "methyl-cellulose=30 g")
    assert (made["strength"], made["cost"]) == ("6 % w/v", "2.64")


def test_taking_lending_and_bringing_back(stockroom: CommandLine) -> None:
    """By hand: 13.90 for a litre; 100 mL are 1.39, of which 40 mL bring 0.56 back (0.556)."""
    code = stockroom.json("receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    name = job(stockroom)
    assert stockroom.json("take", code, "100 mL", "--job", name)["cost"] == "1.39"
    assert stockroom.json("bring-back", code, "40 mL", "--job", name)["value"] == "0.56"
    refused = stockroom.json("bring-back", code, "61 mL", "--job", name, code=1)
    assert "60 mL" in refused["error"]["message"]
    assert stockroom.json("bring-back", code, "60 mL", "--job", name)["value"] == "0.83"
    assert stockroom.json("cost", name)["total"] == "0.00"
    stockroom.json("take", code, "50 mL", "--why", "lent", "--to", "the framer", "--back", "tomorrow")
    assert "loan" in {item["kind"] for item in stockroom.json("due")["items"]}
    stockroom.json("bring-back", code, "50 mL")
    assert "loan" not in {item["kind"] for item in stockroom.json("due")["items"]}


def test_a_draw_beyond_the_books_can_be_counted_first(stockroom: CommandLine) -> None:
    code = stockroom.json("receive", "ethanol", "100 mL", "--cost", "1.39")["code"]
    refused = stockroom.json("take", code, "120 mL", "--why", "cleaning", code=1)
    assert refused["short"] == [{"material": "ethanol", "needed": "120", "available": "100", "unit": "mL"}]
    taken = stockroom.json("take", code, "120 mL", "--why", "cleaning", "--count-first")
    assert (taken["cost"], taken["left"], taken["ended"]) == ("1.39", "0", True)
    assert stockroom.json("verify")["problems"] == []


def test_the_unused_rest_of_a_bath_takes_its_share_back_from_the_job(shelf: CommandLine) -> None:
    name = prepared(shelf)
    used = later(
        shelf, "2026-01-05", "use", "calcium-hydroxide-1-in-4-with-methyl-cellulose", "--job", name, "--qty", "500 mL"
    )
    kept = later(shelf, "2026-01-05", "bring-back", str(used["action"]), "250 mL")
    assert kept["kind"] == "remainder"
    total = Decimal(str(later(shelf, "2026-01-05", "cost", name)["total"]))
    assert total + Decimal(str(kept["value"])) == Decimal(str(used["cost"]))
    assert abs(total - Decimal(str(kept["value"]))) <= Decimal("0.01")
    spent = later(shelf, "2026-01-05", "bring-back", str(used["action"]), "250 mL", "--used")
    assert (spent["kind"], spent["value"]) == ("used bath", "0.00")
    assert "discard-used-bath" in {item["kind"] for item in later(shelf, "2026-01-05", "due")["items"]}  # type: ignore[attr-defined]
    assert shelf.json("verify")["problems"] == []


def test_sent_back_goods_lower_what_was_bought_and_the_rest_is_waste(stockroom: CommandLine) -> None:
    code = stockroom.json("receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    stockroom.json("return", code, "1 L", "--credit", "10.00", "--why", "leaking cap")
    assert stockroom.json("verify")["problems"] == []
    assert stockroom.json("lot", code)["state"] == "ended"


def test_a_lot_is_found_by_its_code_in_lower_case_and_with_spaces(stockroom: CommandLine) -> None:
    code = stockroom.json("receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    spaced = f"{code[:2].lower()} {code[2:].lower()}"
    assert stockroom.json("scan", spaced)["code"] == code
    wrong = code[:-1] + ("A" if code[-1] != "A" else "C")
    assert "one character is wrong" in stockroom.json("scan", wrong, code=2)["error"]["message"]


def test_moving_a_place_moves_all_of_it(stockroom: CommandLine) -> None:
    codes = stockroom.json("receive", "ethanol", "2 x 1 L", "--cost", "2", "--place", "solvent")["codes"]
    moved = stockroom.json("move", "solvent cupboard", "--to", "refrigerator")
    assert moved["codes"] == codes
    assert {one["place"] for one in stockroom.json("shelf")["lots"]} == {"refrigerator"}


def test_emptied_jars_answer_that_their_label_comes_off(stockroom: CommandLine) -> None:
    code = stockroom.json("receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    stockroom.json("discard", code, "--why", "cracked bottle")
    assert "Take this label off" in stockroom("scan", code).out
    assert stockroom("label", code).code == 1


def test_a_volume_of_powder_is_never_taken_for_a_mass(stockroom: CommandLine) -> None:
    """The density on a powder's page is that of its particles (2.211 g/mL); poured, it is 0.45 to 0.65 g/mL."""
    refused = stockroom.json("receive", "calcium-hydroxide", "1 L", "--cost", "1", code=2)
    assert "Weigh it" in refused["error"]["message"]
    assert stockroom.json("receive", "ethanol", "807 g", "--cost", "1")["lots"][0]["unit"] == "mL"
