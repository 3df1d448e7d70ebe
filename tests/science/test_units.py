"""Units of measure against the standards that define them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.science.quantities import Dimension
from stockroom.science.reading import read_quantity
from stockroom.science.units import ACCEPTED, find_unit


def millilitres(text: str) -> Fraction:
    return Fraction(read_quantity(text, expect=Dimension.VOLUME).quantity.quanta, 1_000)


def worth(word: str) -> Fraction:
    unit = find_unit(word)
    assert unit
    return unit[1]


@pytest.mark.parametrize(
    ("text", "rounded_ml"),
    [
        ("1 tsp", "4.9"),
        ("1 tbsp", "15"),
        ("1 US fl oz", "30"),
        ("1/4 US cup", "59"),
        ("1/2 US cup", "118"),
        ("1 US cup", "237"),
        ("1 US pint", "473"),
        ("1 US quart", "946"),
    ],
)
def test_kitchen_measures_round_to_the_millilitres_of_the_household_table(text: str, rounded_ml: str) -> None:
    """NIST SP 430, Household Weights and Measures, table 1 (read at nist.gov/pml/owm/metric-household)."""
    decimals = len(rounded_ml.partition(".")[2])
    expected = Fraction(rounded_ml)
    # The fluid ounce is printed to two figures, 30 for 29.57.
    assert round(millilitres(text), decimals) == expected


@pytest.mark.parametrize(
    ("whole", "teaspoons"), [("tbsp", 3), ("US fl oz", 6), ("US cup", 48), ("US pint", 96), ("US quart", 192)]
)
def test_teaspoons_are_the_exact_fractions_of_the_household_table(whole: str, teaspoons: int) -> None:
    """NIST SP 430, table 1: a teaspoonful is 1/3, 1/6, 1/48, 1/96 and 1/192 of these, exactly (read)."""
    assert worth(whole) == teaspoons * worth("tsp")


def test_the_us_teaspoon_follows_exactly_from_the_inch() -> None:
    """NIST Handbook 44, appendix C: a gallon is exactly 231 cubic inches, 768 teaspoons (read)."""
    cubic_inch_ul = worth("in") ** 3 / 10**9
    assert worth("US gal") == 231 * cubic_inch_ul == 768 * worth("tsp")
    assert worth("tsp") == Fraction("4928.92159375")


@pytest.mark.parametrize(
    ("text", "microlitres"), [("1/2 tsp", 2464), ("1/4 tsp", 1232), ("1/8 tsp", 616), ("1/16 tsp", 308)]
)
def test_fractions_of_a_teaspoon_are_read_to_the_microlitre(text: str, microlitres: int) -> None:
    """Computed from the exact teaspoon of NIST Handbook 44, appendix C."""
    assert read_quantity(text).quantity.quanta == microlitres


def test_the_pound_is_the_international_one() -> None:
    """NIST SP 811, appendix B: 453.59237 g exactly (from memory)."""
    assert worth("lb") == Fraction("453592370")


def test_every_unit_that_messages_name_is_understood() -> None:
    assert all(find_unit(word) for word in ACCEPTED.split(", "))
