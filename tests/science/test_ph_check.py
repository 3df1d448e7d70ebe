"""pH and conductivity: they can show that a jar is weak, hardly that it is saturated."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.ph_check import judge_conductivity, judge_ph, ph_at
from stockroom.science.temperature import curve, row_of

HJ_1147 = {0: 13.416, 5: 13.210, 10: 13.011, 15: 12.820, 20: 12.637, 25: 12.460, 30: 12.292, 35: 12.130, 40: 11.975}
NBS = {0: 13.423, 5: 13.207, 10: 13.003, 15: 12.810, 20: 12.627, 25: 12.454, 30: 12.289, 35: 12.133, 40: 11.984}
HJ_1147 |= {45: 11.828, 50: 11.697}
NBS |= {45: 11.841, 50: 11.705, 55: 11.574, 60: 11.449}


@pytest.mark.parametrize(("name", "table", "verified"), [("HJ 1147", HJ_1147, "secondary"), ("NBS", NBS, "memory")])
def test_the_standards_for_ph_are_held_as_published(name: str, table: dict[int, float], verified: str) -> None:
    """HJ 1147-2020, annex (transcribed); Bates 1962 and Buck et al. 2002, those from memory."""
    found = curve("calcium_hydroxide_ph", "calcium hydroxide", f"pH by {name}")
    assert {celsius: float(row.span[0]) for celsius, row in found.points} == table
    assert {row.verified for _, row in found.points} == {verified}


def test_both_standards_agree_with_the_measured_point() -> None:
    """12.45 at 25 °C in 0.0203 mol/L: Bates, Bower and Smith 1956 (abstract read)."""
    assert ph_at(25).figure.low == pytest.approx(12.45, abs=0.005)
    assert ph_at(25).figure.half_width < 0.01


def test_a_degree_moves_the_reading_by_0_033() -> None:
    """Bates, Bower and Smith 1956 (abstract read), against the slope of both tables from 20 to 30 °C."""
    degree = row_of("calcium_hydroxide_ph", "calcium hydroxide", "fall of pH for a degree warmer")
    slope = (ph_at(20).figure.best - ph_at(30).figure.best) / 10
    assert float(degree.span[0]) == pytest.approx(slope, abs=0.002)


def test_half_the_strength_reads_only_0_28_lower() -> None:
    """Dilution value of Bates, Bower and Smith 1956 (abstract read): 12.17 instead of 12.45."""
    verdict = judge_ph(ph_at(25).figure.best - 0.28, 0.01, 25)
    assert verdict.percent is not None
    assert verdict.percent.best == pytest.approx(50)
    assert verdict.word == "weak"


def test_12_35_within_a_tenth_at_25_degrees_cannot_tell_and_says_titrate() -> None:
    """0.1 pH is 28 % of strength (computed from the dilution value)."""
    verdict = judge_ph(12.35, 0.1, 25)
    assert verdict.word == "cannot tell"
    assert verdict.next_step.startswith("Titrate")
    assert {row.verified for row in verdict.rows} >= {"secondary", "memory", "common practice"}


@given(st.floats(0, 14), st.floats(0, 2), st.floats(0, 50))
def test_a_ph_never_says_saturated(reading: float, error: float, celsius: float) -> None:
    """10 % of strength is 0.04 pH: no meter of a bench tells that."""
    assert judge_ph(reading, error, celsius).word in ("weak", "cannot tell", "reads too high")


def test_a_degree_of_doubt_about_the_temperature_widens_the_range() -> None:
    narrow, wide = (judge_ph(12.3, 0.01, 25, error_celsius=error).percent for error in (0, 3))
    assert narrow is not None and wide is not None
    # Three degrees are a tenth of a pH.
    assert wide.half_width > 5 * narrow.half_width


def test_the_same_reading_means_less_in_a_cold_room() -> None:
    """Saturated solution reads 12.63 at 20 °C and 12.46 at 25 °C (HJ 1147-2020)."""
    assert judge_ph(12.4, 0.02, 25).word == "cannot tell"
    assert judge_ph(12.4, 0.02, 20).word == "weak"


def test_buffers_that_do_not_reach_the_solution_are_named() -> None:
    """Buffers 7 and 10 do not bracket 12.5: common practice, no source."""
    assert any("7 and 10" in caution for caution in judge_ph(12.4, 0.1, 25, buffers=(10, 7)).cautions)
    assert judge_ph(12.4, 0.1, 25, buffers=(10, 12.45)).cautions == ()
    assert judge_ph(12.4, 0.1, 25).cautions != ()


@pytest.mark.parametrize(
    ("reading", "error", "celsius", "why"),
    [
        (-1, 0.1, 25, "not one that a meter shows"),
        (15, 0.1, 25, "not one that a meter shows"),
        (12.4, -0.1, 25, "error"),
        (12.4, 0.1, 60, "from 0 to 50"),
        (float("nan"), 0.1, 25, "not one"),
    ],
)
def test_readings_of_ph_that_cannot_be_are_refused(reading: float, error: float, celsius: float, why: str) -> None:
    with pytest.raises(BadInput, match=why):
        judge_ph(reading, error, celsius)


@pytest.mark.parametrize(
    ("reading", "ph_change", "word"),
    [
        (9.0, None, "saturated"),
        (8.9, None, "saturated"),
        (8.0, None, "cannot tell"),
        (6.4, None, "cannot tell"),
        (6.0, None, "weak"),
        (6.0, 0.16, "weak"),
        (6.0, 0.15, "cannot tell"),
        (9.5, None, "reads too high"),
    ],
)
def test_conductivity_is_weak_beyond_30_per_cent_and_unsure_before(
    reading: float, ph_change: float | None, word: str
) -> None:
    """Loss over 30 % with a pH change over 0.15: Tashima et al. 2014, Mater. Construcc. 64(316), e032 (read).

    An error of 2 % is a judgement without a source. 6.4 of 9 is a loss of 29 %.
    """
    verdict = judge_conductivity(reading, 9.0, 22, 22, ph_change=ph_change)
    assert verdict.word == word
    assert any("Tashima" in row.source for row in verdict.rows)


def test_a_difference_in_temperature_counts_as_error() -> None:
    """2 to 3 % a degree: CRC Handbook, section 5 (read)."""
    assert judge_conductivity(6.2, 9.0, 22, 22, error_percent=0).word == "weak"
    assert judge_conductivity(6.2, 9.0, 22, 23, error_percent=0).word == "cannot tell"


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        ((-1, 9, 22, 22), "negative"),
        ((8, 0, 22, 22), "more than nothing"),
        ((8, 9, 22, 25), "same temperature"),
        ((8, 9, 90, 90), "from 0 to 50"),
    ],
)
def test_conductivities_that_cannot_be_compared_are_refused(
    arguments: tuple[float, float, float, float], why: str
) -> None:
    with pytest.raises(BadInput, match=why):
        judge_conductivity(*arguments)
