"""What may be used while a delivery is awaited."""

from __future__ import annotations

from itertools import accumulate, islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.delivery_demand import Steady, Uses, likely_at_most


def cumulated(uses: Uses, sizes: list[int], number: int) -> list[float]:
    return list(accumulate(chance for _, chance in islice(uses.totals(sizes), number)))


def seen(count: int, periods: float, ahead: float) -> Uses:
    return Uses(mean=(count + 0.5) * ahead / periods, shape=count + 0.5)


def test_uses_of_unequal_size_are_summed_exactly() -> None:
    """Half a use of 3, 5 or 7, by Panjer's recursion, worked out apart with fractions: 96 % at 10, the 95 % point.

    The normal distribution of the same mean and spread says 8.6: too low.
    """
    uses = Uses(mean=0.5, shape=None)
    chances = dict(zip(range(11), cumulated(uses, [3, 5, 7], 11), strict=True))
    assert [chances[total] for total in (0, 3, 5, 7, 10)] == pytest.approx(
        [0.60653, 0.70762, 0.80871, 0.91822, 0.96081], abs=5e-6
    )
    assert likely_at_most(uses, [3, 5, 7], 0.05) == 10


def test_numbers_of_uses_are_negative_binomial() -> None:
    """Mean 2 and variance 4, worked out exactly: shape 2, chance one half; six is the 95 % point."""
    uses = Uses(mean=2, shape=2)
    assert cumulated(uses, [1], 7) == pytest.approx([0.25, 0.5, 0.6875, 0.8125, 0.890625, 0.9375, 0.96484375])
    assert likely_at_most(uses, [1], 0.05) == 6


@pytest.mark.parametrize(("count", "periods", "expected"), [(3, 24, [0.7557, 0.9591, 0.9943]), (0, 12, [0.9258])])
def test_few_events_foretell_no_more_than_they_can(count: int, periods: int, expected: list[float]) -> None:
    """Two months ahead of 3 uses in 24 months, or none in 12: scipy's nbinom of shape k + 1/2.

    A Poisson distribution of the plain rate says 0.7788 and 1.0000: too sure.
    """
    assert cumulated(seen(count, periods, 2), [1], len(expected)) == pytest.approx(expected, abs=5e-5)


def test_steady_poisson_stock() -> None:
    """Mean 6: 91.61 % at 9, 95.74 % at 10 (computed by scipy's poisson)."""
    uses = Uses(mean=6, shape=None)
    assert cumulated(uses, [1], 11)[9:] == pytest.approx([0.9161, 0.9574], abs=5e-5)
    assert likely_at_most(uses, [1], 0.05) == 10


@given(mean=st.floats(0.01, 30), shape=st.none() | st.floats(0.5, 400), sizes=st.lists(st.integers(1, 9), min_size=1))
def test_chances_sum_to_one_and_have_their_mean(mean: float, shape: float | None, sizes: list[int]) -> None:
    reached = whole = 0.0
    for total, chance in Uses(mean=mean, shape=shape).totals(sizes):
        whole += chance
        reached += total * chance
        if whole > 1 - 1e-11 or total > 20_000:
            break
    assert whole == pytest.approx(1, abs=1e-9)
    assert reached == pytest.approx(mean * sum(sizes) / len(sizes), rel=1e-5)


@given(mean=st.floats(0.01, 20), chance=st.floats(0.001, 0.5))
def test_with_uses_of_one_the_use_that_triggers_the_order_adds_one(mean: float, chance: float) -> None:
    """So that 'order when below 3' and 'order at 2' are the same where everything is taken one by one."""
    uses = Uses(mean=mean, shape=2.5)
    assert likely_at_most(uses, [1], chance, with_one=True) == 1 + likely_at_most(uses, [1], chance)


def test_very_many_uses_do_not_lose_the_chance_of_none() -> None:
    uses = Uses(mean=2_000, shape=9_000)
    assert 2_000 < likely_at_most(uses, [1], 0.05) < 2_200


def test_odd_sizes_are_rounded_up_and_never_down() -> None:
    exact = likely_at_most(Uses(mean=3, shape=3.5), [100, 150, 200], 0.05)
    odd = likely_at_most(Uses(mean=3, shape=3.5), [100_003, 150_007, 199_999], 0.05)
    assert 1_000 * exact <= odd <= 1_010 * exact + 1_000


def test_a_large_use_among_small_ones_does_not_make_the_small_ones_large() -> None:
    """99 uses of 1 and one of 10,000: what is most likely used in ten uses is still about ten."""
    uses = Uses(mean=10, shape=100.5)
    assert likely_at_most(uses, [1_000] * 99 + [10_000_000], 0.2) <= 200_000


def test_too_many_uses_of_odd_sizes_are_steady_use() -> None:
    with pytest.raises(BadInput, match="steady use"):
        likely_at_most(Uses(mean=1e6, shape=None), [1], 0.05)
    with pytest.raises(BadInput, match="steady use"):
        likely_at_most(Uses(mean=500, shape=None), [10_007, 20_011], 0.05)


@pytest.mark.parametrize(
    ("told", "chance", "point", "within"),
    [
        # W. J. Stevenson, Operations Management, 14th ed., ch. 12, ex. 8: 59.40 with z = 1.88
        ((50, 5, 1, 0), 0.03, 59.40, 0.01),
        # B. W. Taylor, Introduction to Management Science, ch. 16: R = 326.1 with z = 1.65
        ((30, 5, 10, 0), 0.05, 326.1, 0.1),
        # printed 118 with z = 0.8416 (read at justaaa.com, question 787684)
        ((12, 4, 9, 0), 0.20, 118, 0.1),
        # printed: safety stock 154 with z = 1.28 (a homework page, textbook not named)
        ((30, 3, 7, 4), 0.10, 210 + 154, 0.3),
        # printed 1,042, its spread rounded up to 207 before it is multiplied by 1.65; computed 1,041.4
        ((100, 20, 7, 2), 0.05, 1_041.4, 1.2),
        # from memory, Heizer, Render and Munson, Operations Management, ch. 12: 1,004 with z = 1.65
        ((150, 16, 5, 1), 0.05, 1_004, 1),
        # from memory, Render, Stair and Hanna, Quantitative Analysis for Management, ch. 6: 71.28 with z = 1.88
        ((15, 3, 4, 0), 0.03, 71.28, 0.01),
        # from memory, the same: 163.74 with z = 1.555
        ((20, 4, 5, 2), 0.06, 163.74, 0.02),
        # from memory, Krajewski and Ritzman, Operations Management: 101,118 with z = 1.65
        ((12_000, 3_000, 5, 2), 0.05, 101_118, 130),
    ],
)
def test_steady_use_has_the_order_point_of_the_textbooks(
    told: tuple[float, float, float, float], chance: float, point: float, within: float
) -> None:
    """Tables round the normal quantile: 1.65 stands for 1.6449, 1.88 for 1.8808. The sources stand at each row."""
    per_day, per_day_spread, days, days_spread = told
    steady = Steady(per_day=per_day, per_day_spread=per_day_spread, days=days, days_spread=days_spread)
    assert steady.order_point(chance) == pytest.approx(point, abs=within)


def test_a_page_whose_figures_do_not_follow_from_its_formula_is_not_followed() -> None:
    """It prints a safety stock of 64.6 for 30 ± 6 a day and 7 ± 1.5 days at 90 %; its own formula gives 61.08."""
    steady = Steady(per_day=30, per_day_spread=6, days=7, days_spread=1.5)
    assert steady.spread == pytest.approx(47.718, abs=5e-4)
    assert 1.28 * steady.spread == pytest.approx(61.08, abs=5e-3)


@pytest.mark.parametrize("chance", [0, -0.1, 0.6, 1, 0.00001])
def test_a_chance_that_cannot_be_planned_for_is_refused(chance: float) -> None:
    with pytest.raises(BadInput):
        likely_at_most(Uses(mean=1, shape=None), [1], chance)
    with pytest.raises(BadInput):
        Steady(per_day=1, per_day_spread=0, days=1, days_spread=0).order_point(chance)


@pytest.mark.parametrize("sizes", [[], [0], [3, -1]])
def test_sizes_must_be_above_nothing(sizes: list[int]) -> None:
    with pytest.raises(BadInput):
        likely_at_most(Uses(mean=1, shape=None), sizes, 0.05)


def test_what_cannot_be_steady_is_refused() -> None:
    with pytest.raises(BadInput):
        Steady(per_day=1, per_day_spread=1, days=-1, days_spread=0)
