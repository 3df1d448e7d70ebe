"""Measuring spoons and what they hold."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.science.spoons import (
    METRIC_SPOONS,
    MOST_SPOONFULS,
    US_SPOONS,
    Spoon,
    pick_spoons,
    spoon_sets,
)


def names(volume_ul: int, spoons: tuple[Spoon, ...] = METRIC_SPOONS) -> list[str]:
    return [spoon.name for spoon in pick_spoons(volume_ul, spoons)]


def test_spoons_are_the_marked_metric_ones_and_the_us_teaspoon_with_its_parts() -> None:
    """NIST Handbook 44, appendix C, for the teaspoon, 4928.92 microlitres; the metric marks are common practice."""
    assert [spoon.volume_ul for spoon in METRIC_SPOONS] == [5_000, 2_500, 1_250, 630]
    assert [spoon.volume_ul for spoon in US_SPOONS] == [4_929, 2_464, 1_232, 616]


@pytest.mark.parametrize(
    ("volume_ul", "spoons", "picked"),
    [
        (1_923, METRIC_SPOONS, ["1.25 mL", "0.63 mL"]),
        (1_923, US_SPOONS, ["1/4 tsp", "1/8 tsp"]),
        (5_100, METRIC_SPOONS, ["5 mL"]),
        (10_000, METRIC_SPOONS, ["5 mL", "5 mL"]),
        (400, METRIC_SPOONS, ["0.63 mL"]),
    ],
)
def test_the_fewest_spoonfuls_near_enough_are_picked(
    volume_ul: int, spoons: tuple[Spoon, ...], picked: list[str]
) -> None:
    """The pair of 1.25 and 0.63 mL for 1.92 mL is common practice, no source; the others are computed."""
    assert names(volume_ul, spoons) == picked


@pytest.mark.parametrize("volume_ul", [0, 300, 30_001, 10**9])
def test_no_spoons_are_offered_for_what_they_cannot_measure(volume_ul: int) -> None:
    assert names(volume_ul) == []


def test_no_spoons_give_no_set() -> None:
    assert pick_spoons(1_923, ()) == ()
    assert spoon_sets([0, 10**9], Decimal("0.25"), Decimal("0.7")) == []


@given(st.integers(1, 40_000))
def test_no_smaller_number_of_spoonfuls_comes_as_near(volume_ul: int) -> None:
    picked = pick_spoons(volume_ul)
    if not picked:
        return
    off = abs(sum(spoon.volume_ul for spoon in picked) - volume_ul)
    sizes = [spoon.volume_ul for spoon in METRIC_SPOONS]
    sums = {0}
    for _ in range(len(picked) - 1):
        sums = {total + size for total in sums for size in [0, *sizes]}
    fewer = [abs(total - volume_ul) for total in sums - {0}]
    assert len(picked) <= MOST_SPOONFULS
    assert all(other > off and 20 * other > volume_ul for other in fewer)


@given(st.integers(400, 29_000))
def test_a_set_weighs_its_volume_times_the_poured_density(volume_ul: int) -> None:
    for found in spoon_sets([volume_ul], Decimal("0.25"), Decimal("0.7")):
        assert found.volume_ul == sum(spoon.volume_ul for spoon in found.spoons)
        assert (found.mass_low_ug, found.mass_high_ug) == (250 * found.volume_ul, 700 * found.volume_ul)
