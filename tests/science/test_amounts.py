"""The amounts of recipe lines."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from quantity_strategies import quantities, strengths

from stockroom.errors import Unreadable
from stockroom.science.amounts import (
    Amount,
    AreaTimes,
    Each,
    Fixed,
    MakeUp,
    OfStrength,
    Share,
    ToReading,
    read_amount,
    show_amount,
)
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.strengths import Strength

numbers = st.fractions(Fraction(1, 1000), 1000, max_denominator=1000)
readings = st.lists(st.decimals("0", "14", places=2), min_size=2, max_size=2).map(sorted)
amounts = (
    st.builds(lambda parts: Share(parts=parts), st.fractions(0, 1, max_denominator=1000).filter(bool))
    | st.builds(lambda strength: OfStrength(strength=strength), strengths)
    | st.just(MakeUp())
    | st.builds(lambda number: Each(number=number), numbers)
    | st.builds(
        lambda number, one, other, grain: Each(number=number, sides_um=(one, other), grain=grain),
        numbers,
        st.integers(1, 10**8),
        st.integers(1, 10**8),
        st.sampled_from([None, "along", "across"]),
    )
    | st.builds(lambda times, margin: AreaTimes(times=times, margin_um=margin), numbers, st.integers(0, 10**6))
    | st.builds(lambda quantity: Fixed(quantity=quantity), quantities)
    | st.builds(
        lambda measure, ends: ToReading(measure=measure, low=ends[0], high=ends[1]),
        st.sampled_from(["pH", "density", "refractive index"]),
        readings,
    )
)


@given(amounts)
def test_an_amount_that_is_shown_reads_back_as_the_same(amount: Amount) -> None:
    assert read_amount(show_amount(amount)) == amount


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("1 in 4", Share(parts=Fraction(1, 4))),
        ("1 + 3", Share(parts=Fraction(1, 4))),
        ("0.5 % w/v", OfStrength(strength=Strength(number=Decimal("0.5"), unit="% w/v"))),
        ("4 g per litre", OfStrength(strength=Strength(number=Decimal(4), unit="g/L"))),
        ("0.1 M", OfStrength(strength=Strength(number=Decimal("0.1"), unit="mol/L"))),
        ("2 each of 30 x 40 cm", Each(number=Fraction(2), sides_um=(300_000, 400_000))),
        ("1 each of 210 x 297 mm, grain Along", Each(number=Fraction(1), sides_um=(210_000, 297_000), grain="along")),
        ("Make up", MakeUp()),
        ("make up to volume", MakeUp()),
        ("2 each", Each(number=Fraction(2))),
        ("1/2 each", Each(number=Fraction(1, 2))),
        ("1 x area", AreaTimes(times=Fraction(1))),
        ("2 × area + 3 cm", AreaTimes(times=Fraction(2), margin_um=30_000)),
        ("50 mL", Fixed(quantity=Quantity(Dimension.VOLUME, 50_000))),
        ("5 m", Fixed(quantity=Quantity(Dimension.LENGTH, 5_000_000))),
        ("30 x 40 cm", Fixed(quantity=Quantity(Dimension.AREA, 120_000))),
        ("to pH 8.0-8.5", ToReading(measure="pH", low=Decimal("8.0"), high=Decimal("8.5"))),
        ("to pH 8 – 8,5", ToReading(measure="pH", low=Decimal(8), high=Decimal("8.5"))),
        ("to density 1.02 to 1.03", ToReading(measure="density", low=Decimal("1.02"), high=Decimal("1.03"))),
    ],
)
def test_a_recipe_line_is_read_as_the_trade_writes_it(text: str, amount: Amount) -> None:
    assert read_amount(text) == amount


@pytest.mark.parametrize(
    "text",
    ["1:4", "1/4", "5 %", "about 5 mL", "0 each", "0 x area", "1 x area + 3 g", "to pH 8", "to pH 9-8", "5", "some"],
)
def test_an_amount_that_says_too_little_or_two_things_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_amount(text)
