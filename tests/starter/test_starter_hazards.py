"""Hazards, cautions and vents of what a new stockroom starts with, against their sources."""

from __future__ import annotations

import pytest

from stockroom.domain.materials import Material
from stockroom.domain.recipes import Recipe
from stockroom.domain.starter_files import starter_materials, starter_recipes

MATERIALS = {material.key: material for material in starter_materials()}
RECIPES = {recipe.key: recipe for recipe in starter_recipes()}

CLASSIFIED = {
    # maker's self-classification, read in a substance database; no harmonised entry (from memory)
    "calcium-hydroxide": ("Danger", "H315 H318 H335", "GHS05 GHS07"),
    # ECHA inventory 100.000.526 and ICSC 0044; H319 self-applied by many
    "ethanol": ("Danger", "H225 H319", "GHS02 GHS07"),
    # ICSC 0087, CLP Annex VI from memory
    "acetone": ("Danger", "H225 H319 H336 EUH066", "GHS02 GHS07"),
    # safety sheet of a 70 % solution
    "isopropanol": ("Danger", "H225 H319 H336", "GHS02 GHS07"),
    # specific limits of CLP Annex VI (part from memory) and a GisChem sheet (H332 from 30 %); H272 as many makers
    "hydrogen-peroxide-35": ("Danger", "H272 H302 H315 H318 H332 H335", "GHS03 GHS05 GHS07"),
    # below 5 %: under every specific limit of CLP Annex VI (from memory)
    "hydrogen-peroxide-3": (None, "", ""),
    # GisChem, ammonia solution of 10 % and more
    "ammonia-solution": ("Danger", "H290 H314 H335 H400", "GHS05 GHS07 GHS09"),
    # Regulation (EU) 2021/849
    "citric-acid": ("Warning", "H319 H335", "GHS07"),
    # safety sheet: not classified
    "sodium-bicarbonate": (None, "", ""),
    # from memory: not classified
    "magnesium-carbonate": (None, "", ""),
    "methyl-cellulose": (None, "", ""),
    # CLP Annex I, 3.3.3.1.2 (pH 11.5 and above), held at the dry substance's own skin and eye classes
    "calcium-hydroxide-solution": ("Danger", "H315 H318", "GHS05"),
}


@pytest.mark.parametrize("key", CLASSIFIED)
def test_hazards_agree_with_what_the_sources_say(key: str) -> None:
    """Signal word, statements and pictograms, each with its source in the table above."""
    signal_word, hazards, pictograms = CLASSIFIED[key]
    material = MATERIALS[key]
    assert material.signal_word == signal_word
    assert {statement.split()[0] for statement in material.hazards} == set(hazards.split())
    assert set(material.pictograms) == set(pictograms.split())


SYMBOLS = {
    "GHS02": {"H225"},
    "GHS03": {"H272"},
    "GHS05": {"H290", "H314", "H318"},
    "GHS09": {"H400"},
}


@pytest.mark.parametrize("material", MATERIALS.values(), ids=lambda material: material.key)
def test_pictograms_and_signal_word_follow_the_statements(material: Material) -> None:
    """CLP Annex I, label elements, and Article 26, from memory.

    The exclamation mark yields to corrosion for skin and eye irritation, not for breathing, narcosis or swallowing.
    """
    codes = {statement.split()[0] for statement in material.hazards}
    wanted = {pictogram for pictogram, shown_for in SYMBOLS.items() if codes & shown_for}
    exclaims = {"H302", "H332", "H335", "H336"} | (set() if "GHS05" in wanted else {"H315", "H319"})
    assert set(material.pictograms) == wanted | ({"GHS07"} if codes & exclaims else set())
    danger = bool(codes & {"H225", "H314", "H318"})
    assert material.signal_word == ("Danger" if danger else "Warning" if codes else None)
    assert len(material.precautions) <= 6, "CLP Article 28(3), from memory: normally six at most"
    if {"H314", "H318", "H319"} & codes:
        assert any("eye protection" in words for words in material.precautions)


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=lambda recipe: recipe.key)
def test_cautions_come_first_and_steps_are_short(recipe: Recipe) -> None:
    """A tired person reads from the top, and stops early."""
    steps = recipe.version.steps
    cautions = [step for step in steps if step.caution]
    assert steps and cautions and steps[: len(cautions)] == tuple(cautions)
    assert all(len(step.words) <= 160 for step in steps)


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=lambda recipe: recipe.key)
def test_eye_protection_is_the_first_line_wherever_calcium_hydroxide_is_in(recipe: Recipe) -> None:
    """Its solution damages eyes down to the 1 in 4 bath, and the step must defer to local rules."""
    lines = [line.material or line.recipe or "" for line in recipe.version.lines]
    strong = [key for key in lines if key.startswith("calcium-hydroxide")]
    assert not strong or recipe.version.steps[0].words.startswith("Eye protection")
    assert not strong or "rules come first" in recipe.version.steps[0].words


def test_what_gives_off_gas_is_kept_vented() -> None:
    """Peroxide gives off oxygen, bicarbonate carbon dioxide, ammonia itself (chemistry; common practice, no source)."""
    assert {key for key, material in MATERIALS.items() if material.vented} == {
        *("hydrogen-peroxide-3", "hydrogen-peroxide-35", "alkaline-peroxide"),
        *("ammonia-solution", "magnesium-bicarbonate-solution"),
    }
