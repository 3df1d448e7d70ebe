"""What a new stockroom starts with: whole, and sourced."""

from __future__ import annotations

import re

import pytest

from stockroom.domain.materials import Material
from stockroom.domain.recipes import Recipe
from stockroom.domain.starter_files import starter_materials, starter_recipes
from stockroom.science.amounts import OfStrength, ToReading
from stockroom.science.quantities import Dimension

MATERIALS = {material.key: material for material in starter_materials()}
RECIPES = {recipe.key: recipe for recipe in starter_recipes()}
STOCKS = [recipe for recipe in RECIPES.values() if recipe.kind == "stock"]


def test_the_starter_list_is_whole() -> None:
    """What a bench needs on its first day is there."""
    assert MATERIALS.keys() >= {
        *("calcium-hydroxide", "methyl-cellulose", "wheat-starch", "magnesium-carbonate", "ammonium-citrate"),
        *("citric-acid", "sodium-bicarbonate", "hydrogen-peroxide-3", "hydrogen-peroxide-35", "ammonia-solution"),
        *("ethanol", "denatured-alcohol", "isopropanol", "acetone", "deionised-water", "tap-water"),
        *("sodium-chloride", "potassium-chloride", "magnesium-chloride-hexahydrate", "potassium-carbonate"),
        *("magnesium-nitrate-hexahydrate", "polyester-web-light", "polyester-web-heavy", "blotter", "board"),
        *("mending-tissue-light", "mending-tissue-medium", "mending-tissue-heavy", "silicone-release-sheet"),
        *("gloves", "ph-strips", "hydrochloric-acid-0-1", "phenolphthalein-indicator", "buffer-ph-7", "buffer-ph-10"),
    }
    assert RECIPES.keys() >= {
        *("calcium-hydroxide-saturated", "methyl-cellulose-gel-5", "wheat-starch-paste", "magnesium-bicarbonate"),
        *("ammonium-citrate-2", "alkaline-peroxide-fresh", "alcohol-water-50", "sodium-chloride-saturated"),
        *("calcium-hydroxide-1-in-2", "calcium-hydroxide-1-in-2-with-methyl-cellulose"),
        *("calcium-hydroxide-1-in-4", "calcium-hydroxide-1-in-4-with-methyl-cellulose", "conditioned-wash-water"),
        *("wash", "deacidify-and-size", "local-mend", "facing", "press-between-webs", "remoistenable-tissue"),
    }


def test_every_key_stands_once() -> None:
    """A key names one material or one recipe, across all files."""
    assert len(starter_materials()) == len(MATERIALS)
    assert len(starter_recipes()) == len(RECIPES)


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=lambda recipe: recipe.key)
def test_every_recipe_names_only_what_there_is(recipe: Recipe) -> None:
    """Materials, stand-ins and recipes within are known, and what is within comes first, so there is no ring."""
    before = list(RECIPES)[: list(RECIPES).index(recipe.key)]
    for line in recipe.version.lines:
        assert line.material is None or {line.material, *line.stand_ins} <= MATERIALS.keys()
        assert line.recipe is None or line.recipe in before
        for key in line.stand_ins:
            assert line.material and MATERIALS[key].dimension is MATERIALS[line.material].dimension


@pytest.mark.parametrize("recipe", STOCKS, ids=lambda recipe: recipe.key)
def test_a_stock_makes_a_material_that_is_measured_as_the_batch_is(recipe: Recipe) -> None:
    """A jar is made by volume, a prepared sheet by area; recipe and material say the same of storage."""
    made = MATERIALS[recipe.makes or ""]
    assert recipe.version.batch and recipe.version.batch.dimension is made.dimension
    assert recipe.version.storage == made.storage


def test_everything_made_here_has_exactly_one_recipe() -> None:
    """A solution or prepared sheet that nothing makes could never be had."""
    made_here = sorted(key for key, material in MATERIALS.items() if material.kind in ("solution", "prepared sheet"))
    assert sorted(recipe.makes or "" for recipe in STOCKS) == made_here


@pytest.mark.parametrize("material", MATERIALS.values(), ids=lambda material: material.key)
def test_every_figure_of_a_material_says_where_it_comes_from(material: Material) -> None:
    """Density, purity, molar mass, keeping time and hazard each have their word in the source, and its standing."""
    source = (material.source or "").lower()
    for word, figure in (
        ("density", material.density),
        ("purity", material.purity),
        ("molar mass", material.molar_mass),
        ("keeping", material.life_closed or material.life_opened),
    ):
        assert figure is None or word in source, word
    assert not material.hazards or material.hazard_ground


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=lambda recipe: recipe.key)
def test_every_recipe_says_where_its_figures_come_from(recipe: Recipe) -> None:
    """A keeping time, a strength and a first dose each have their word in the source."""
    source = (recipe.version.source or "").lower()
    assert source
    assert recipe.version.life is None or "keeping" in source
    assert recipe.version.strength is None or re.search("strength|dose|humidity", source)
    assert not any(isinstance(line.amount, OfStrength) for line in recipe.version.lines) or re.search(
        "strength|dose", source
    )
    assert not any(isinstance(line.amount, ToReading) for line in recipe.version.lines) or "first dose" in source


@pytest.mark.parametrize("recipe", STOCKS + [r for r in RECIPES.values() if r.kind == "bath"], ids=lambda r: r.key)
def test_everything_made_has_a_life(recipe: Recipe) -> None:
    """21 CFR 58.83: a reagent or solution carries an expiration date and its storage."""
    assert recipe.version.life and recipe.version.storage


def test_what_is_made_here_is_checked_in_its_own_words() -> None:
    """Paste: mould, smell, weeping; gel: thin, mould; bicarbonate: cloudy, no bubbles; citrate: threads, mould.

    Common practice, no source. No check keeps a paste or an unpreserved gel longer.
    """
    looks = {
        "wheat-starch-paste": {"mould", "smell", "weeping"},
        "methyl-cellulose-gel-5": {"thin", "mould"},
        "magnesium-bicarbonate": {"cloudy", "no bubbles"},
        "ammonium-citrate-2": {"threads", "mould"},
    }
    for key, words in looks.items():
        check = RECIPES[key].version.check
        assert check is not None and words <= set(check.spoilt) and not check.extends
    assert all(recipe.version.check or recipe.version.over_solid for recipe in STOCKS)
    assert all(recipe.version.check.source for recipe in RECIPES.values() if recipe.version.check)


def test_water_is_not_metered_and_all_else_is() -> None:
    """Water stands in steps and records, never in balances, unless the studio wants it to."""
    assert {key for key, material in MATERIALS.items() if not material.metered} == {"deionised-water", "tap-water"}


def test_tissue_and_web_are_cut_from_sheets_with_their_grain() -> None:
    """Mending tissue has a grain that must lie as the object's does; spun-bonded web has none (common practice)."""
    for weight in ("light", "medium", "heavy"):
        tissue = MATERIALS[f"mending-tissue-{weight}"]
        assert (tissue.dimension, tissue.grain) == (Dimension.AREA, "along")
        assert "sheet" in tissue.packs
    assert {MATERIALS[f"polyester-web-{weight}"].grain for weight in ("light", "heavy")} == {"none"}
