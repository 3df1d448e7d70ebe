"""What becomes of a solution's strength when water is found evaporated."""

from __future__ import annotations

import json
from typing import Any

import pytest

from stockroom.store.history import find_action

ON = ("--on", "2026-03-05T12:00")
CITRATE = "ammonium-citrate-2"


def jar(stockroom: Any, recipe: str, quantity: str) -> str:
    code: str = stockroom.json("--on", "2026-03-04T12:00", "make", recipe, quantity)["code"]
    return code


@pytest.fixture
def citrate(stockroom: Any) -> str:
    """Half a litre of 2 % solution, whose recipe says: by mass balance."""
    stockroom.json("--on", "2026-03-01", "receive", "ammonium-citrate", "500 g", "--cost", "10.00")
    return jar(stockroom, CITRATE, "500 mL")


def count(stockroom: Any, code: str, *more: str) -> Any:
    return stockroom.json(*ON, "count", code, *more, "--evaporated")


@pytest.mark.parametrize(
    ("how", "strength"),
    [
        ("measured", "2.4 to 2.6 % w/v, likeliest 2.5 % w/v"),
        ("weighed", "2.48 to 2.53 % w/v, likeliest 2.50 % w/v"),
        ("by eye", "2.1 to 3.1 % w/v, likeliest 2.5 % w/v"),
    ],
)
def test_the_strength_follows_by_mass_balance_with_its_range(
    stockroom: Any, store: Any, citrate: str, how: str, strength: str
) -> None:
    """By hand: 2 % of 500 mL is 10 g; in 400 mL 2.5 %, in 380 to 420 mL 2.63 to 2.38 %. Errors: common practice."""
    counted = count(stockroom, citrate, "400 mL", "--method", how)
    assert counted["strength"] == f"{strength} by mass balance, 2026-03-05"
    kept = json.loads(find_action(store, counted["action"]).details)["mass_balance"]
    assert (kept["was"], kept["books_said"], kept["best"]) == ("2 % w/v", 500_000, 2.5)


def test_it_never_grew_weaker_by_evaporation(stockroom: Any, citrate: str) -> None:
    """490 mL by eye may be 588: but water only left, so at least 2 %."""
    assert count(stockroom, citrate, "490 mL", "--method", "by eye")["strength"].startswith("2.0 to 2.6 %")


def test_a_second_time_it_is_not_known_any_more(stockroom: Any, citrate: str) -> None:
    """A range is no figure to reckon on from."""
    count(stockroom, citrate, "400 mL")
    assert "not known since 2026-03-05" in count(stockroom, citrate, "300 mL")["strength"]


def test_undoing_the_count_brings_the_strength_back(stockroom: Any, citrate: str) -> None:
    counted = count(stockroom, citrate, "400 mL")
    stockroom.json(*ON, "undo", counted["action"], "--why", "mistyped")
    assert stockroom.json(*ON, "lot", citrate)["strength"] == "2 % w/v"
    assert stockroom.json("verify")["problems"] == []


def test_a_recipe_that_does_not_say_so_leaves_the_strength_not_known(stockroom: Any) -> None:
    stockroom.json("--on", "2026-03-01", "receive", "magnesium-carbonate", "500 g", "--cost", "10.00")
    code = jar(stockroom, "magnesium-bicarbonate", "500 mL")
    strength = stockroom.json(*ON, "lot", code)["strength"]
    assert count(stockroom, code, "400 mL")["strength"] == f"{strength}, not known since 2026-03-05"


def test_alcohol_leaves_too_so_the_loss_is_waste_and_the_strength_unknown(stockroom: Any) -> None:
    """Ethanol is a solvent: what left was not water alone (common practice, no source)."""
    stockroom.json("--on", "2026-03-01", "receive", "ethanol", "1 L", "--cost", "10.00")
    code = jar(stockroom, "alcohol-water-50", "500 mL")
    counted = count(stockroom, code, "400 mL")
    assert "not known since" in counted["strength"]
    value = stockroom.json(*ON, "lot", code)["value"]
    assert float(value) < 10
    assert float(stockroom.json("verify")["sums"]["wasted"]) > 0


def test_a_saturated_jar_stays_saturated(stockroom: Any) -> None:
    stockroom.json("--on", "2026-03-01", "receive", "calcium-hydroxide", "500 g", "--cost", "10.00")
    code = jar(stockroom, "calcium-hydroxide-saturated", "1 L")
    before = stockroom.json(*ON, "lot", code)
    counted = count(stockroom, code, "900 mL")
    assert counted["strength"] == before["strength"]
    after = stockroom.json(*ON, "lot", code)
    assert (after["amount"], after["value"]) == ("900", before["value"])
