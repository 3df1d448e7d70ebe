"""How much powder a solution needs, by mass first, and what measuring it by volume would do."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import isqrt

from stockroom.errors import BadInput, NotFound
from stockroom.science.numerals import quoted
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.reference import Row, rows
from stockroom.science.sharing import round_half_even_ratio
from stockroom.science.spoons import METRIC_SPOONS, Spoon, SpoonSet, spoon_sets
from stockroom.science.strengths import Strength


@dataclass(frozen=True, slots=True, kw_only=True)
class Powder:
    """A powder's densities in g/mL, with the rows they come from."""

    name: str
    particle_g_per_ml: Decimal
    bulk_low_g_per_ml: Decimal
    bulk_high_g_per_ml: Decimal
    sources: tuple[Row, ...] = ()

    def __post_init__(self) -> None:
        """Refuse densities that no powder has."""
        if not 0 < self.bulk_low_g_per_ml <= self.bulk_high_g_per_ml <= self.particle_g_per_ml:
            raise BadInput("Poured powder holds air: its density must be above nothing and below its particles'.")


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoonReading:
    """A set of spoonfuls and the strength it would give, in the unit of the strength that is wanted."""

    set: SpoonSet
    strength_low: Fraction
    strength_high: Fraction
    by_particles: bool
    """Whether the set was picked by the volume of the bare particles: common practice, and too little powder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PowderPlan:
    """What a mass of powder is in volume, and which spoonfuls come near it."""

    mass: Quantity
    particle_volume: Quantity
    bulk_low: Quantity
    bulk_high: Quantity
    readings: list[SpoonReading]


def find_powder(name: str) -> Powder:
    """Look a powder up by its name or an unambiguous part of it. Raises NotFound, naming those that are known."""
    table = rows("powder_densities")
    names = list(dict.fromkeys(row.of for row in table))
    asked = _plain(name)
    found = [known for known in names if _plain(known) == asked] or [
        known for known in names if asked and asked in _plain(known)
    ]
    if len(found) != 1:
        which = "names more than one powder" if found else "is not a powder whose density is known here"
        raise NotFound(f"{quoted(name)} {which}. Known are {', '.join(found or names)}.", known=found or names)
    of_it = tuple(row for row in table if row.of == found[0])
    particle_low, particle_high = next(row.span for row in of_it if row.what == "particle density")
    bulk = [row.span for row in of_it if row.what == "bulk density"]
    return Powder(
        name=found[0],
        particle_g_per_ml=(particle_low + particle_high) / 2,
        bulk_low_g_per_ml=min(low for low, _ in bulk),
        bulk_high_g_per_ml=max(high for _, high in bulk),
        sources=of_it,
    )


def powder_in(name: str) -> Powder | None:
    """Find the powder all of whose words stand in a material's name; None where the table knows none."""
    words = set(re.findall(r"[^\W\d_]+", name.casefold()))
    for known in dict.fromkeys(row.of for row in rows("powder_densities")):
        if set(known.casefold().split()) <= words:
            return find_powder(known)
    return None


def plan_powder(
    powder: Powder, mass: Quantity, strength: Strength, spoons: Sequence[Spoon] = METRIC_SPOONS
) -> PowderPlan:
    """Work out the volumes of a mass of powder that would give a strength, and the spoonfuls for them.

    The first reading is by the particles' volume, which no spoon measures; the other by the poured volume
    midway, in proportion, between its ends.
    """
    particle = _volume(mass, powder.particle_g_per_ml)
    least, most = poured_volumes(powder, mass)
    bulk = (powder.bulk_low_g_per_ml, powder.bulk_high_g_per_ml)
    by_bulk = spoons_for(powder, mass, spoons)
    by_particles = [found for found in spoon_sets([particle.quanta], *bulk, spoons) if found not in by_bulk]
    of_a_microgram = Fraction(strength.number) / mass.quanta
    return PowderPlan(
        mass=mass,
        particle_volume=particle,
        bulk_low=least,
        bulk_high=most,
        readings=[
            SpoonReading(
                set=found,
                strength_low=found.mass_low_ug * of_a_microgram,
                strength_high=found.mass_high_ug * of_a_microgram,
                by_particles=found in by_particles,
            )
            for found in by_particles + by_bulk
        ],
    )


def poured_volumes(powder: Powder, mass: Quantity) -> tuple[Quantity, Quantity]:
    """Give the least and the most volume that a mass of powder can fill when it is poured."""
    return _volume(mass, powder.bulk_high_g_per_ml), _volume(mass, powder.bulk_low_g_per_ml)


def spoons_for(powder: Powder, mass: Quantity, spoons: Sequence[Spoon]) -> list[SpoonSet]:
    """Pick spoonfuls for the poured volume midway, in proportion, between its ends: one set or none."""
    least, most = poured_volumes(powder, mass)
    midway_ul = isqrt(least.quanta * most.quanta)
    return spoon_sets([midway_ul], powder.bulk_low_g_per_ml, powder.bulk_high_g_per_ml, spoons)


def _volume(mass: Quantity, density_g_per_ml: Decimal) -> Quantity:
    exact = Fraction(mass.quanta) / (1_000 * Fraction(density_g_per_ml))
    return Quantity(Dimension.VOLUME, round_half_even_ratio(exact.numerator, exact.denominator))


def _plain(name: str) -> str:
    return "".join(character for character in name.casefold() if character.isalnum())
