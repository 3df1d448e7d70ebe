"""Measuring spoons: which of them hold a volume of powder, and what mass that can be.

A levelled spoon measures poured powder, air included. Its mass is therefore a range, from the lowest to the highest
bulk density of the powder; only the balance, or the keeper's own weighed spoon, says more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import combinations_with_replacement

from stockroom.science.reference import rows
from stockroom.science.sharing import round_half_even_ratio

MOST_SPOONFULS = 6
"""Counting more spoonfuls than this adds mistakes faster than it adds accuracy (common practice, no source)."""
CLOSE_ENOUGH = Fraction(1, 20)
"""A set within a twentieth of the volume is not improved on by more spoonfuls; powders vary far more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoon:
    """A measuring spoon, levelled."""

    name: str
    volume_ul: int


def _read_spoons(of: str) -> tuple[Spoon, ...]:
    return tuple(Spoon(name=row.what, volume_ul=round(1_000 * row.span[0])) for row in rows("spoons") if row.of == of)


METRIC_SPOONS = _read_spoons("metric")
"""5, 2.5, 1.25 and 0.63 mL, as marked on the spoons."""
US_SPOONS = _read_spoons("US customary")
"""The US customary teaspoon and its half, quarter and eighth, to the microlitre."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoonSet:
    """Spoonfuls to be taken together, largest first, and the mass of poured powder they can hold."""

    spoons: tuple[Spoon, ...]
    volume_ul: int
    mass_low_ug: int
    mass_high_ug: int

    @property
    def names(self) -> list[str]:
        """The spoons' names, largest first."""
        return [spoon.name for spoon in self.spoons]


def pick_spoons(volume_ul: int, spoons: Sequence[Spoon] = METRIC_SPOONS) -> tuple[Spoon, ...]:
    """Pick the fewest spoonfuls that come within a twentieth of a volume, else the nearest of all.

    Gives nothing where the volume is beyond `MOST_SPOONFULS` spoonfuls or under half the smallest spoon.
    """
    picked = pick_spoonfuls(volume_ul, [spoon.volume_ul for spoon in spoons])
    return tuple(spoons[index] for index in picked)


def pick_spoonfuls(wanted: int, sizes: Sequence[int]) -> tuple[int, ...]:
    """Pick spoonfuls by what each holds, in quanta of volume or mass; give their positions, largest first."""
    order = sorted(range(len(sizes)), key=lambda index: -sizes[index])
    if not order or 2 * wanted < sizes[order[-1]] or wanted > MOST_SPOONFULS * sizes[order[0]]:
        return ()

    def off(few: Sequence[int]) -> int:
        return abs(sum(sizes[index] for index in few) - wanted)

    best: tuple[int, ...] = ()
    for count in range(1, MOST_SPOONFULS + 1):
        nearest = min(combinations_with_replacement(order, count), key=off)
        if not best or off(nearest) < off(best):
            best = nearest
        if off(best) <= CLOSE_ENOUGH * wanted:
            break
    return best


def spoon_sets(
    volumes_ul: Sequence[int],
    bulk_low_g_per_ml: Decimal,
    bulk_high_g_per_ml: Decimal,
    spoons: Sequence[Spoon] = METRIC_SPOONS,
) -> list[SpoonSet]:
    """Give a set of spoonfuls for each volume, without repeats, with the mass of powder each can hold."""
    picks = dict.fromkeys(pick_spoons(volume_ul, spoons) for volume_ul in volumes_ul)
    return [_fill(pick, bulk_low_g_per_ml, bulk_high_g_per_ml) for pick in picks if pick]


def _fill(spoons: tuple[Spoon, ...], low: Decimal, high: Decimal) -> SpoonSet:
    volume_ul = sum(spoon.volume_ul for spoon in spoons)
    masses = (1_000 * volume_ul * Fraction(density) for density in (low, high))
    low_ug, high_ug = (round_half_even_ratio(mass.numerator, mass.denominator) for mass in masses)
    return SpoonSet(spoons=spoons, volume_ul=volume_ul, mass_low_ug=low_ug, mass_high_ug=high_ug)
