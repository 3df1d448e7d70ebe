"""Forecasts of use that comes now and then."""

from __future__ import annotations

import pytest

from stockroom.errors import BadInput
from stockroom.science.intermittent import fade, smooth

MONTHS_48 = [
    *(0, 0, 0, 0, 0, 5, 0, 0, 4, 0, 0, 0),
    *(0, 0, 0, 0, 0, 5, 0, 8, 0, 0, 5, 5),
    *(0, 7, 0, 4, 0, 0, 0, 0, 0, 0, 5, 0),
    *(7, 6, 4, 0, 0, 4, 0, 6, 5, 0, 0, 0),
]
"""S. Prabhakaran, Intermittent Demand Forecasting in R (r-statistics.co): 48 months, 15 of them with use."""
THEN_NOTHING = MONTHS_48[:30] + [0] * 18
SHORT = [2, 0, 0, 1, 0, 0, 0, 3, 0, 0, 0, 1]


def test_the_published_series_gives_the_published_forecasts() -> None:
    """Size 5.227, interval 3.243, Croston 1.612, corrected 1.531, all as printed there (first interval as start)."""
    found = smooth(MONTHS_48, 0.1, first_interval=6)
    assert (found.size, found.interval) == pytest.approx((5.227, 3.243), abs=5e-4)
    assert found.croston == pytest.approx(1.612, abs=5e-4)
    assert found.use == pytest.approx(1.531, abs=5e-4)


@pytest.mark.parametrize(("smoothing", "printed"), [(0.05, 1.214), (0.2, 2.281), (0.3, 2.709)])
def test_other_smoothings_of_the_published_series(smoothing: float, printed: float) -> None:
    """As printed at the same place."""
    assert smooth(MONTHS_48, smoothing, first_interval=6).croston == pytest.approx(printed, abs=6e-4)


def test_the_fading_forecast_of_the_published_series() -> None:
    """1.883 as printed at the same place; with nothing in the last 18 months 1.195 (Croston), 0.585 and 0.032."""
    assert fade(MONTHS_48, 0.1, 0.05) == pytest.approx(1.883, abs=5e-4)
    assert smooth(THEN_NOTHING, 0.1, first_interval=6).croston == pytest.approx(1.195, abs=5e-4)
    assert fade(THEN_NOTHING, 0.1, 0.05) == pytest.approx(0.585, abs=5e-4)
    assert fade(THEN_NOTHING, 0.1, 0.2) == pytest.approx(0.032, abs=5e-4)


def test_without_use_one_forecast_stays_and_the_other_fades() -> None:
    assert smooth(THEN_NOTHING, 0.1, first_interval=6).use == smooth(MONTHS_48[:30], 0.1, first_interval=6).use
    assert fade([*THEN_NOTHING, 0, 0]) < fade(THEN_NOTHING)


@pytest.mark.parametrize(
    ("series", "first_interval", "croston", "corrected"),
    [
        ([0, 0, 5, 0, 0, 0, 3, 0, 0, 4], 3, 1.527508, 1.451133),
        (SHORT, 1, 1.102194, 1.047084),
        ([0, 0, 0, 5, 0, 0], 4, 1.25, 1.1875),
    ],
)
def test_small_series_agree_with_open_libraries(
    series: list[float], first_interval: float, croston: float, corrected: float
) -> None:
    """Outputs of statsforecast 2.1.1, which begins with the first interval."""
    found = smooth(series, 0.1, first_interval=first_interval)
    assert found.croston == pytest.approx(croston, abs=5e-7)
    assert found.use == pytest.approx(corrected, abs=5e-7)


@pytest.mark.parametrize(
    ("series", "smoothing", "printed"),
    [([0, 0, 5, 0, 0, 0, 3, 0, 0, 4], 0.1, 1.041844), ([0, 0, 5, 0, 0, 0, 3, 0, 0, 4], 0.2, 1.542657)],
)
def test_small_series_fade_as_in_an_open_library(series: list[float], smoothing: float, printed: float) -> None:
    """Outputs of statsforecast 2.1.1, which begins with the first period's answer."""
    first = 1.0 if series[0] else 0.0
    assert fade(series, smoothing, smoothing, first_chance=first) == pytest.approx(printed, abs=5e-7)


def test_the_mean_interval_is_what_a_short_series_begins_with() -> None:
    """The same four uses: 1.10 a period from the first interval, 0.60 from the mean one; seven in twelve were used."""
    assert smooth(SHORT, 0.1).croston == pytest.approx(1.909 / 3.19, abs=5e-6)


def test_nothing_used_is_nothing_foretold() -> None:
    assert smooth([0] * 6).use == smooth([]).use == smooth([]).uses == 0
    assert fade([0] * 6) == fade([]) == 0


@pytest.mark.parametrize("smoothing", [0, -0.1, 1.1])
def test_what_is_no_smoothing_is_refused(smoothing: float) -> None:
    with pytest.raises(BadInput):
        smooth(SHORT, smoothing)
    with pytest.raises(BadInput):
        fade(SHORT, 0.1, smoothing)
