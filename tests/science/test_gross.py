"""What is left in a container, from what it weighs."""

from __future__ import annotations

import pytest

from stockroom.errors import BadInput, Unreadable
from stockroom.science.gross import liquid_volume, net_mass, read_weighed, tabled_density, typed_density
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.ranges import Range, exactly


@pytest.mark.parametrize(
    ("typed", "mass_ug", "step_ug"),
    [("812 g", 812_000_000, 1_000_000), ("812.40 g", 812_400_000, 10_000), ("0,8 kg", 800_000_000, 100_000_000)],
)
def test_the_last_figure_that_is_typed_is_the_balances_step(typed: str, mass_ug: int, step_ug: int) -> None:
    assert read_weighed(typed) == (Quantity(Dimension.MASS, mass_ug), step_ug)


@pytest.mark.parametrize("typed", ["", "much", "812", "812 mL", "1/2 kg", "-3 g", "8e2 g", "[A3]"])
def test_what_no_balance_shows_is_not_read(typed: str) -> None:
    with pytest.raises(Unreadable):
        read_weighed(typed)


def test_gross_and_tare_are_each_one_step_off_at_most() -> None:
    net = net_mass(812_000_000, 310_000_000, 1_000_000)
    assert (net.low, net.best, net.high) == (500, 502, 504)
    with pytest.raises(BadInput, match="no more than the empty container"):
        net_mass(310_000_000, 310_000_000, 1)


def test_half_a_kilogram_of_water_at_20_degrees_is_500_9_millilitres() -> None:
    """0.998207 g/mL: Kell, J. Chem. Eng. Data 20, 97 (1975), from memory. By hand: 500 / 0.998207 = 500.898."""
    volume = liquid_volume(exactly(500, "g"), exactly(0.998207, "g/mL"))
    assert volume.best == pytest.approx(500.898, abs=0.001)


def test_the_errors_of_balance_and_density_are_both_kept() -> None:
    """By hand: 500 / 0.815 = 613.5, 502 / 0.81 = 619.8, 504 / 0.805 = 626.1 mL."""
    volume = liquid_volume(net_mass(812_000_000, 310_000_000, 1_000_000), typed_density("0.81 g/mL"))
    assert (volume.low, volume.best, volume.high) == pytest.approx((613.5, 619.8, 626.1), abs=0.05)
    assert tabled_density(1.0).high == pytest.approx(1.01)


def test_solid_weighs_with_the_jar_and_is_taken_off_as_a_range() -> None:
    solid = Range(low=1, best=1.5, high=3, unit="g")
    volume = liquid_volume(exactly(100, "g"), exactly(1, "g/mL"), solid)
    assert (volume.low, volume.best, volume.high) == (97, 98.5, 99)
    with pytest.raises(BadInput, match="measure the liquid instead"):
        liquid_volume(exactly(3, "g"), exactly(1, "g/mL"), solid)


@pytest.mark.parametrize("typed", ["", "heavy", "-1", "0", "9.9", "810 g/L", "81"])
def test_what_is_no_density_of_a_liquid_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        typed_density(typed)
