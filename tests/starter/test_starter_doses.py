"""Doses, strengths and keeping times of the starter recipes, against the works they cite."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import pytest

from stockroom.domain.starter_files import starter_materials, starter_recipes
from stockroom.planning.requirements import Book, Need, Scale, needs_of
from stockroom.science.amounts import ToReading
from stockroom.science.quantities import Dimension, Quantity

MATERIALS = {material.key: material for material in starter_materials()}
RECIPES = {recipe.key: recipe for recipe in starter_recipes()}
BOOK = Book(materials=MATERIALS, recipes=RECIPES)


def needs(recipe: str, millilitres: int, fills: int = 1) -> dict[str, Need]:
    total = Quantity(Dimension.VOLUME, millilitres * 1_000)
    return {need.material.key: need for need in needs_of(RECIPES[recipe], Scale(total=total, fills=fills), BOOK)}


ATOMIC_WEIGHTS = {
    "H": Decimal("1.008"),
    "C": Decimal("12.011"),
    "N": Decimal("14.007"),
    "O": Decimal("15.999"),
    "Na": Decimal("22.990"),
    "Mg": Decimal("24.305"),
    "Cl": Decimal("35.45"),
    "K": Decimal("39.098"),
    "Ca": Decimal("40.078"),
}
FORMULAE = {
    "calcium-hydroxide": "Ca O2 H2",
    "ammonium-citrate": "N2 H14 C6 O7",
    "citric-acid": "C6 H10 O8",
    "sodium-bicarbonate": "Na H C O3",
    "hydrogen-peroxide-35": "H2 O2",
    "ammonia-solution": "N H3",
    "ethanol": "C2 H6 O",
    "isopropanol": "C3 H8 O",
    "acetone": "C3 H6 O",
    "sodium-chloride": "Na Cl",
    "potassium-chloride": "K Cl",
    "magnesium-chloride-hexahydrate": "Mg Cl2 H12 O6",
    "potassium-carbonate": "K2 C O3",
    "magnesium-nitrate-hexahydrate": "Mg N2 O12 H12",
    "deionised-water": "H2 O",
}


@pytest.mark.parametrize("key", FORMULAE)
def test_molar_masses_are_those_of_what_is_weighed(key: str) -> None:
    """IUPAC abridged standard atomic weights (from memory), summed with the water of crystallisation."""
    parts = re.findall(r"([A-Z][a-z]?)(\d*)", FORMULAE[key])
    summed = sum((ATOMIC_WEIGHTS[name] * int(count or 1) for name, count in parts), Decimal(0))
    assert MATERIALS[key].molar_mass == pytest.approx(summed, abs=Decimal("0.01"))


def test_saturated_calcium_hydroxide_takes_the_pharmacopoeial_dose() -> None:
    """USP, Calcium Hydroxide Topical Solution: 3 g of powder, as weighed, in 1000 mL of water."""
    need = needs("calcium-hydroxide-saturated", 1_000)["calcium-hydroxide"]
    assert need.total and need.total.quanta == 3_000_000


def test_the_dose_leaves_solid_behind() -> None:
    """Saturation takes at most 1.73 g/L at 20 °C (handbook family A, read in two substance cards)."""
    need = needs("calcium-hydroxide-saturated", 1_000)["calcium-hydroxide"]
    assert need.total and need.total.quanta * Fraction(95, 100) > 1_730_000
    assert RECIPES["calcium-hydroxide-saturated"].version.over_solid


@pytest.mark.parametrize(("parts", "stock_ml"), [(2, 250), (4, 125)])
def test_the_baths_are_one_part_made_up_to_so_many_in_all(parts: int, stock_ml: int) -> None:
    """USP general notices: 1 in n is one part made up to n parts; the gel is counted within the whole."""
    plain = needs(f"calcium-hydroxide-1-in-{parts}", 500)
    sized = needs(f"calcium-hydroxide-1-in-{parts}-with-methyl-cellulose", 500)
    for bath in (plain, sized):
        assert bath["calcium-hydroxide-solution"].total == Quantity(Dimension.VOLUME, stock_ml * 1_000)
        assert sum(need.total.quanta for need in bath.values() if need.total) == 500_000


def test_gel_and_powder_give_the_same_bath() -> None:
    """50 mL of a gel of 5 % w/v in 500 mL is 2.5 g, which is what 0.5 % w/v takes as powder (arithmetic)."""
    for parts in (2, 4):
        name = f"calcium-hydroxide-1-in-{parts}-with-methyl-cellulose"
        assert needs(name, 500)["methyl-cellulose-gel"].total == Quantity(Dimension.VOLUME, 50_000)
        assert needs(f"{name}-powder", 500)["methyl-cellulose"].total == Quantity(Dimension.MASS, 2_500_000)
    assert needs("methyl-cellulose-gel-5", 50)["methyl-cellulose"].total == Quantity(Dimension.MASS, 2_500_000)


def test_a_bath_changed_once_takes_two_fills_and_exactly_twice_the_materials() -> None:
    """The second fill repeats the first (the studio's own rule)."""
    one = needs("calcium-hydroxide-1-in-4-with-methyl-cellulose", 333)
    two = needs("calcium-hydroxide-1-in-4-with-methyl-cellulose", 333, fills=2)
    assert {key: 2 * need.total.quanta for key, need in one.items() if need.total} == {
        key: need.total.quanta for key, need in two.items() if need.total
    }


def test_starch_paste_follows_the_published_recipe() -> None:
    """Library of Congress 2015: 57 g of starch in 400 mL of water.

    With the granule at 1.5 to 1.6 g/mL (Dengate and others 1978) that is 130.1 to 130.9 g in a litre; planned to 1 %.
    """
    need = needs("wheat-starch-paste", 1_000)["wheat-starch"]
    low, high = (57 / (400 + 57 / density) * 1e9 for density in (1.5, 1.6))
    assert need.total and 0.99 * low <= need.total.quanta <= 1.01 * high


def test_ethanol_of_96_per_cent_makes_50_per_cent_by_volume() -> None:
    """% v/v is made up to volume (USP general notices): 50 / 96 of the whole is 260.4 mL in 500 mL."""
    assert needs("alcohol-water-50", 500)["ethanol"].total == Quantity(Dimension.VOLUME, 260_400)


def test_peroxide_of_3_per_cent_one_in_three_makes_1_per_cent() -> None:
    """Within 0.5 to 3 %, just alkaline, pH 8 to 9 (conservation science text); one third of 3 % w/v is 1 %."""
    need = needs("alkaline-peroxide-fresh", 300)["hydrogen-peroxide-3"]
    assert need.total == Quantity(Dimension.VOLUME, 100_000)
    (reading,) = [line for line in RECIPES["alkaline-peroxide-fresh"].version.lines if line.first_dose]
    assert reading.amount == ToReading(measure="pH", low=Decimal("8.0"), high=Decimal("9.0"))


def test_magnesium_bicarbonate_starts_from_10_g_of_carbonate_a_litre() -> None:
    """Conservation OnLine, dt2146: about 10 g of magnesium carbonate in a litre."""
    assert needs("magnesium-bicarbonate", 1_000)["magnesium-carbonate"].total == Quantity(Dimension.MASS, 10_000_000)


def test_wash_water_is_brought_to_the_published_ph_with_a_first_dose_at_the_low_end() -> None:
    """Conservation DistList 2004-0781 and 2002-0815: pH 8, rinse at 8 to 9.

    0.4 to 0.7 mL of saturated solution a litre of water that stood in air (computed): the dose begins within that.
    """
    line = RECIPES["conditioned-wash-water"].version.lines[0]
    assert line.amount == ToReading(measure="pH", low=Decimal("8.0"), high=Decimal("8.5"))
    assert line.first_dose == "0.5 mL"
    assert RECIPES["conditioned-wash-water"].version.batch == Quantity(Dimension.VOLUME, 1_000_000)


@pytest.mark.parametrize(
    ("recipe", "salt", "grams_in_100_g_water", "density", "humidity"),
    [
        ("sodium-chloride", "sodium-chloride", 35.9, 1.20, 75.48),
        ("potassium-chloride", "potassium-chloride", 34.2, 1.17, 85.11),
        ("magnesium-chloride", "magnesium-chloride-hexahydrate", 306, 1.33, 33.07),
        ("potassium-carbonate", "potassium-carbonate", 109.8, 1.57, 43.16),
        ("magnesium-nitrate", "magnesium-nitrate-hexahydrate", 240, 1.39, 54.38),
    ],
)
def test_a_salt_jar_holds_more_salt_than_dissolves_and_says_its_humidity(
    recipe: str, salt: str, grams_in_100_g_water: float, density: float, humidity: float
) -> None:
    """Solubility at 20 °C: CRC Handbook (secondary; magnesium chloride from memory), of the hydrate as weighed.

    Densities of the saturated solutions from memory. Humidity at 20 °C: Greenspan 1977, J. Res. NBS 81A, 89
    (secondary; magnesium nitrate from memory).
    """
    need = needs(f"{recipe}-saturated", 1_000)[salt]
    dissolves = 1_000 * density * grams_in_100_g_water / (100 + grams_in_100_g_water)
    assert need.total and dissolves * 1.1 < need.total.quanta / 1e6 < 1_000 * float(MATERIALS[salt].density or 0)
    version = RECIPES[f"{recipe}-saturated"].version
    assert version.over_solid
    assert f"about {humidity:.0f} % relative humidity" in (version.strength or "")


@pytest.mark.parametrize(
    ("recipe", "longest_days"),
    [
        # at most a week, cool and dark (museum recipe, secondary); 20 days only when packed hot in ammonia water
        ("wheat-starch-paste", 7),
        # USP <795>, water-based without preservative, refrigerated (secondary), by analogy
        ("methyl-cellulose-gel-5", 14),
        # days, cold and full: common practice, no source
        ("magnesium-bicarbonate", 6),
        # days to weeks, cold: common practice, no source
        ("ammonium-citrate-2", 7),
    ],
)
def test_what_spoils_keeps_no_longer_than_the_cautious_source_says(recipe: str, longest_days: int) -> None:
    """Where sources disagree the shorter time is taken."""
    number, unit = (RECIPES[recipe].version.life or "").split()
    assert unit == "days" and int(number) <= longest_days


@pytest.mark.parametrize(
    "recipe", ["alkaline-peroxide-fresh"] + [recipe.key for recipe in RECIPES.values() if recipe.kind == "bath"]
)
def test_what_is_made_fresh_lives_for_hours_of_the_same_day(recipe: str) -> None:
    """Alkaline peroxide decomposes (conservation science text); a dilute bath lasts the day (common practice)."""
    number, unit = (RECIPES[recipe].version.life or "").split()
    assert unit == "h" and int(number) <= 8
