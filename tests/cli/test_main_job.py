"""The main job by command, against sums done by hand."""

from __future__ import annotations

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


def prepared(shelf: CommandLine) -> str:
    later(shelf, "2026-01-03T10:00", "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    later(shelf, "2026-01-03T11:00", "make", "methyl-cellulose-gel-5", "500 mL")
    return job(shelf)


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


def test_an_amount_below_nothing_is_told_as_that_and_not_as_an_option(stockroom: CommandLine) -> None:
    refused = stockroom.json("receive", "ethanol", "-5 mL", "--cost", "1", code=2)
    assert refused["error"]["message"] == "'-5…' is less than nothing. Write amounts and prices without a minus."
