"""With what the studio measures a recipe's lines, from the command line."""

from __future__ import annotations

from typing import Any

import pytest

NOW = ("--on", "2026-11-28T10:00")
POWDER_BATH = "calcium-hydroxide-1-in-4-with-methyl-cellulose-powder"


def lines(document: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {line["material"]: line for line in document["measure_with"]}


@pytest.fixture
def plan(stockroom: Any) -> Any:
    """Call it for the plan of half a litre of the bath with 0.5 % methyl cellulose: 2.5 g of powder."""
    stockroom.json(*NOW, "receive", "calcium-hydroxide-solution", "2 L", "--cost", "1")
    stockroom.json(*NOW, "receive", "methyl-cellulose", "100 g", "--cost", "10")
    job = stockroom.json(*NOW, "job", "new", "Charts")["code"]
    return lambda *more: stockroom.json(*NOW, "use", POWDER_BATH, "--job", job, "--qty", "500 mL", "--dry-run", *more)


def test_a_powder_is_offered_by_balance_and_by_spoons_with_the_strength_they_give(plan: Any) -> None:
    """Bulk density 0.25 to 0.7 g/mL, from a producer's data sheet: spoonfuls of 6.25 mL hold 1.6 to 4.4 g."""
    line = lines(plan())["methyl-cellulose"]
    balance, spoons = line["ways"]
    assert (line["amount"], line["unit"], line["tolerance_percent"], line["tolerance_from"]) == (
        "2.5",
        "g",
        5,
        "judgement",
    )
    assert (balance["with"], balance["error"], balance["fine_enough"]) == (["0.01 g balance"], 0.01, True)
    assert spoons["with"] == ["5 mL spoon", "1.25 mL spoon"]
    assert (spoons["low"], spoons["high"], spoons["fine_enough"]) == (1.6, 4.4, False)
    assert spoons["strength"] == {"low": 0.312, "high": 0.875, "unit": "% w/v"}


def test_the_studios_own_weighed_spoon_takes_the_place_of_the_range(stockroom: Any, plan: Any) -> None:
    kept = stockroom.json(*NOW, "measure", "weigh", "5 mL", "methyl-cellulose", "2.4 g", "2.6 g", "2.5 g")
    assert kept == {
        "name": "5 mL spoon", "material": "methyl-cellulose", "masses": ["2.4", "2.6", "2.5"], "unit": "g",
        "day": "2026-11-28", "by": "AB",
    }  # fmt: skip
    spoons = lines(plan())["methyl-cellulose"]["ways"][1]
    assert (spoons["kind"], spoons["with"], spoons["low"], spoons["high"]) == (
        "weighed spoons", ["5 mL spoon"], 2.4, 2.6,
    )  # fmt: skip
    assert spoons["fine_enough"] is True
    stockroom.json(*NOW, "measure", "weigh", "5 mL", "methyl-cellulose", "2.1 g")
    shown = stockroom.json(*NOW, "measure", "show", "5 mL spoon")
    assert [one["masses"] for one in shown["weighed"]] == [["2.1"]]
    assert "holds 2.1 g of Methyl cellulose, weighed on 2026-11-28 by AB" in stockroom("measure", "show", "5 mL").out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("0.01 g balance", "methyl-cellulose", "2 g"), "is not a spoon"),
        (("5 mL", "ethanol", "2 g"), "measured by volume"),
        (("5 mL", "methyl-cellulose", "2 mL"), "mass"),
        (("5 mL", "methyl-cellulose", "0 g"), ""),
        (("5 mL", "methyl-cellulose", "1 g", "3 g"), "no one spoonful"),
    ],
)
def test_what_no_spoonful_can_weigh_is_refused(stockroom: Any, words: tuple[str, ...], told: str) -> None:
    failed = stockroom(*NOW, "measure", "weigh", *words)
    assert failed.code == 2
    assert told in failed.err
    assert stockroom.json("measure", "show", "5 mL spoon")["weighed"] == []


def test_a_liquid_is_offered_by_vessel_with_its_reading_error(plan: Any) -> None:
    bath = lines(plan())
    stock = bath["calcium-hydroxide-solution"]
    assert stock["ways"][0]["with"] == ["500 mL cylinder"]
    assert (stock["amount"], stock["ways"][0]["error"], stock["ways"][0]["error_percent"]) == ("125", 2.5, 2.0)
    water = bath["deionised-water"]
    assert (water["made_up_to"], water["amount"]) == (True, "500")


def test_a_line_that_nothing_here_measures_closely_enough_is_warned_of(stockroom: Any, plan: Any) -> None:
    for cylinder in ("10 mL cylinder", "100 mL cylinder", "500 mL cylinder"):
        stockroom.json(*NOW, "measure", "retire", cylinder)
    warning = lines(plan())["calcium-hydroxide-solution"]["warning"]
    assert warning is not None
    assert "8 % off; 5 % is usual (a judgement)" in warning
    for beaker in ("100 mL beaker", "500 mL beaker", "1 L beaker"):
        stockroom.json(*NOW, "measure", "retire", beaker)
    assert "nothing entered here measures it" in lines(plan())["calcium-hydroxide-solution"]["warning"]


def test_a_recipe_says_how_far_off_a_line_may_be_and_keeps_it_by_version(
    stockroom: Any, tmp_path: Any, plan: Any
) -> None:
    written = stockroom("recipe", "export", POWDER_BATH).out
    file = tmp_path / "bath.toml"
    file.write_text(written.replace('amount = "0.5 % w/v"', 'amount = "0.5 % w/v"\ntolerance = "0.2 %"'), "utf-8")
    stockroom.json(*NOW, "recipe", "edit", POWDER_BATH, "--from", str(file))
    line = lines(plan())["methyl-cellulose"]
    assert (line["tolerance_percent"], line["tolerance_from"]) == (0.2, "recipe")
    assert "0.2 % is what the recipe allows" in line["warning"]
    assert "within 0.2 %" in stockroom("recipe", "show", POWDER_BATH).out
    assert "within" not in stockroom("recipe", "show", POWDER_BATH, "--version", "1").out
    assert stockroom("recipe", "export", POWDER_BATH).out == file.read_text("utf-8")


@pytest.mark.parametrize("tolerance", ["0 %", "51 %", "5", "-1 %", "much", "1/3 %"])
def test_a_tolerance_that_cannot_be_meant_is_refused(stockroom: Any, tmp_path: Any, tolerance: str) -> None:
    file = tmp_path / "bath.toml"
    written = stockroom("recipe", "export", POWDER_BATH).out
    file.write_text(
        written.replace('amount = "0.5 % w/v"', f'amount = "0.5 % w/v"\ntolerance = "{tolerance}"'), "utf-8"
    )
    assert stockroom(*NOW, "recipe", "edit", POWDER_BATH, "--from", str(file)).code == 2


def test_what_the_hand_took_already_needs_no_measure(plan: Any) -> None:
    assert "methyl-cellulose" not in lines(plan("--took", "methyl-cellulose=2.53 g"))


def test_a_recipe_shows_it_for_its_usual_amount(stockroom: Any) -> None:
    shown = lines(stockroom.json("recipe", "show", "calcium-hydroxide-saturated"))
    assert shown["calcium-hydroxide"]["tolerance_percent"] == 30
    assert (
        "3 g of Calcium hydroxide: 0.01 g balance, give or take 0.01 g (0.3 %)"
        in stockroom("recipe", "show", "calcium-hydroxide-saturated").out
    )
    assert stockroom.json("recipe", "show", "press-between-webs")["measure_with"] == []
