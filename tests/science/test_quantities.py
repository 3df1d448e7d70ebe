"""How amounts are kept and shown."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from quantity_strategies import quantities

from stockroom.science.quantities import Dimension, Quantity, amount_text, show, show_about
from stockroom.science.reading import read_quantity


@given(quantities)
def test_what_is_shown_reads_back_as_the_same_amount(quantity: Quantity) -> None:
    assert read_quantity(show(quantity), expect=quantity.dimension).quantity == quantity


@given(quantities)
def test_what_programs_get_reads_back_as_the_same_amount(quantity: Quantity) -> None:
    assert read_quantity(" ".join(amount_text(quantity))).quantity == quantity


@pytest.mark.parametrize("dimension", Dimension)
def test_nothing_reads_back_as_nothing_where_nothing_is_allowed(dimension: Dimension) -> None:
    nothing = Quantity(dimension, 0)
    assert read_quantity(show(nothing), expect=dimension, allow_zero=True).quantity == nothing


@given(st.sampled_from(Dimension), st.integers(-(10**15), 10**15))
def test_a_programs_number_is_plain_decimal_without_exponent_or_trailing_zeros(
    dimension: Dimension, quanta: int
) -> None:
    number, _ = amount_text(Quantity(dimension, quanta))
    assert "E" not in number and number == f"{Decimal(number):f}"
    assert "." not in number or not number.endswith(("0", "."))


@pytest.mark.parametrize(
    ("dimension", "quanta", "shown", "program"),
    [
        (Dimension.VOLUME, 1_250_000, "1.25 L", ("1250", "mL")),
        (Dimension.VOLUME, 125_000, "125 mL", ("125", "mL")),
        (Dimension.VOLUME, 630, "0.63 mL", ("0.63", "mL")),
        (Dimension.MASS, 2_500_000, "2.5 g", ("2.5", "g")),
        (Dimension.MASS, 750_000, "750 mg", ("0.75", "g")),
        (Dimension.MASS, 1, "1 µg", ("0.000001", "g")),
        (Dimension.MASS, 25_000_000_000, "25 kg", ("25000", "g")),
        (Dimension.AREA, 400_000, "0.4 m²", ("4000", "cm2")),
        (Dimension.AREA, 12_838_400, "12.8384 m²", ("128384", "cm2")),
        (Dimension.AREA, 120_000, "1200 cm²", ("1200", "cm2")),
        (Dimension.LENGTH, 1_200_000, "1.2 m", ("1200", "mm")),
        (Dimension.LENGTH, 340_000, "340 mm", ("340", "mm")),
        (Dimension.PIECES, 12_000, "12 pieces", ("12", "pieces")),
        (Dimension.PIECES, 1_000, "1 piece", ("1", "pieces")),
        (Dimension.USES, 500, "0.5 uses", ("0.5", "uses")),
        (Dimension.MASS, -2_500_000, "-2.5 g", ("-2.5", "g")),
    ],
)
def test_amounts_are_shown_in_the_unit_a_person_would_say(
    dimension: Dimension, quanta: int, shown: str, program: tuple[str, str]
) -> None:
    assert show(Quantity(dimension, quanta)) == shown
    assert amount_text(Quantity(dimension, quanta)) == program


@pytest.mark.parametrize(
    ("quanta", "digits", "shown"),
    [
        (1_587_000, 2, "about 1.6 g"),
        (1_650_000, 2, "about 1.6 g"),
        (1_750_000, 2, "about 1.8 g"),
        (999_600, 3, "about 1 g"),
        (7, 2, "about 7 µg"),
    ],
)
def test_an_estimate_is_rounded_half_to_even(quanta: int, digits: int, shown: str) -> None:
    assert show_about(Quantity(Dimension.MASS, quanta), digits) == shown


def test_amounts_of_one_kind_add_up_and_those_of_two_kinds_cannot_be_added() -> None:
    one, other = Quantity(Dimension.MASS, 3), Quantity(Dimension.MASS, 5)
    assert one + other - other == one
    assert one + -one == Quantity(Dimension.MASS, 0)
    with pytest.raises(TypeError):
        one + Quantity(Dimension.VOLUME, 1)
