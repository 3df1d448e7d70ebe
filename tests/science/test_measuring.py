"""With what an amount is measured, and how far off it may then be."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.science.measuring import (
    Balance,
    Vessel,
    Way,
    WeighedSpoon,
    percent,
    pour,
    spoon,
    spoon_weighed,
    to_digit,
    to_range,
    weigh,
)
from stockroom.science.powders import find_powder, powder_in
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.spoons import METRIC_SPOONS

FIVE_PERCENT = Fraction(5, 100)
CYLINDERS = (
    Vessel(name="10 mL cylinder", capacity_ul=10_000, graduation_ul=200),
    Vessel(name="100 mL cylinder", capacity_ul=100_000, graduation_ul=1_000),
    Vessel(name="500 mL cylinder", capacity_ul=500_000, graduation_ul=5_000),
)
BEAKERS = (
    Vessel(name="100 mL beaker", capacity_ul=100_000, graduation_ul=10_000),
    Vessel(name="500 mL beaker", capacity_ul=500_000, graduation_ul=50_000),
)


def grams(number: float) -> Quantity:
    return Quantity(Dimension.MASS, round(number * 1_000_000))


def millilitres(number: float) -> Quantity:
    return Quantity(Dimension.VOLUME, round(number * 1_000))


def poured(volume: Quantity, *vessels: Vessel) -> Way:
    way = pour(volume, vessels, FIVE_PERCENT)
    assert way is not None
    return way


def test_the_smallest_vessel_that_holds_it_is_taken_where_it_is_fine_enough() -> None:
    """Half a graduation is common practice, no source."""
    way = poured(millilitres(50), *CYLINDERS, *BEAKERS)
    assert way.words() == "100 mL cylinder, give or take 0.5 mL (1 %)"
    assert way.ground == "half a graduation (common practice, no source)"
    assert poured(millilitres(8), *CYLINDERS).measures == ("10 mL cylinder",)


def test_a_coarse_vessel_gives_way_to_a_larger_fine_one() -> None:
    """100 mL in the beaker is 5 mL off, 5 %; 90 mL would be 5.6 %."""
    assert poured(millilitres(100), *CYLINDERS[2:], *BEAKERS).measures == ("100 mL beaker",)
    assert poured(millilitres(90), *CYLINDERS[2:], *BEAKERS).measures == ("500 mL cylinder",)


def test_what_no_vessel_holds_takes_several_fills_and_their_errors_add_up() -> None:
    way = poured(millilitres(1_200), *CYLINDERS)
    assert way.measures == ("500 mL cylinder",) * 3
    assert (way.low, way.high) == (millilitres(1_192.5), millilitres(1_207.5))
    assert pour(millilitres(20_000), CYLINDERS[:1], FIVE_PERCENT) is None


def test_a_measure_is_read_to_no_more_digits_than_its_marks_allow() -> None:
    assert poured(millilitres(132.5), *CYLINDERS).words() == "500 mL cylinder, to 132 mL, give or take 2.5 mL (2 %)"
    way = weigh(grams(2.5514), [Balance(name="balance", resolution_ug=10_000)], FIVE_PERCENT)
    assert way is not None
    assert way.words() == "balance, to 2.55 g, give or take 0.01 g (0.4 %)"


def test_the_tolerance_of_its_class_counts_where_it_is_more_than_half_a_graduation() -> None:
    """ISO 648 (from memory): a one-mark pipette of 25 mL, class A, is within 0.03 mL. It measures only its fill."""
    pipette = Vessel(name="25 mL pipette", capacity_ul=25_000, tolerance_ul=30)
    way = poured(millilitres(50), pipette)
    assert (way.measures, way.error, way.ground) == (("25 mL pipette",) * 2, millilitres(0.06), "its own tolerance")
    assert pour(millilitres(30), [pipette], FIVE_PERCENT) is None
    printed = Vessel(name="jug", capacity_ul=1_000_000, graduation_ul=10_000, tolerance_ul=20_000)
    assert poured(millilitres(900), printed).error == millilitres(20)


def test_a_vessel_without_marks_or_tolerance_measures_nothing() -> None:
    assert pour(millilitres(50), [Vessel(name="jar", capacity_ul=100_000)], FIVE_PERCENT) is None


def test_the_coarsest_balance_that_is_fine_enough_is_taken_else_the_finest() -> None:
    balances = [Balance(name="kitchen", resolution_ug=1_000_000), Balance(name="bench", resolution_ug=10_000)]
    for mass, taken in ((grams(500), "kitchen"), (grams(2), "bench"), (grams(0.05), "bench")):
        way = weigh(mass, balances, FIVE_PERCENT)
        assert way is not None
        assert way.measures == (taken,)
    assert weigh(grams(1), [], FIVE_PERCENT) is None


def test_the_pair_of_spoons_of_the_trade_holds_half_a_gram_to_one_and_a_third() -> None:
    """A producer's data sheet: methyl cellulose is 0.25 to 0.7 g/mL in bulk, so 1.88 mL hold 0.47 to 1.32 g."""
    way = spoon(grams(0.79), find_powder("methyl cellulose"), METRIC_SPOONS)
    assert way is not None
    assert way.measures == ("1.25 mL", "0.63 mL")
    assert way.words() == "1.25 mL + 0.63 mL, levelled: 0.5 to 1.3 g"


def test_a_weighed_spoon_takes_the_place_of_the_range() -> None:
    """Three spoonfuls of 2.0, 2.1 and 2.2 g: two of them are 4.0 to 4.4 g."""
    own = WeighedSpoon(name="blue spoon", masses_ug=(2_100_000, 2_000_000, 2_200_000))
    way = spoon_weighed(grams(4.2), [own])
    assert way is not None
    assert way.words() == "2 x blue spoon, levelled: 4 to 4.4 g"
    assert way.ground == "weighed here"
    assert spoon_weighed(grams(40), [own]) is None


def test_one_weighing_says_nothing_of_the_scatter_which_is_then_a_judgement() -> None:
    way = spoon_weighed(grams(2), [WeighedSpoon(name="blue spoon", masses_ug=(2_000_000,))])
    assert way is not None
    assert (way.low, way.high) == (grams(1.8), grams(2.2))
    assert "judgement" in way.ground


@pytest.mark.parametrize(
    ("name", "powder"),
    [
        ("Methyl cellulose", "methyl cellulose"),
        ("Magnesium carbonate, light", "light magnesium carbonate"),
        ("CALCIUM HYDROXIDE, fine", "calcium hydroxide"),
        ("Magnesium carbonate", None),
        ("Sodium chloride", None),
        ("", None),
    ],
)
def test_a_powder_is_known_by_all_its_words(name: str, powder: str | None) -> None:
    found = powder_in(name)
    assert (found.name if found else None) == powder


@pytest.mark.parametrize(
    ("share", "words"), [("0.004", "0.4 %"), ("0.094", "9 %"), ("0.097", "10 %"), ("1.5", "150 %")]
)
def test_an_error_is_told_with_the_digits_it_is_worth(share: str, words: str) -> None:
    assert percent(Fraction(share)) == words


@pytest.mark.parametrize(("error", "shown"), [(119, 830), (367, 800), (354, 830), (355, 800)])
def test_a_range_is_told_with_two_digits_only_while_its_width_begins_low(error: int, shown: int) -> None:
    """Particle Data Group, Review of Particle Physics, introduction (from memory): 0.827 with 0.119 is 0.83 with 0.12,
    and with 0.367 it is 0.8 with 0.4; the limit lies between 354 and 355.
    """
    assert to_range(827, error) == shown


@given(quanta=st.integers(1, 10**10), error=st.integers(0, 10**9))
def test_rounding_to_an_error_moves_an_amount_by_less_than_the_error(quanta: int, error: int) -> None:
    assert abs(to_digit(quanta, error) - quanta) <= error / 2


@given(volume=st.integers(1, 10_000_000), fine=st.integers(1, 50), coarse=st.integers(1, 50))
def test_no_vessel_that_is_passed_over_would_have_been_fine_enough_where_the_chosen_one_is_not(
    volume: int, fine: int, coarse: int
) -> None:
    vessels = [
        Vessel(name="a", capacity_ul=1_000_000, graduation_ul=1_000 * fine),
        Vessel(name="b", capacity_ul=500_000, graduation_ul=1_000 * coarse),
    ]
    wanted = Quantity(Dimension.VOLUME, volume)
    chosen = poured(wanted, *vessels)
    assert chosen.off <= FIVE_PERCENT or all(poured(wanted, one).off >= chosen.off for one in vessels)
