"""The bench's sums on the command line; they need no stockroom."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import CommandLine

DILUTE = ("calc", "dilute", "--stock", "1.6 g/L", "--make", "500 mL", "--parts")
POWDER = ("calc", "powder", "methyl cellulose", "--strength", "0.5 % w/v", "--make", "500 mL")


@pytest.fixture
def bench(tmp_path: Path, command_line: Callable[[Path], CommandLine]) -> CommandLine:
    """The command line where there is no stockroom."""
    return command_line(tmp_path / "none.db")


@pytest.mark.parametrize("parts", ["1 in 4", "1 + 3"])
def test_one_in_four_and_one_plus_three_take_the_same_stock(bench: CommandLine, parts: str) -> None:
    assert bench.json(*DILUTE, parts) == {
        "stock_ml": 125,
        "make_up_to_ml": 500,
        "strength_g_per_l": 0.4,
        "strength": {"number": 0.4, "unit": "g/L"},
        "parts": "1 in 4",
    }


def test_the_flag_for_json_may_stand_after_the_command(bench: CommandLine) -> None:
    assert bench(*DILUTE, "1 in 4", "--json").json == bench.json(*DILUTE, "1 in 4")


def test_a_bare_ratio_is_refused_with_both_readings(bench: CommandLine) -> None:
    ran = bench(*DILUTE, "1:4")
    assert ran.code == 2 and ran.out == ""
    assert "1 in 4" in ran.err and "1 + 4" in ran.err
    error = bench.json(*DILUTE, "1:4", code=2)["error"]
    assert (error["kind"], error["details"]["readings"]) == ("unreadable", ["1 in 4", "1 + 4"])


def test_a_person_reads_what_to_measure_both_ways_of_saying_the_parts(bench: CommandLine) -> None:
    out = bench(*DILUTE, "1 in 4").out
    assert "125 mL" in out and "make it up to 500 mL" in out and "1 in 4, which is 1 + 3" in out and "0.4 g/L" in out


def test_a_strength_that_is_not_in_grams_keeps_its_own_unit(bench: CommandLine) -> None:
    document = bench.json("calc", "dilute", "--stock", "70 % v/v", "--parts", "1 in 2", "--make", "1 L")
    assert document["strength_g_per_l"] is None
    assert document["strength"] == {"number": 35, "unit": "% v/v"}
    assert bench.json("calc", "dilute", "--parts", "1 in 3", "--make", "1 L")["strength"] is None


def test_a_strength_that_is_wanted_says_how_much_stock_it_takes(bench: CommandLine) -> None:
    """Chemistry 2e, 3.3, example 3.21: 5.00 L of 0.100 M from 1.59 M take 0.314 L; by hand 1 L of 50 % of 96 %."""
    dilute = ("calc", "dilute", "--make")
    molar = bench.json(*dilute, "5.00 L", "--stock", "1.59 mol/L", "--to", "0.100 mol/L")
    assert (round(molar["stock_ml"]), molar["parts"]) == (314, None)
    by_volume = bench(*dilute, "1 L", "--stock", "96 % v/v", "--to", "50 % v/v")
    assert by_volume.out.startswith("Measure about 520.8 mL of the stock and make it up to 1 L.")
    by_mass = bench.json(*dilute, "1 L", "--stock", "35 % w/w", "--to", "3 % w/v", "--stock-density", "1.13")
    assert round(by_mass["stock_ml"], 3) == 75.853


def test_half_a_litre_with_powder_weighs_it_and_tells_what_spoons_would_do(bench: CommandLine) -> None:
    """The figures are those of tests/science/test_powders.py."""
    document = bench.json(*POWDER)
    assert (document["mass_g"], document["particle_ml"]) == (2.5, 1.92)
    assert document["bulk_ml"] == {"low": 3.57, "high": 10}
    pair = document["spoons"][0]
    assert pair["set"] == ["1.25 mL", "0.63 mL"]
    assert pair["volume_ml"] == 1.88
    assert pair["mass_g"] == {"low": 0.47, "high": 1.32}
    assert pair["strength"] == {"low": 0.094, "high": 0.263, "unit": "% w/v"}
    assert all(set(spoons) >= {"set", "volume_ml", "mass_g", "strength"} for spoons in document["spoons"])
    assert document["sources"]


def test_a_person_is_told_that_weighing_is_right_and_why(bench: CommandLine) -> None:
    out = bench(*POWDER).out
    for words in ("Weigh 2.5 g", "Weighing is right", "0.25 to 0.7 g in a millilitre", "about 3.6 to 10 mL"):
        assert words in out
    for words in ("1.92 mL", "1.25 mL + 0.63 mL", "0.47 to 1.3 g", "0.094 to 0.26 % w/v", "protect your eyes"):
        assert words in out


def test_a_powder_of_ones_own_is_taken_with_its_densities(bench: CommandLine) -> None:
    own = ("calc", "powder", "pumice", "--strength", "10 g/L", "--make", "1 L", "--purity", "80 %")
    document = bench.json(*own, "--density", "2", "--bulk", "0,5-1", "--spoons", "us")
    assert document["mass_g"] == 12.5
    assert document["bulk_ml"] == {"low": 12.5, "high": 25}
    assert document["spoons"][0]["set"] == ["1 tsp", "1/4 tsp"]
    assert bench(*own, "--density", "2").code == 2


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("powder", "gunpowder", "--strength", "1 g/L", "--make", "1 L"), "Known are methyl cellulose"),
        (("powder", "methyl cellulose", "--strength", "5 %", "--make", "1 L"), "w/v"),
        (("powder", "methyl cellulose", "--strength", "5 % v/v", "--make", "1 L"), "measures a liquid"),
        (("powder", "citric acid", "--strength", "0.1 M", "--make", "1 L"), "molar mass"),
        (("powder", "citric acid", "--strength", "1 g/L", "--make", "1 kg"), "a volume is wanted"),
        (("powder", "citric acid", "--strength", "1 g/L", "--make", "1 L", "--purity", "0"), "Purity"),
        (("bath", "--tray", "40 cm", "--depth", "8 mm"), "two sides"),
        (("bath", "--tray", "40 x 30 cm", "--depth", "8"), "no unit"),
        (("bath", "--tray", "1 x 1 µm", "--depth", "1 µm"), "Look at the units"),
        (("dilute", "--parts", "1 in 4"), "--make"),
        (("dilute", "--make", "1 L"), "either --parts"),
        (("dilute", "--make", "1 L", "--to", "1 g/L"), "How strong is the stock?"),
        (("dilute", "--make", "1 L", "--to", "5 % w/v", "--stock", "3 % w/v"), "At most 3 % w/v"),
        (("dilute", "--make", "1 L", "--to", "3 % w/v", "--stock", "35 % w/w"), "density"),
    ],
)
def test_what_cannot_be_worked_out_is_said_on_one_line_with_exit_code_2(
    bench: CommandLine, arguments: tuple[str, ...], says: str
) -> None:
    ran = bench("calc", *arguments)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err and "Traceback" not in ran.err


def test_a_molar_strength_takes_a_molar_mass(bench: CommandLine) -> None:
    """Citric acid monohydrate, 210.14 g/mol (from memory)."""
    molar = ("calc", "powder", "citric acid", "--strength", "0.1 mol/L", "--make", "1 L", "--molar-mass", "210.14")
    assert bench.json(*molar)["mass_g"] == 21.014


def test_a_tray_of_forty_by_thirty_centimetres_takes_960_millilitres_for_8_millimetres(bench: CommandLine) -> None:
    assert bench.json("calc", "bath", "--tray", "40 x 30 cm", "--depth", "8 mm") == {"volume_ml": 960}
    assert "960 mL" in bench("calc", "bath", "--tray", "400 x 300 mm", "--depth", "0,8 cm").out


@pytest.mark.parametrize("name", ["[A3]", "[/]", "=1+1", "'; DROP TABLE lots; --", "🧪", "מסמך", "\x1b[31mred"])
def test_a_powders_name_is_shown_as_typed_and_never_obeyed(bench: CommandLine, name: str) -> None:
    own = ("calc", "powder", name, "--strength", "10 g/L", "--make", "1 L", "--density", "2", "--bulk", "0.5-1")
    assert bench.json(*own)["powder"] == name
    assert "\x1b" not in bench(*own).out
