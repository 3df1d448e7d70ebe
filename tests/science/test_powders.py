"""Powders: by mass, and what measuring them by volume does."""

from __future__ import annotations

from decimal import Decimal

import pytest

from stockroom.errors import BadInput, NotFound
from stockroom.science.powders import Powder, find_powder, plan_powder
from stockroom.science.quantities import Dimension, Quantity, amount_text
from stockroom.science.strengths import read_strength

HALF_PER_CENT = read_strength("0.5 % w/v")
TWO_AND_A_HALF_GRAMS = Quantity(Dimension.MASS, 2_500_000)


def test_two_and_a_half_grams_of_methyl_cellulose_are_4_to_10_millilitres_by_spoon() -> None:
    """Particle density 1.3 and poured density 0.25-0.7 g/mL: data sheet of a producer of methyl cellulose (read)."""
    plan = plan_powder(find_powder("methyl cellulose"), TWO_AND_A_HALF_GRAMS, HALF_PER_CENT)
    assert amount_text(plan.particle_volume) == ("1.923", "mL")
    assert (amount_text(plan.bulk_low), amount_text(plan.bulk_high)) == (("3.571", "mL"), ("10", "mL"))


def test_spoons_for_the_particles_volume_give_a_fifth_to_half_of_the_strength() -> None:
    """The pair of 1.25 and 0.63 mL spoons is common practice, no source; what they hold is computed."""
    plan = plan_powder(find_powder("methyl cellulose"), TWO_AND_A_HALF_GRAMS, HALF_PER_CENT)
    mistaken, poured = plan.readings
    assert mistaken.by_particles and mistaken.set.names == ["1.25 mL", "0.63 mL"]
    assert (mistaken.set.mass_low_ug, mistaken.set.mass_high_ug) == (470_000, 1_316_000)
    assert (float(mistaken.strength_low), float(mistaken.strength_high)) == (0.094, 0.2632)
    assert not poured.by_particles
    assert poured.strength_low < HALF_PER_CENT.number < poured.strength_high


def test_a_spoon_of_light_magnesium_carbonate_misleads_most() -> None:
    """Poured 0.15 g/mL at most against about 3 g/mL of the mineral: twenty-fold (pharmacopoeial type test, read)."""
    powder = find_powder("light magnesium carbonate")
    assert powder.particle_g_per_ml / powder.bulk_high_g_per_ml > 19


@pytest.mark.parametrize("name", ["methyl cellulose", "Methylcellulose", "METHYL-CELLULOSE", "methyl"])
def test_a_powder_is_found_by_its_name_however_it_is_spelt(name: str) -> None:
    assert find_powder(name).name == "methyl cellulose"


@pytest.mark.parametrize("name", ["magnesium carbonate", "gunpowder", "", "[A3]"])
def test_an_unknown_or_ambiguous_powder_is_refused_with_those_that_are_known(name: str) -> None:
    with pytest.raises(NotFound) as refused:
        find_powder(name)
    assert "light magnesium carbonate" in refused.value.details["known"]


@pytest.mark.parametrize(("particle", "low", "high"), [("1", "0.5", "1.5"), ("2", "1", "0.5"), ("2", "0", "1")])
def test_densities_that_no_powder_has_are_refused(particle: str, low: str, high: str) -> None:
    with pytest.raises(BadInput, match="holds air"):
        Powder(
            name="sand",
            particle_g_per_ml=Decimal(particle),
            bulk_low_g_per_ml=Decimal(low),
            bulk_high_g_per_ml=Decimal(high),
        )


@pytest.mark.parametrize(
    ("name", "low_g", "high_g", "most_times", "least_times"),
    [
        ("methyl cellulose", 0.31, 0.86, 5.2, 1.9),
        ("calcium hydroxide", 0.55, 0.80, 4.9, 3.4),
        ("sodium bicarbonate", 0.92, 1.42, 2.9, 1.9),
        ("light magnesium carbonate", 0.15, 0.18, 25, 20),
        ("wheat starch", 0.55, 0.73, 3.4, 2.6),
        ("citric acid monohydrate", 0.99, 1.11, 1.9, 1.7),
    ],
)
def test_a_quarter_teaspoon_holds_far_less_than_the_particles_own_density_says(
    name: str, low_g: float, high_g: float, most_times: float, least_times: float
) -> None:
    """A US teaspoon is 1/6 US fl oz, 4.92892 mL (NIST SP 430); the densities are those of the table's sources.

    Worked out by hand from them: grams by bulk density, and how many times as much the particle density would give.
    """
    powder = find_powder(name)
    low, high = (float(bulk) * 4.92892 / 4 for bulk in (powder.bulk_low_g_per_ml, powder.bulk_high_g_per_ml))
    assert (low, high) == (pytest.approx(low_g, abs=0.006), pytest.approx(high_g, abs=0.006))
    by_particles = float(powder.particle_g_per_ml) * 4.92892 / 4
    assert by_particles / low == pytest.approx(most_times, rel=0.03)
    assert by_particles / high == pytest.approx(least_times, rel=0.03)
