"""The trend of a jar's strength, and the days on which it meets the limit."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, exactly, give_or_take
from stockroom.science.trend import Measured, fit_trend

START = date(2026, 1, 1)
LIMIT = exactly(1.45, "g/L")


def checks(*figures: tuple[int, float], error: float = 0.01) -> list[Measured]:
    return [
        Measured(day=START + timedelta(days=day), figure=give_or_take(value, error, "g/L")) for day, value in figures
    ]


def test_two_checks_are_no_trend() -> None:
    assert fit_trend(checks((0, 1.6), (30, 1.5)), LIMIT) is None


def test_three_checks_on_one_day_are_no_trend() -> None:
    assert fit_trend(checks((5, 1.6), (5, 1.5), (5, 1.55)), LIMIT) is None


def test_a_straight_fall_meets_the_limit_on_its_day() -> None:
    """1.60 less 0.001 a day is 1.45 on day 150."""
    trend = fit_trend(checks((0, 1.60), (30, 1.57), (60, 1.54)), LIMIT)
    assert trend is not None
    assert trend.likeliest in (START + timedelta(days=150), START + timedelta(days=151))
    assert trend.earliest is not None and trend.latest is not None
    assert trend.earliest < trend.likeliest < trend.latest


def test_a_line_that_has_crossed_the_limit_foretells_no_day() -> None:
    trend = fit_trend(checks((0, 1.60), (30, 1.45), (60, 1.30)), LIMIT)
    assert trend is not None
    assert trend.latest == trend.last_day
    assert trend.why.endswith("has fallen below the limit of 1.45 g/L already.")


def test_slope_start_and_their_errors_are_those_of_a_printed_example() -> None:
    """Pearson's data with York's weights reduce, with equal errors in y alone, to ordinary least squares.

    Slope -0.5396 and intercept 5.7612: York 1966, Can. J. Phys. 44, 1079 (from memory).
    """
    pearson = [
        (0, 5.9),
        (9, 5.4),
        (18, 4.4),
        (26, 4.6),
        (33, 3.5),
        (44, 3.7),
        (52, 2.8),
        (61, 2.8),
        (65, 2.4),
        (74, 1.5),
    ]
    trend = fit_trend(checks(*pearson, error=0.3), exactly(0.1, "g/L"))
    assert trend is not None
    assert 10 * trend.per_day.best == pytest.approx(-0.5396, abs=0.0001)
    assert trend.at_first == pytest.approx(5.7612, abs=0.0001)


def test_checks_that_scatter_more_than_their_errors_widen_the_range() -> None:
    even = fit_trend(checks((0, 1.60), (30, 1.57), (60, 1.54), (90, 1.51)), LIMIT)
    uneven = fit_trend(checks((0, 1.60), (30, 1.63), (60, 1.48), (90, 1.51)), LIMIT)
    assert even is not None and uneven is not None
    assert uneven.per_day.half_width > 2 * even.per_day.half_width


def test_a_check_with_a_large_error_weighs_less() -> None:
    sure = checks((0, 1.6), (30, 1.6), (60, 1.6))
    unsure = checks((90, 1.0), error=1.0)
    trend = fit_trend([*sure, *unsure], LIMIT)
    assert trend is not None
    assert abs(trend.per_day.best) < 0.0001


def test_a_level_jar_names_no_likeliest_day() -> None:
    trend = fit_trend(checks((0, 1.6), (30, 1.6), (60, 1.6)), LIMIT)
    assert trend is not None
    assert trend.likeliest is None and trend.latest is None
    assert trend.earliest is not None and "may not at all" in trend.why


def test_a_rising_jar_does_not_come_near_the_limit() -> None:
    trend = fit_trend(checks((0, 1.5), (300, 1.6), (600, 1.7)), exactly(1.0, "g/L"))
    assert trend is not None
    assert trend.earliest is None and "does not come near" in trend.why


def test_a_limit_that_is_a_range_widens_the_days() -> None:
    falling = checks((0, 1.60), (30, 1.57), (60, 1.54))
    sharp = fit_trend(falling, LIMIT)
    blunt = fit_trend(falling, Range(low=1.38, best=1.45, high=1.52, unit="g/L"))
    assert sharp is not None and blunt is not None
    assert sharp.earliest is not None and blunt.earliest is not None and sharp.latest is not None
    assert blunt.earliest < sharp.earliest
    assert blunt.latest is None or blunt.latest > sharp.latest


@given(st.permutations([(0, 1.6), (20, 1.58), (45, 1.57), (80, 1.5)]), st.integers(0, 1_000))
def test_neither_the_order_of_checks_nor_the_calendar_changes_the_line(
    figures: list[tuple[int, float]], later: int
) -> None:
    trend = fit_trend(checks(*((day + later, value) for day, value in figures)), LIMIT)
    plain = fit_trend(checks((0, 1.6), (20, 1.58), (45, 1.57), (80, 1.5)), LIMIT)
    assert trend is not None and plain is not None
    assert trend.per_day.best == pytest.approx(plain.per_day.best)
    assert trend.at(trend.last_day).best == pytest.approx(plain.at(plain.last_day).best)


def test_the_band_is_narrowest_among_the_checks() -> None:
    trend = fit_trend(checks((0, 1.60), (30, 1.57), (60, 1.54)), LIMIT)
    assert trend is not None
    middle = trend.at(START + timedelta(days=30)).half_width
    assert trend.at(START).half_width > middle
    assert trend.at(START + timedelta(days=200)).half_width > 2 * middle


def test_the_checks_and_the_limit_are_listed() -> None:
    trend = fit_trend(checks((0, 1.60), (30, 1.57), (60, 1.54)), LIMIT)
    assert trend is not None
    assert [used.what for used in trend.used] == [
        "check of 2026-01-01",
        "check of 2026-01-31",
        "check of 2026-03-02",
        "limit",
    ]


def test_other_units_and_checks_without_error_are_refused() -> None:
    with pytest.raises(BadInput, match="one unit"):
        fit_trend(checks((0, 1.6), (30, 1.5), (60, 1.4)), exactly(90, "%"))
    with pytest.raises(BadInput, match="no measurement is exact"):
        fit_trend(checks((0, 1.6), (30, 1.5), (60, 1.4), error=0), LIMIT)
