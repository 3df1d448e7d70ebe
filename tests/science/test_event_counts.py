"""Limits of a rate from a count of events."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.event_counts import MOST_EVENTS, chance_of_at_most, exact_limits, upper_limit


@pytest.mark.parametrize(
    ("count", "lower", "upper", "one_sided"),
    [
        (0, 0, 3.6889, 2.9957),
        (1, 0.0253, 5.5716, 4.7439),
        (2, 0.2422, 7.2247, 6.2958),
        (3, 0.6187, 8.7673, 7.7537),
        (4, 1.0899, 10.2416, 9.1535),
        (5, 1.6235, 11.6683, 10.5130),
        (10, 4.7954, 18.3904, 16.9622),
    ],
)
def test_limits_are_those_of_the_table(count: int, lower: float, upper: float, one_sided: float) -> None:
    """F. Garwood, Biometrika 28 (1936) 437-442, as the manual of R's epitools prints for 0 (3.689) and 10 (4.80-18.39);

    the other rows by the chi-square quantiles of scipy 1.17 (half of those of 2k and 2k + 2 degrees of freedom).
    """
    assert exact_limits(count) == pytest.approx((lower, upper), abs=5e-5)
    assert upper_limit(count) == pytest.approx(one_sided, abs=5e-5)


def test_none_seen_means_three_at_most() -> None:
    """The rule of three: E. Eypasch et al., BMJ 311 (1995) 619-620. Exactly it is -ln 0.05."""
    assert upper_limit(0) == pytest.approx(3, abs=0.005)


def test_chances_of_a_count() -> None:
    """G. Cachon, C. Terwiesch, Matching Supply with Demand (from memory): mean 6, more than 8 in 15.28 %.

    The lower counts of a mean of 0.8 are computed by scipy 1.17.
    """
    assert 1 - chance_of_at_most(8, 6) == pytest.approx(0.1528, abs=5e-5)
    assert [chance_of_at_most(k, 0.8) for k in range(5)] == pytest.approx(
        [0.4493, 0.8088, 0.9526, 0.9909, 0.9986], abs=5e-5
    )


@given(count=st.integers(0, 300), sure=st.floats(0.5, 0.999))
def test_limits_miss_with_the_chance_they_say(count: int, sure: float) -> None:
    lower, upper = exact_limits(count, sure)
    assert lower <= count < upper
    assert chance_of_at_most(count, upper) == pytest.approx((1 - sure) / 2, rel=1e-6)
    if count:
        assert 1 - chance_of_at_most(count - 1, lower) == pytest.approx((1 - sure) / 2, rel=1e-6)


@pytest.mark.parametrize(("count", "sure"), [(-1, 0.95), (MOST_EVENTS + 1, 0.95), (3, 0), (3, 1)])
def test_what_is_no_count_or_no_chance_is_refused(count: int, sure: float) -> None:
    with pytest.raises(BadInput):
        exact_limits(count, sure)
