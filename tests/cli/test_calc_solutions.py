"""The sums of solutions on the command line; they need no stockroom."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import CommandLine

TITRATE = ("calc", "titrate", "--acid", "0.1 mol/L", "--temperature", "22")


@pytest.fixture
def bench(tmp_path: Path, command_line: Callable[[Path], CommandLine]) -> CommandLine:
    """The command line where there is no stockroom."""
    return command_line(tmp_path / "none.db")


def test_saturated_calcium_hydroxide_has_a_range_a_ph_and_its_sources(bench: CommandLine) -> None:
    """1.504 g/L, pH 12.45 at 25 °C: Bates, Bower and Smith 1956; 1.59 and 1.665: the families B and A."""
    document = bench.json("calc", "saturated", "calcium hydroxide", "--temperature", "25")
    assert document["g_per_l"] == {"low": 1.5, "best": 1.59, "high": 1.66, "unit": "g/L"}
    assert document["ph"] == pytest.approx(12.45, abs=0.01)
    assert {"source", "verified"} <= set(document["sources"][0])
    assert {source["verified"] for source in document["sources"]} == {"read", "secondary", "memory"}


def test_a_salt_answers_with_its_humidity_and_both_masses(bench: CommandLine) -> None:
    """240 g of the hexahydrate for 69.1 g: computed from the CRC Handbook's molality."""
    document = bench.json("calc", "saturated", "magnesium-nitrate", "--temperature", "20 °C")
    assert document["g_for_100_g_water"]["hexahydrate"]["best"] == 240
    assert document["g_for_100_g_water"]["anhydrous"]["best"] == 69.1
    assert 53 < document["humidity_percent"]["low"] < document["humidity_percent"]["high"] < 55


def test_10_8_millilitres_make_1_60_grams_and_saturated(bench: CommandLine) -> None:
    """The bench's worked example; 3.705 mg a millilitre, British Pharmacopoeia 2025."""
    document = bench.json(*TITRATE, "--sample", "25 mL", "--used", "10.8 mL")
    assert (document["g_per_l"], document["verdict"]) == (1.6, "saturated")
    assert document["percent_of_saturation"] == {"low": 94, "best": 98, "high": 104, "unit": "%"}
    assert all({"what", "low", "best", "high", "unit", "sources"} <= set(used) for used in document["used"])


@pytest.mark.parametrize(
    ("used", "more", "verdict"),
    [
        ("7.56 mL", (), "weak"),
        ("10.12 mL", (), "cannot tell"),
        ("10.12 mL", ("--reference", "1.54 g/L"), "saturated"),
        ("10.12 mL", ("--limit", "80 %"), "saturated"),
        ("10.8 mL", ("--used-error", "2 mL"), "cannot tell"),
        ("13 mL", (), "reads too high"),
    ],
)
def test_the_verdict_follows_reading_limit_and_reference(
    bench: CommandLine, used: str, more: tuple[str, ...], verdict: str
) -> None:
    assert bench.json(*TITRATE, "--sample", "25 mL", "--used", used, *more)["verdict"] == verdict


def test_drops_are_counted(bench: CommandLine) -> None:
    """30 drops took 17: a school laboratory's worked example (read), 2.1 g/L."""
    document = bench.json(*TITRATE, "--sample", "30 drops", "--used", "17 drops")
    assert document["strength"]["best"] == pytest.approx(2.1)
    assert bench(*TITRATE, "--sample", "30 drops", "--used", "2 mL").code == 2


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("saturated", "calcium hydroxide", "--temperature", "130"), "from 0 to 100 °C"),
        (("saturated", "calcium hydroxide", "--temperature", "-5"), "from 0 to 100 °C"),
        (("saturated", "sugar", "--temperature", "20"), "Known are"),
        (("saturated", "calcium hydroxide", "--temperature", "warm"), "degrees Celsius"),
        ((*TITRATE[1:], "--sample", "25 mL", "--used", "-1 mL"), "negative"),
        ((*TITRATE[1:], "--sample", "25 g", "--used", "10 mL"), "a volume"),
        ((*TITRATE[1:], "--sample", "0 mL", "--used", "10 mL"), "nothing"),
        (("strength", "1.6 g/L", "--to", "mol/L"), "molar mass"),
        (("strength", "1.6 g/L", "--volume", "1 L"), "--add"),
    ],
)
def test_bad_input_is_answered_in_words(bench: CommandLine, arguments: tuple[str, ...], says: str) -> None:
    ran = bench("calc", *arguments)
    assert ran.code == 2 and says in ran.err and ran.out == ""


def test_a_strength_in_another_unit(bench: CommandLine) -> None:
    """21.59 mmol/L, computed from 74.093 g/mol."""
    document = bench.json("calc", "strength", "1.6 g/L", "--to", "mmol/L", "--molar-mass", "74.093")
    assert document["strength"]["number"] == pytest.approx(21.59, abs=0.005)
    assert document["strength"]["unit"] == "mmol/L"


def test_topping_up_and_mixing(bench: CommandLine) -> None:
    mixing = ("calc", "strength", "1.6 g/L", "--volume", "300 mL", "--add", "200 mL")
    assert bench.json(*mixing)["strength"] == {"number": 0.96, "unit": "g/L"}
    assert bench.json(*mixing, "--of", "0.1 % w/v")["strength"] == {"number": 1.36, "unit": "g/L"}


def test_a_person_reads_verdict_reason_next_step_and_sources(bench: CommandLine) -> None:
    out = bench(*TITRATE, "--sample", "25 mL", "--used", "10.8 mL").out
    assert out.startswith("Saturated. 1.60 g/L by titration.")
    assert "from memory, not verified" in out and "Protect your eyes" in out
