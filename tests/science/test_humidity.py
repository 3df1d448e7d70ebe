"""Saturated salts: the humidity over them, and how much salt makes one."""

from __future__ import annotations

import pytest

from stockroom.errors import BadInput, NotFound
from stockroom.science.humidity import (
    find_salt,
    humidity_over,
    hydrate_for,
    judge_humidity,
    make_up_salt,
    solubility_of,
)
from stockroom.science.ranges import rounded
from stockroom.science.reference import rows
from stockroom.science.temperature import curve

GREENSPAN = {
    "lithium chloride": (11.31, 11.31, 11.30, 11.29),
    "potassium acetate": (23.40, 23.11, 22.52, 21.61),
    "magnesium chloride": (33.30, 33.07, 32.79, 32.45),
    "potassium carbonate": (43.15, 43.16, 43.17, 43.18),
    "magnesium nitrate": (55.87, 54.38, 52.89, 51.40),
    "sodium chloride": (75.61, 75.48, 75.30, 75.09),
    "potassium chloride": (85.92, 85.11, 84.35, 83.63),
    "potassium nitrate": (95.41, 94.62, 93.59, 92.31),
    "potassium sulfate": (97.89, 97.60, 97.30, 97.01),
}
PADFIELD = {
    "lithium chloride": (11.3, 11.3, 11.3),
    "magnesium chloride": (33.3, 33.1, 32.8),
    "potassium carbonate": (43.1, 43.2, 43.2),
    "sodium bromide": (60.7, 59.1, 57.6),
    "sodium chloride": (75.6, 75.7, 75.3),
    "potassium chloride": (85.9, 85.1, 84.3),
    "potassium sulfate": (97.9, 97.6, 97.3),
}


@pytest.mark.parametrize("salt", GREENSPAN)
def test_humidity_from_15_to_30_degrees_is_that_of_greenspan(salt: str) -> None:
    """Greenspan 1977, J. Res. NBS 81A, 89-96, polynomials as transcribed in public codes.

    From memory: the signs for lithium chloride, potassium acetate and potassium carbonate, and magnesium nitrate.
    """
    table = curve("salt_humidity", salt, "humidity by Greenspan")
    assert tuple(float(row.span[0]) for _, row in table.points) == pytest.approx(GREENSPAN[salt], abs=0.011)
    recalled = salt in ("lithium chloride", "potassium acetate", "potassium carbonate", "magnesium nitrate")
    assert {row.verified for _, row in table.points} == {"memory" if recalled else "secondary"}


@pytest.mark.parametrize("salt", PADFIELD)
def test_a_second_table_agrees_within_what_is_shown(salt: str) -> None:
    """Padfield's table at 15, 20 and 25 °C (read); every answer spans it."""
    for celsius, published in zip((15, 20, 25), PADFIELD[salt], strict=True):
        figure = humidity_over(salt, celsius).figure
        assert figure.low - 1e-9 <= published <= figure.high + 1e-9


@pytest.mark.parametrize(
    ("salt", "percent"),
    [
        ("lithium chloride", 11.3),
        ("potassium acetate", 22.5),
        ("magnesium chloride", 33),
        ("potassium carbonate", 43),
        ("sodium chloride", 75),
        ("potassium chloride", 84),
    ],
)
def test_the_fixed_points_at_25_degrees(salt: str, percent: float) -> None:
    """The round figures that every table of fixed points gives (common practice)."""
    assert humidity_over(salt, 25).figure.best == pytest.approx(percent, abs=0.5)


def test_where_sources_disagree_the_answer_spans_them() -> None:
    """Potassium nitrate at 25 °C: 93.6 after Greenspan, 91.9 by the CRC Handbook's formula (computed)."""
    figure = humidity_over("potassium nitrate", 25).figure
    assert (figure.low, figure.high) == (pytest.approx(91.9, abs=0.05), pytest.approx(93.59, abs=0.01))


def test_a_source_that_ends_earlier_is_left_out_beyond_its_end() -> None:
    """Padfield's table ends at 25 °C."""
    sources = {row.source for row in humidity_over("sodium bromide", 28).rows}
    assert len(sources) == 1 and "CRC" in sources.pop()


def test_240_grams_of_the_hexahydrate_do_what_69_1_grams_of_magnesium_nitrate_do() -> None:
    """4.656 mol/kg at 20 °C and 148.313 g/mol, CRC Handbook 98th ed. as copied; 256.41 g/mol (computed)."""
    anhydrous = make_up_salt("magnesium nitrate", 20).grams
    hexahydrate = make_up_salt("magnesium nitrate", 20, hydrate=True).grams
    assert float(rounded(anhydrous)[1]) == 69.1
    assert rounded(hexahydrate)[1] == 240


def test_306_grams_of_the_hexahydrate_do_what_54_6_grams_of_magnesium_chloride_do() -> None:
    """54.6 g in 100 g at 20 °C: CRC Handbook (from memory); 203.30 g/mol (computed)."""
    hexahydrate = make_up_salt("magnesium chloride", 20, hydrate=True)
    assert hexahydrate.grams.best == pytest.approx(306, abs=1.5)
    assert any(row.verified == "memory" for used in hexahydrate.used for row in used.rows)


def test_the_crystals_own_water_makes_up_the_difference() -> None:
    """The hydrate and the added water hold salt and water in the wanted proportion (the law the formula rests on)."""
    added = hydrate_for(69.1, 148.313, 256.41)
    salt = added * 148.313 / 256.41
    water = 100 + added - salt
    assert salt / water == pytest.approx(0.691)


@pytest.mark.parametrize(
    ("salt", "celsius", "grams"),
    [
        ("potassium carbonate", 20, 109.8),
        ("potassium carbonate", 25, 111.4),
        ("magnesium nitrate", 25, 71.2),
        ("sodium chloride", 20, 35.9),
        ("sodium chloride", 25, 36.0),
        ("sodium bromide", 20, 91.1),
        ("sodium bromide", 25, 94.6),
        ("lithium chloride", 20, 83.4),
        ("potassium chloride", 20, 34.2),
        ("magnesium chloride", 20, 54.6),
        ("potassium sulfate", 20, 11.1),
    ],
)
def test_what_100_grams_of_water_hold(salt: str, celsius: float, grams: float) -> None:
    """CRC Handbook, molalities as copied in a public repository; the last two from memory."""
    found = solubility_of(salt, celsius)
    assert found.figure.best == pytest.approx(grams, abs=0.06)
    assert any(row.verified == "memory" for row in found.rows) == (salt in ("magnesium chloride", "potassium sulfate"))


@pytest.mark.parametrize(
    ("reading", "error", "word"),
    [(75.4, 2, "fit"), (71, 0.2, "fit"), (80.2, 2, "cannot tell"), (85, 2, "unfit"), (60, 2, "unfit")],
)
def test_a_jar_is_judged_by_the_whole_range_of_the_reading(reading: float, error: float, word: str) -> None:
    """Sodium chloride at 20 °C: 75.4 to 75.7 % RH by three sources; 5 % RH either way is common practice."""
    verdict = judge_humidity("sodium chloride", reading, error, 20)
    assert verdict.word == word
    assert {row.source.split()[0] for row in verdict.rows} >= {"Greenspan", "Padfield,", "CRC"}


def test_too_humid_and_too_dry_are_told_apart() -> None:
    assert "Too humid" in judge_humidity("sodium chloride", 85, 1, 20).next_step
    assert "Too dry" in judge_humidity("sodium chloride", 60, 1, 20).next_step


@pytest.mark.parametrize(
    ("reading", "error", "celsius", "why"),
    [(-1, 1, 20, "no humidity"), (101, 1, 20, "no humidity"), (75, -1, 20, "error"), (75, 1, 45, "from 15 to 30")],
)
def test_humidities_that_cannot_be_are_refused(reading: float, error: float, celsius: float, why: str) -> None:
    with pytest.raises(BadInput, match=why):
        judge_humidity("sodium chloride", reading, error, celsius)


def test_salts_are_found_by_name_and_others_refused_with_those_known() -> None:
    assert find_salt("Potassium sulphate") == "potassium sulfate"
    assert find_salt("lithium") == "lithium chloride"
    for name in ("potassium", "sugar", ""):
        with pytest.raises(NotFound, match=r"sodium bromide|potassium nitrate"):
            find_salt(name)


def test_crystals_that_dissolve_in_their_own_water_are_refused() -> None:
    with pytest.raises(BadInput, match="their own"):
        hydrate_for(200, 148.313, 256.41)
    with pytest.raises(BadInput, match="weighs more"):
        hydrate_for(10, 100, 90)


def test_every_salt_of_the_table_has_a_humidity_at_20_degrees() -> None:
    for salt in {row.of for row in rows("salt_humidity")} - {"any salt"}:
        assert 0 < humidity_over(salt, 20).figure.best < 100
