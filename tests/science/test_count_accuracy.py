"""How far a count agrees with the books."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.errors import BadInput
from stockroom.science.count_accuracy import agreeing

TRAP = [(100, 95), (100, 105)]


@pytest.mark.parametrize(("percent", "right"), [(1, 0), (3, 0), (5, 2)])
def test_sums_that_agree_hide_lots_that_do_not(percent: int, right: int) -> None:
    """Books of 100 and 100, counts of 95 and 105: at 1 and 3 % neither is right, at 5 % both are.

    The example and its tolerances for classes A, B and C are printed at supplychainmetric.com, "Inventory accuracy".
    """
    assert agreeing(TRAP, Fraction(percent, 100)) == right


def test_what_is_exactly_right_agrees_without_any_tolerance() -> None:
    assert agreeing([(7, 7), (0, 0), (0, 1), (1, 0)], Fraction(0)) == 2


def test_a_tolerance_below_nothing_is_refused() -> None:
    with pytest.raises(BadInput):
        agreeing(TRAP, Fraction(-1, 100))
