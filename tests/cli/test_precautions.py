"""Cautions before making and using, suggested hazards, and the size of a label, from the command line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

NOW = ("--on", "2026-11-25T14:10")
SATURATED = "calcium-hydroxide-saturated"
MIXED = "chlorine-by-mistake"


def shown(stockroom: Any, recipe: str) -> Any:
    return stockroom.json("recipe", "show", recipe)["hazards"]


def write_recipe(stockroom: Any, folder: Path, key: str, kind: str, *lines: str) -> None:
    """Add a recipe of lines `material=amount` or `recipe:KEY`."""
    text = f'[recipe]\nkey = "{key}"\nname = "{key}"\nkind = "{kind}"\n'
    text += 'batch = "100 mL"\n' if kind == "bath" else ""
    for line in lines:
        if line.startswith("recipe:"):
            text += f'[[line]]\nrecipe = "{line.removeprefix("recipe:")}"\n'
        else:
            material, _, amount = line.partition("=")
            text += f'[[line]]\nmaterial = "{material}"\namount = "{amount}"\n'
    file = folder / f"{key}.toml"
    file.write_text(text + '[[step]]\nwords = "Mix."\n', encoding="utf-8")
    stockroom.json("recipe", "new", "--from", str(file))


@pytest.fixture
def bleach(stockroom: Any, tmp_path: Path) -> Any:
    """A studio with hypochlorite and acetic acid, a bath that wrongly holds both, and a job."""
    for name, key in (("Sodium hypochlorite", "sodium-hypochlorite"), ("Acetic acid", "acetic-acid")):
        stockroom.json("material", "new", name, "--key", key, "--measured-by", "volume")
        stockroom.json(*NOW, "receive", key, "1 L", "--cost", "5.00")
    write_recipe(stockroom, tmp_path, MIXED, "bath", "sodium-hypochlorite=10 mL", "acetic-acid=10 mL")
    stockroom.json(*NOW, "job", "new", "Railway poster", "--object", "poster 500 x 400 mm")
    return stockroom


def use(stockroom: Any, recipe: str, *more: str, code: int = 0, at: str = "2026-11-25T14:10") -> Any:
    return stockroom.json("--on", at, "use", recipe, "--job", "Railway poster", *more, code=code)


def test_a_saturated_jar_is_suggested_as_its_entry_says_by_the_rule_of_extreme_ph(stockroom: Any) -> None:
    """CLP Annex I, 3.2.3.1.2 and 3.3.3.1.2: pH 11.5 and above; the sums see 0.3 % and say nothing.

    Held at H315 with H318, as the dry substance is itself classed.
    """
    hazards = shown(stockroom, SATURATED)
    assert {words.split()[0] for words in hazards["suggested"]["statements"]} == {"H318", "H315"}
    assert (hazards["suggested"]["signal_word"], hazards["suggested"]["pictograms"]) == ("Danger", ["GHS05"])
    assert "extreme-pH rule" in hazards["suggested"]["ground"]
    assert "competent person" in hazards["suggested"]["ground"]
    assert "maker's sheet" in hazards["suggested"]["ground"]
    assert hazards["suggested"]["sources"]
    assert hazards["differs"] is False


@pytest.mark.parametrize("bath", ["calcium-hydroxide-1-in-2", "calcium-hydroxide-1-in-4-with-methyl-cellulose"])
def test_the_baths_of_one_in_two_and_four_are_eye_damage_too(stockroom: Any, bath: str) -> None:
    """By hand: 1.6 g/L is 22 mmol/L, 43 mmol/L hydroxide; a quarter of it is pH 12.0 at 25 °C: above 11.5 (CLP)."""
    suggested = shown(stockroom, bath)["suggested"]
    assert suggested["signal_word"] == "Danger"
    assert any(words.startswith("H318") for words in suggested["statements"])


def test_half_alcohol_is_highly_flammable_and_near_a_limit(stockroom: Any) -> None:
    """CLP Annex I, Table 2.6.1: below 23 °C H225; 50 % v/v flashes within a degree or two of it by source."""
    suggested = shown(stockroom, "alcohol-water-50")["suggested"]
    assert any(words.startswith("H225") for words in suggested["statements"])
    assert suggested["near_limit"] is True


def test_a_bath_brought_to_a_ph_is_judged_by_it_and_says_what_it_cannot_count(stockroom: Any) -> None:
    hazards = shown(stockroom, "alkaline-peroxide-fresh")
    assert "pH 8 to 9" in hazards["suggested"]["ground"]
    assert any("added to a reading" in words for words in hazards["suggested"]["notes"])


def test_an_entry_that_differs_is_shown_beside_the_suggestion_and_stays(stockroom: Any) -> None:
    stockroom.json("material", "edit", "calcium-hydroxide-solution", "--signal-word", "Warning", "--why", "test")
    hazards = shown(stockroom, SATURATED)
    assert hazards["differs"] is True
    assert (hazards["entry"]["signal_word"], hazards["suggested"]["signal_word"]) == ("Warning", "Danger")
    assert "own entry says otherwise, and stays: Warning" in stockroom("recipe", "show", SATURATED).out
    assert stockroom.json("material", "show", "calcium-hydroxide-solution")["signal_word"] == "Warning"


def test_a_treatment_makes_nothing_that_a_label_could_warn_of(stockroom: Any) -> None:
    assert shown(stockroom, "deacidify-and-size") is None


def test_eye_protection_stands_before_the_first_step_and_nothing_is_said_twice(stockroom: Any) -> None:
    """Common practice, no source: eye protection first wherever calcium hydroxide is made."""
    stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    lines = stockroom(*NOW, "make", SATURATED, "1 L", "--dry-run").out.splitlines()
    assert lines[1].startswith("  ! Eye protection")
    assert len(lines) == len(set(lines))
    made = stockroom.json(*NOW, "make", SATURATED, "1 L")
    assert made["cautions"][0]["about"] == "protection"
    assert "not back into the jar" in {one["about"] for one in made["cautions"]}
    assert not any(one["stops"] for one in made["cautions"])


def test_what_gives_off_gas_is_made_into_a_vented_closure(stockroom: Any) -> None:
    """3 % peroxide frees about ten times its volume of oxygen (computed: 2 H2O2 -> O2, 0.88 mol/L, 24 L/mol)."""
    stockroom.json(*NOW, "receive", "hydrogen-peroxide-3", "1 L", "--cost", "5.00")
    stockroom.json(*NOW, "receive", "ammonia-solution", "1 L", "--cost", "5.00")
    plan = stockroom.json(*NOW, "make", "alkaline-peroxide-fresh", "500 mL", "--dry-run")
    said = {one["about"]: one["words"] for one in plan["cautions"]}
    assert "Vented closure only" in said["gas"]
    assert "make it fresh" in said["make fresh"]


def test_what_makes_toxic_gas_together_is_refused_without_a_reason(bleach: Any) -> None:
    """Hypochlorite and acid give chlorine (row of incompatible_pairs.toml, with its source)."""
    refused = bleach(*NOW, "use", MIXED, "--job", "Railway poster")
    assert refused.code != 0
    assert "chlorine gas" in refused.err
    assert "--why" in refused.err
    assert all(lot["amount"] == "1000" for lot in bleach.json("shelf")["lots"])


def test_a_reason_lets_it_pass_and_both_stay_in_the_record(bleach: Any, store: Any) -> None:
    used = use(bleach, MIXED, "--why", "a drop of each, as a test in the hood")
    assert any(one["stops"] and one["sources"] for one in used["cautions"])
    from stockroom.store.history import find_action

    done = find_action(store, used["action"])
    assert "chlorine gas" in done.details
    assert done.reason == "a drop of each, as a test in the hood"


def test_baths_of_one_treatment_follow_each_other_and_are_rinsed_between(bleach: Any, tmp_path: Path) -> None:
    write_recipe(bleach, tmp_path, "first-bath", "bath", "sodium-hypochlorite=10 mL")
    write_recipe(bleach, tmp_path, "second-bath", "bath", "acetic-acid=10 mL")
    write_recipe(bleach, tmp_path, "both-baths", "treatment", "recipe:first-bath", "recipe:second-bath")
    used = use(bleach, "both-baths", "--qty", "100 mL", "--tested", "AB")
    apart = [one for one in used["cautions"] if one["about"] == "keep apart"]
    assert [one["stops"] for one in apart] == [False]
    assert "rinse well between" in apart[0]["words"]


def test_what_an_object_met_earlier_that_day_is_told_and_the_day_before_is_not(bleach: Any, tmp_path: Path) -> None:
    """Common practice, no source: rinse between an oxidising bath and the next."""
    write_recipe(bleach, tmp_path, "first-bath", "bath", "sodium-hypochlorite=10 mL")
    write_recipe(bleach, tmp_path, "second-bath", "bath", "acetic-acid=10 mL")
    first = use(bleach, "first-bath", "--tested", "AB")
    later = use(bleach, "second-bath", "--dry-run", at="2026-11-25T16:00")
    assert any("earlier today" in one["words"] for one in later["cautions"])
    next_day = use(bleach, "second-bath", "--dry-run", at="2026-11-26T09:00")
    assert not any("earlier today" in one["words"] for one in next_day["cautions"])
    bleach.json(*NOW, "undo", first["action"], "--why", "wrong bath")
    undone = use(bleach, "second-bath", "--dry-run", at="2026-11-25T16:00")
    assert not any("earlier today" in one["words"] for one in undone["cautions"])


def test_another_object_of_the_job_has_not_met_it(bleach: Any, tmp_path: Path) -> None:
    write_recipe(bleach, tmp_path, "first-bath", "bath", "sodium-hypochlorite=10 mL")
    write_recipe(bleach, tmp_path, "second-bath", "bath", "acetic-acid=10 mL")
    bleach.json("job", "object", "Railway poster", "chart 300 x 200 mm")
    use(bleach, "first-bath", "--object", "chart", "--tested", "AB")
    for thing, met in (("poster", False), ("chart", True)):
        plan = use(bleach, "second-bath", "--object", thing, "--dry-run", at="2026-11-25T16:00")
        assert any("earlier today" in one["words"] for one in plan["cautions"]) is met


@pytest.mark.parametrize(("size", "small"), [("70 x 40 mm", True), ("74 x 52 mm", False)])
def test_a_label_smaller_than_the_size_table_is_told_as_good_practice(
    stockroom: Any, tmp_path: Path, size: str, small: bool
) -> None:
    """CLP Annex I, Table 1.3: up to 3 L at least 52 x 74 mm, if possible; it binds suppliers, not the studio."""
    stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    code = stockroom.json(*NOW, "make", SATURATED, "1 L")["code"]
    written = stockroom.json("label", code, "--out", str(tmp_path / "jar.pdf"), "--size", size)
    assert bool(written["warnings"]) is small
    assert all("Good practice" in words for words in written["warnings"])


def test_taking_a_little_says_what_the_object_met_earlier_that_day(bleach: Any, tmp_path: Path) -> None:
    """Common practice, no source: rinse between an oxidising bath and the next; put right, it is as it was meant."""
    write_recipe(bleach, tmp_path, "first-bath", "bath", "sodium-hypochlorite=10 mL")
    used = use(bleach, "first-bath", "--tested", "AB")
    acid = next(one["code"] for one in bleach.json("shelf", "acetic")["lots"])

    def said(job: str) -> bool:
        taken = bleach.json("--on", "2026-11-25T16:00", "take", acid, "1 mL", "--job", job, "--dry-run")
        return any("rinse well between" in one["words"] for one in taken["cautions"])

    bleach.json(*NOW, "job", "new", "Chart")
    assert (said("Railway poster"), said("Chart")) == (True, False)
    bleach.json("--on", "2026-11-25T15:00", "put-right", used["action"], "--job", "Chart", "--why", "wrong job")
    assert (said("Railway poster"), said("Chart")) == (False, True)


def test_the_recipes_own_cautions_stand_first_and_each_is_said_once(stockroom: Any) -> None:
    """Common practice, no source: protection first, what matters when the work is done last."""
    stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    lines = stockroom(*NOW, "make", SATURATED, "1 L", "--dry-run").out.splitlines()
    assert "before the powder is opened" in lines[1]
    assert "In the eyes" in lines[2]
    for words in ("Eye protection and gloves on", "nothing goes back into its jar"):
        assert sum(words in line for line in lines) == 1
