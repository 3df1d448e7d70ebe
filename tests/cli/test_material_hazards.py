"""Hazards of the studio's own beside what is suggested, and the label of what is left of a bath."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

NOW = ("--on", "2026-11-25T14:10")
SOLUTION = "calcium-hydroxide-solution"
LOWER = ("--signal-word", "Warning", "--hazard", "H319 Causes serious eye irritation", "--pictogram", "GHS07")


def edit(stockroom: Any, key: str, *more: str, code: int = 0) -> Any:
    return stockroom.json("material", "edit", key, *more, code=code)


@pytest.mark.parametrize(
    "change",
    [
        ("--hazard", "H319 Causes serious eye irritation"),
        ("--signal-word", "Warning"),
        ("--pictogram", "GHS07"),
        ("--precaution", "P280 Wear eye protection"),
        ("--hazard-ground", "sheet"),
    ],
)
def test_hazards_are_not_changed_without_a_reason(stockroom: Any, change: tuple[str, str]) -> None:
    before = stockroom.json("material", "show", SOLUTION)
    refused = edit(stockroom, SOLUTION, *change, code=2)
    assert "--why" in refused["error"]["message"]
    assert edit(stockroom, SOLUTION, *change, "--why", " ", code=2)
    assert stockroom.json("material", "show", SOLUTION) == before


def test_lowering_is_shown_as_the_studios_own_with_its_reason_beside_the_suggestion(stockroom: Any) -> None:
    """The suggestion: CLP Annex I, 3.2.3.1.2 and 3.3.3.1.2, held at the dry substance's own classes."""
    edit(stockroom, SOLUTION, *LOWER, "--why", "measured: low alkaline reserve")
    shown = stockroom.json("material", "show", SOLUTION)
    assert shown["hazards"] == ["H319 Causes serious eye irritation"]
    assert (shown["hazards_differ"], set(shown["hazards_left_out"])) == (
        True,
        {"H318", "H315", "the word Danger", "GHS05"},
    )
    assert shown["hazards_because"].startswith("measured: low alkaline reserve (AB, ")
    suggested = shown["hazards_suggested"]
    assert {words.split()[0] for words in suggested["statements"]} == {"H318", "H315"}
    assert "licensed practice come first" in suggested["ground"]
    said = stockroom("material", "show", SOLUTION).out
    assert "the studio's own, because measured: low alkaline reserve (AB, " in said
    assert "the studio's own, because measured" in stockroom("recipe", "show", "calcium-hydroxide-saturated").out
    was = {one["field"]: (one["was"], one["by"], one["why"]) for one in shown["edits"]}
    assert was["signal_word"] == ("Danger", "AB", "measured: low alkaline reserve")


def test_raising_leaves_nothing_out(stockroom: Any) -> None:
    """H314 covers H318 and H315 (CLP Article 27)."""
    raised = ("--hazard", "H314 Causes severe skin burns and eye damage", "--why", "rule read strictly")
    edited = edit(stockroom, SOLUTION, *raised)
    assert (edited["hazards_differ"], edited["hazards_left_out"]) == (True, [])


def test_going_back_to_the_suggestion_is_the_studios_own_no_more(stockroom: Any) -> None:
    before = stockroom.json("material", "show", SOLUTION)
    edit(stockroom, SOLUTION, *LOWER, "--why", "test")
    again = [part for words in before["hazards"] for part in ("--hazard", words)]
    edit(stockroom, SOLUTION, *again, "--signal-word", "Danger", "--pictogram", "GHS05", "--why", "put back")
    shown = stockroom.json("material", "show", SOLUTION)
    assert (shown["hazards_differ"], shown["hazards_because"]) == (False, None)


def test_a_bought_reagent_stands_beside_the_programs_own_list(stockroom: Any) -> None:
    edited = edit(stockroom, "acetone", "--hazard", "H225 Highly flammable liquid and vapour", "--why", "maker's sheet")
    assert set(edited["hazards_left_out"]) == {"H319", "H336", "EUH066"}
    assert "licensed practice come first" in edited["hazards_suggested"]["ground"]


def test_what_the_studio_added_itself_has_no_suggestion(stockroom: Any) -> None:
    key = stockroom.json("material", "new", "Bone glue", "--measured-by", "mass")["key"]
    shown = stockroom.json("material", "show", key)
    assert (shown["hazards_suggested"], shown["hazards_differ"]) == (None, False)


def bath(stockroom: Any, folder: Path, one_in: int) -> str:
    key = f"lime-1-in-{one_in}"
    file = folder / f"{key}.toml"
    file.write_text(
        f'[recipe]\nkey = "{key}"\nname = "Bath 1 in {one_in}"\nkind = "bath"\nbatch = "1 L"\n'
        f'[[line]]\nmaterial = "{SOLUTION}"\namount = "1 in {one_in}"\n'
        '[[line]]\nmaterial = "deionised-water"\namount = "make up"\n',
        encoding="utf-8",
    )
    stockroom.json("recipe", "new", "--from", str(file))
    return key


@pytest.mark.parametrize(
    ("one_in", "signal", "near"),
    [(2, "Danger", False), (4, "Danger", False), (8, "Danger", True), (20, "Danger", True), (50, None, False)],
)
def test_the_rest_of_a_bath_is_labelled_by_its_ph_with_the_ground_shown(
    stockroom: Any, tmp_path: Path, one_in: int, signal: str | None, near: bool
) -> None:
    """1 in 2 and 1 in 4 above pH 11.5, 1 in 8 to 1 in 20 about it, 1 in 50 below (computed, see test_extreme_ph)."""
    stockroom.json("--on", "2026-11-20", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json("--on", "2026-11-20", "make", "calcium-hydroxide-saturated", "1 L")
    stockroom.json("job", "new", "Sea chart", "--object", "Sheet, 30 x 20 cm")
    used = stockroom.json(
        *NOW, "use", bath(stockroom, tmp_path, one_in), "--job", "Sea chart", "--qty", "500 mL", "--tested", "AB"
    )
    left = stockroom.json(*NOW, "bring-back", used["action"], "100 mL", "--used")
    shown = stockroom.json("material", "show", f"bath-lime-1-in-{one_in}")
    assert shown.get("signal_word") == signal
    assert shown["hazards_suggested"]["near_limit"] is near
    assert ("labelled unless measured" in shown["hazard_ground"]) is near
    assert "competent person" in shown["hazard_ground"]
    label = stockroom(*NOW, "label", left["code"]).out
    assert ("H318" in label) is (signal is not None)


def test_a_baths_hazards_follow_its_recipe_until_the_studio_edits_them(stockroom: Any, tmp_path: Path) -> None:
    stockroom.json("--on", "2026-11-20", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json("--on", "2026-11-20", "make", "calcium-hydroxide-saturated", "1 L")
    stockroom.json("job", "new", "Sea chart")
    key = bath(stockroom, tmp_path, 4)
    use = ("use", key, "--job", "Sea chart", "--qty", "100 mL", "--tested", "AB")
    for at, word in (("2026-11-25T10:00", "Danger"), ("2026-11-25T12:00", "Warning")):
        used = stockroom.json("--on", at, *use)
        stockroom.json("--on", at, "bring-back", used["action"], "50 mL", "--used")
        assert stockroom.json("material", "show", f"bath-{key}")["signal_word"] == word
        edit(stockroom, f"bath-{key}", "--signal-word", "Warning", "--why", "measured pH 11.2")


def test_every_starter_solution_is_labelled_as_suggested(stockroom: Any) -> None:
    """What the program ships must not differ from its own sums without saying so."""
    made = [one["key"] for one in stockroom.json("recipe", "list")["recipes"] if one["kind"] == "stock"]
    assert len(made) > 8
    for key in made:
        hazards = stockroom.json("recipe", "show", key)["hazards"]
        assert hazards["differs"] is False, key
