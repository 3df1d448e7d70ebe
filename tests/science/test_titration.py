"""Titration: strength, its error, and what it says of a jar."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput, Unreadable
from stockroom.science.ranges import Range, Used, exactly, give_or_take, rounded, show_best
from stockroom.science.temperature import read_celsius, row_of
from stockroom.science.titration import (
    count_drops,
    judge_titration,
    measure_titration,
    read_acid,
    read_drops,
    strength_by,
)
from stockroom.science.verdicts import Verdict


def own(strength: Range) -> Used:
    return Used(what="the studio's own reference", figure=strength)


def at_22(used_ml: float, **more: object) -> Verdict:
    titration = measure_titration(sample_ml=25, acid_mol_per_l=0.1, used_ml=used_ml)
    return judge_titration(titration, 22, **more)  # type: ignore[arg-type]


def test_a_millilitre_of_decimolar_acid_counts_3_705_milligrams() -> None:
    """British Pharmacopoeia 2025, Calcium Hydroxide Solution (read); 74.09 / 2 × 0.1."""
    found = strength_by(measure_titration(sample_ml=1, acid_mol_per_l=0.1, used_ml=1))
    factor = row_of("titration", "calcium hydroxide", "counted by 1 mL of 0.1 mol/L hydrochloric acid")
    assert found.best == pytest.approx(float(factor.span[0]), abs=0.0005)


@pytest.mark.parametrize(
    ("g_per_l", "of_25_ml", "of_10_ml"),
    [
        (1.40, 9.45, 3.78),
        (1.50, 10.12, 4.05),
        (1.504, 10.15, 4.06),
        (1.60, 10.80, 4.32),
        (1.65, 11.13, 4.45),
        (1.73, 11.67, 4.67),
    ],
)
def test_the_table_of_readings(g_per_l: float, of_25_ml: float, of_10_ml: float) -> None:
    """Computed from 74.093 g/mol and 0.1 mol/L acid: USP and BP minima, NBS, bench value, both families at 20 °C."""
    for sample, used in ((25, of_25_ml), (10, of_10_ml)):
        found = strength_by(measure_titration(sample_ml=sample, acid_mol_per_l=0.1, used_ml=used))
        assert found.best == pytest.approx(g_per_l, abs=0.005 * 37.0465 / sample * 0.1 * 1.05)


def test_10_8_millilitres_are_1_60_grams_a_litre_and_saturated() -> None:
    """The bench's worked example: about 94, 98 and 104 % by source, at a limit of 90 %."""
    verdict = at_22(10.8)
    assert verdict.strength is not None and verdict.percent is not None
    assert show_best(verdict.strength) == "about 1.60 g/L"
    assert [int(value) for value in rounded(verdict.percent)] == [94, 98, 104]
    assert verdict.word == "saturated"


def test_the_same_reading_30_per_cent_lower_is_weak() -> None:
    verdict = at_22(10.8 * 0.7)
    assert verdict.word == "weak"
    assert "do not top up" in verdict.next_step


def test_1_50_grams_a_litre_cannot_be_told() -> None:
    """88 to 98 % by source: the range lies on both sides of the limit."""
    verdict = at_22(10.12)
    assert verdict.percent is not None
    assert [int(value) for value in rounded(verdict.percent)] == [88, 92, 98]
    assert verdict.word == "cannot tell"
    assert "reference" in verdict.next_step


def test_clearly_above_saturation_reads_too_high() -> None:
    verdict = at_22(13)
    assert verdict.word == "reads too high"
    assert "cloudy" in verdict.next_step.lower()


def test_the_studios_own_reference_replaces_the_handbooks_spread() -> None:
    """What is unsure at 1.50 g/L against the handbooks is saturated against a fresh jar of 1.54 g/L."""
    assert at_22(10.12, reference=own(exactly(1.54, "g/L"))).word == "saturated"
    assert at_22(10.12, reference=own(exactly(1.70, "g/L"))).word == "weak"


def test_weak_although_shaken_over_solid_speaks_against_the_solid() -> None:
    weak = at_22(7, shaken_and_settled=True)
    assert (weak.word, weak.carbonated_residue) == ("carbonated", True)
    assert "do not top up" in weak.next_step
    assert not at_22(7).carbonated_residue
    assert not at_22(10.8, shaken_and_settled=True).carbonated_residue


def test_a_verdict_lists_every_figure_and_marks_what_is_from_memory() -> None:
    verdict = at_22(10.8)
    named = {used.what for used in verdict.used}
    assert {"sample", "acid", "acid used", "molar mass", "limit, of saturation"} <= named
    assert {"read", "secondary", "memory", "common practice"} == {row.verified for row in verdict.rows}


def test_a_burette_read_less_sharply_widens_the_range() -> None:
    sharp = strength_by(measure_titration(sample_ml=25, acid_mol_per_l=0.1, used_ml=10.8, used_error_ml=0.02))
    blunt = strength_by(measure_titration(sample_ml=25, acid_mol_per_l=0.1, used_ml=10.8, used_error_ml=0.5))
    assert blunt.half_width > 10 * sharp.half_width
    assert blunt.half_width == pytest.approx(1.60 * 0.5 / 10.8, rel=0.05)
    assert show_best(blunt) == "about 1.6 g/L"


def test_thirty_drops_against_seventeen_are_0_057_molar_in_hydroxide() -> None:
    """A school laboratory's worked example (read): 30 drops took 17 of 0.1 mol/L acid, 0.057 mol/L of hydroxide.

    It prints 0.28 mol/L of calcium, a slip for 0.028.
    """
    found = strength_by(count_drops(acid_drops=17, acid_mol_per_l=0.1, sample_drops=30))
    assert 2 * found.best / 74.093 == pytest.approx(0.057, abs=0.0005)
    assert found.best / 74.093 == pytest.approx(0.028, abs=0.0005)
    assert found.half_width / found.best > 0.05


def test_drops_against_a_measured_sample_rest_on_the_size_of_a_drop() -> None:
    """20 drops a millilitre: common practice, no source."""
    counted = count_drops(acid_drops=216, acid_mol_per_l=0.1, sample_ml=25)
    assert strength_by(counted).best == pytest.approx(1.60, abs=0.005)
    assert strength_by(counted).half_width > 0.3


@given(st.floats(0.5, 30), st.floats(0.01, 1), st.floats(0.01, 50))
def test_twice_the_acid_is_twice_the_strength(sample: float, acid: float, used: float) -> None:
    def strength(times: float) -> float:
        return strength_by(measure_titration(sample_ml=sample, acid_mol_per_l=acid, used_ml=used * times)).best

    assert strength(2) == pytest.approx(2 * strength(1))


def test_no_acid_used_is_no_strength_with_its_error() -> None:
    verdict = at_22(0)
    assert verdict.strength is not None
    assert (verdict.strength.low, verdict.strength.best) == (0, 0)
    assert verdict.word == "weak"


@pytest.mark.parametrize(
    ("readings", "why"),
    [
        ({"sample_ml": -25}, "negative"),
        ({"used_ml": -1}, "negative"),
        ({"used_error_ml": -0.1}, "negative"),
        ({"used_ml": float("nan")}, "negative"),
        ({"sample_ml": 0}, "nothing"),
        ({"acid_mol_per_l": 0}, "cannot be"),
        ({"acid_mol_per_l": 20}, "at most 12.5"),
    ],
)
def test_readings_that_cannot_be_are_refused(readings: dict[str, float], why: str) -> None:
    with pytest.raises(BadInput, match=why):
        strength_by(measure_titration(**({"sample_ml": 25, "acid_mol_per_l": 0.1, "used_ml": 10.8} | readings)))


def test_a_sample_larger_than_the_jar_is_refused() -> None:
    with pytest.raises(BadInput, match="more than the 20 mL in the jar"):
        at_22(10.8, jar_ml=20)


@pytest.mark.parametrize("limit", [0, 100, -5, 200])
def test_a_limit_that_is_none_is_refused(limit: float) -> None:
    with pytest.raises(BadInput, match="less than 100"):
        at_22(10.8, limit=limit)


def test_a_reference_of_nothing_and_a_temperature_off_the_table_are_refused() -> None:
    with pytest.raises(BadInput, match="above nothing"):
        at_22(10.8, reference=own(give_or_take(0, 0.1, "g/L")))
    with pytest.raises(BadInput, match="from 0 to 100"):
        judge_titration(measure_titration(sample_ml=25, acid_mol_per_l=0.1, used_ml=10), 140)


@pytest.mark.parametrize(("acid", "sample"), [(17, None), (-1, 30), (17, 0)])
def test_drops_are_counted_whole_and_against_something(acid: int, sample: int | None) -> None:
    with pytest.raises(BadInput):
        count_drops(acid_drops=acid, acid_mol_per_l=0.1, sample_drops=sample)


def test_the_acid_is_written_in_moles() -> None:
    assert read_acid("0.1 mol/L") == read_acid("0,1 M") == read_acid("100 mmol/L") == 0.1
    with pytest.raises(BadInput, match="mol/L"):
        read_acid("3.65 g/L")
    assert (read_drops("17 drops"), read_drops("1 drop"), read_drops("10.8 mL")) == (17, 1, None)


@pytest.mark.parametrize(
    ("typed", "celsius"), [("22", 22), ("22 °C", 22), ("22,5 C", 22.5), ("-5", -5), ("20 degrees", 20)]
)
def test_temperatures_are_read_in_degrees_celsius(typed: str, celsius: float) -> None:
    assert read_celsius(typed) == celsius


@pytest.mark.parametrize("typed", ["", "warm", "22 F", "72 °F", "22 22", "1e1"])
def test_what_is_no_temperature_in_celsius_is_refused(typed: str) -> None:
    with pytest.raises(Unreadable):
        read_celsius(typed)
