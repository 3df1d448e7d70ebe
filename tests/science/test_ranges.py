"""How figures with a spread are written: never with more digits than they have."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, exactly, give_or_take, rounded, show_best, show_range, spread


@pytest.mark.parametrize(
    ("figure", "written", "alone"),
    [
        (Range(low=93.58, best=98.43, high=104.43, unit="%"), "94 to 104 %, likeliest 98 %", "about 100 %"),
        (Range(low=1.538, best=1.626, high=1.704, unit="g/L"), "1.54 to 1.70 g/L, likeliest 1.63 g/L", "about 1.6 g/L"),
        (give_or_take(1.60041, 0.0058, "g/L"), "1.59 to 1.61 g/L, likeliest 1.60 g/L", "about 1.60 g/L"),
        (give_or_take(1.60041, 0.0002, "g/L"), "1.60 g/L", "about 1.60 g/L"),
        (give_or_take(240.36, 3.4, "g"), "237 to 244 g, likeliest 240 g", "about 240 g"),
        (give_or_take(12.457, 0.003, "pH"), "12.454 to 12.460 pH, likeliest 12.457 pH", "about 12.46 pH"),
        (exactly(74.093, "g/mol"), "74.093 g/mol", "about 74.093 g/mol"),
        (exactly(0, "%"), "0 %", "about 0 %"),
    ],
)
def test_a_figure_is_rounded_to_the_place_of_its_uncertainty(figure: Range, written: str, alone: str) -> None:
    """Guide to the Expression of Uncertainty in Measurement, 7.2.6: digits consistent with the uncertainty (memory)."""
    assert show_range(figure) == written
    assert show_best(figure) == alone


@given(st.floats(0.001, 10_000), st.floats(1e-6, 0.9))
def test_no_digit_is_finer_than_a_tenth_of_the_uncertainty_and_none_beyond_three(best: float, share: float) -> None:
    figure = give_or_take(best, best * share, "g")
    for value in rounded(figure):
        step = Decimal(1).scaleb(int(value.as_tuple().exponent))
        if value % 1:
            assert float(step) > figure.half_width / 10 * 0.999
            assert float(step) * 1_000 > figure.high * 0.999


@given(st.lists(st.floats(0, 100), min_size=1, max_size=5))
def test_figures_of_one_thing_are_spanned(values: list[float]) -> None:
    figure = spread(values, "g/L")
    assert (figure.low, figure.high) == (min(values), max(values))


def test_what_is_no_range_and_a_negative_reading_are_refused() -> None:
    with pytest.raises(BadInput, match="do not rise"):
        Range(low=2, best=1, high=3, unit="g")
    with pytest.raises(BadInput, match="negative"):
        give_or_take(-1, 0.1, "mL")
