"""Strengths in other units, and mixing."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput, Unreadable
from stockroom.science.conversions import convert, mix, read_unit
from stockroom.science.strengths import UNITS, Strength, read_strength

FIGURES = {
    "molar_mass": Decimal("74.093"),
    "density_g_per_ml": Decimal("1.001"),
    "solute_density_g_per_ml": Decimal("0.789"),
}


def test_0_0203_moles_a_litre_are_1_504_grams() -> None:
    """Bates, Bower and Smith 1956 with 74.093 g/mol."""
    found = convert(read_strength("0.0203 mol/L"), "g/L", molar_mass=Decimal("74.093"))
    assert float(found.number) == pytest.approx(1.504, abs=0.0005)


@pytest.mark.parametrize(("g_per_l", "millimoles"), [(1.40, 18.90), (1.50, 20.24), (1.60, 21.59), (1.73, 23.35)])
def test_grams_and_millimoles_of_calcium_hydroxide(g_per_l: float, millimoles: float) -> None:
    """Computed from 74.093 g/mol."""
    found = convert(read_strength(f"{g_per_l} g/L"), "mmol/L", molar_mass=Decimal("74.093"))
    assert float(found.number) == pytest.approx(millimoles, abs=0.005)


def test_a_tenth_molar_dibasic_ammonium_citrate_is_2_26_per_cent() -> None:
    """226.19 g/mol, 22.62 g/L: a museum's encyclopaedia of materials (read; grams computed)."""
    found = convert(read_strength("0.1 mol/L"), "% w/v", molar_mass=Decimal("226.19"))
    assert float(found.number) == pytest.approx(2.26, abs=0.005)


@given(st.decimals("0.001", "50", places=3), st.sampled_from(UNITS), st.sampled_from(UNITS))
def test_there_and_back_is_the_same_strength(number: Decimal, one: str, other: str) -> None:
    strength = Strength(number=number, unit=one)
    try:
        there = convert(strength, other, **FIGURES)
    except BadInput as refused:
        assert "more than the whole" in refused.message
        return
    assert float(convert(there, one, **FIGURES).number) == pytest.approx(float(number), rel=1e-9)


def test_what_a_conversion_needs_is_named() -> None:
    with pytest.raises(BadInput, match="molar mass"):
        convert(read_strength("1 g/L"), "mol/L")
    with pytest.raises(BadInput, match="not a unit"):
        convert(read_strength("1 g/L"), "spoons")
    assert read_unit("mol/l") == "mol/L"
    with pytest.raises(Unreadable):
        read_unit("spoons")


def test_topping_up_thins_and_mixing_lies_between() -> None:
    stock = read_strength("1.6 g/L")
    assert mix(stock, 300, None, 200).show() == "0.96 g/L"
    assert mix(stock, 100, read_strength("0.4 g/L"), 100).show() == "1 g/L"


@pytest.mark.parametrize(("strength", "why"), [("70 % v/v", "96.3 mL"), ("3 % w/w", "by mass"), ("5 ppm", "by mass")])
def test_what_does_not_add_by_volume_is_refused(strength: str, why: str) -> None:
    """50 mL of ethanol and 50 mL of water make 96.26 mL: two public pages (read)."""
    with pytest.raises(BadInput, match=why):
        mix(read_strength(strength), 100, None, 100)


def test_mixing_nothing_or_other_units_is_refused() -> None:
    with pytest.raises(BadInput, match="more than nothing"):
        mix(read_strength("1 g/L"), 0, None, 100)
    with pytest.raises(BadInput, match="one unit"):
        mix(read_strength("1 g/L"), 100, read_strength("1 mol/L"), 100)
