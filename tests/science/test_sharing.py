"""Sharing and rounding that lose nothing, against published splits."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.science.sharing import round_half_even_ratio, share_out


def test_five_cents_by_thirty_and_seventy() -> None:
    """M. Fowler, Patterns of Enterprise Application Architecture, 2002, "Money": Foemmel's conundrum.

    Rounding each gives 2 and 4, cutting each off 1 and 3; together they must be 5.
    """
    assert share_out(5, [30, 70]) == [2, 3]


def test_a_sum_by_four_shares_keeps_its_cents() -> None:
    """1,027.59 by 20, 70, 5 and 5 %, the example published with that conundrum; cut off, 3 cents are missing.

    The largest remainders get them: worked by hand, 51.3795 twice and 719.313, 205.518.
    """
    shares = share_out(102_759, [20, 70, 5, 5])
    assert shares == [20_552, 71_931, 5_138, 5_138]
    assert sum(shares) == 102_759


@pytest.mark.parametrize(
    ("text", "rounded"),
    [("0.125", "0.12"), ("0.135", "0.14"), ("2.675", "2.68"), ("0.005", "0.00"), ("0.015", "0.02"), ("7.325", "7.32")],
)
def test_halves_go_to_even(text: str, rounded: str) -> None:
    """As the decimal arithmetic of Python's standard library rounds by default (M. Cowlishaw's specification)."""
    above, below = Decimal(text).as_integer_ratio()
    assert Decimal(round_half_even_ratio(100 * above, below)).scaleb(-2) == Decimal(rounded)


@given(above=st.integers(-(10**6), 10**6), below=st.integers(1, 10**4))
def test_rounding_is_that_of_the_standard_library(above: int, below: int) -> None:
    exact = (Decimal(above) / Decimal(below)).quantize(Decimal(1), rounding=ROUND_HALF_EVEN)
    assert round_half_even_ratio(above, below) == int(exact)


@given(total=st.integers(-(10**9), 10**9), weights=st.lists(st.integers(0, 10**6), min_size=1, max_size=9))
def test_shares_add_up_and_none_is_a_unit_away_from_its_due(total: int, weights: list[int]) -> None:
    """Except where all weights are nothing, which is refused."""
    if not any(weights):
        with pytest.raises(ValueError, match="nothing to share by"):
            share_out(total, weights)
        return
    shares = share_out(total, weights)
    assert sum(shares) == total
    for share, weight in zip(shares, weights, strict=True):
        assert abs(share * sum(weights) - total * weight) < sum(weights)
