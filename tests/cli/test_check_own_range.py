"""Any other solution: checked against its recipe's own range, and by looks in that recipe's words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from conftest import CommandLine

ON = ("--on", "2026-01-05")


@pytest.fixture
def citrate(stockroom: CommandLine) -> CommandLine:
    """Half a litre of ammonium citrate solution: lot L002U, whose recipe reads pH 4.0 to 4.6, good to 0.1."""
    stockroom.json("--on", "2026-01-02", "receive", "ammonium-citrate", "250 g", "--cost", "9")
    stockroom.json("--on", "2026-01-04", "make", "ammonium-citrate-2", "500 mL")
    return stockroom


def read(jar: CommandLine, reading: str, *more: str, code: int = 0) -> dict[str, Any]:
    return jar.json(*ON, "check", "L002U", "reading", reading, *more, code=code)


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [("pH 4.3", "fit"), ("4.1 pH", "fit"), ("4.0", "cannot tell"), ("4.7", "cannot tell"), ("pH 5.2", "unfit")],
)
def test_a_reading_is_judged_by_the_recipes_own_range_and_error(
    citrate: CommandLine, reading: str, verdict: str
) -> None:
    """0.1 mol/L reads about pH 4.3 (CAMEO); the range about it is common practice, no source."""
    found = read(citrate, reading)
    assert found["verdict"] == verdict
    assert any("CAMEO" in source for source in found["sources"])
    assert citrate.json(*ON, "lot", "L002U")["fit"] is (verdict != "unfit")


def test_an_error_that_is_typed_takes_the_place_of_the_recipes(citrate: CommandLine) -> None:
    assert read(citrate, "pH 4.3", "--error", "0.5")["verdict"] == "cannot tell"


def test_another_range_needs_a_reason(citrate: CommandLine) -> None:
    refused = read(citrate, "pH 5.2", "--low", "5", "--high", "5.5", code=2)
    assert "--why" in refused["error"]["message"]
    assert read(citrate, "pH 5.2", "--low", "5", "--high", "5.5", "--why", "adjusted to pH 5.2")["verdict"] == "fit"


@pytest.mark.parametrize(
    ("reading", "words"), [("4.3 % w/v", "read in pH"), ("-4", "negative"), ("sour", "not a reading")]
)
def test_a_reading_that_cannot_be_books_nothing(citrate: CommandLine, reading: str, words: str) -> None:
    before = citrate.json("lot", "L002U")
    assert words in citrate.json(*ON, "check", "L002U", "reading", reading, code=2)["error"]["message"]
    assert citrate.json("lot", "L002U") == before


@pytest.mark.parametrize("look", ["threads", "mould"])
def test_what_was_seen_to_be_spoilt_is_passed_by_no_reading(citrate: CommandLine, look: str) -> None:
    """Common practice, no source."""
    assert citrate.json(*ON, "check", "L002U", "looks", look)["verdict"] == "unfit"
    found = read(citrate, "pH 4.3")
    assert found["verdict"] == "unfit"
    assert look in found["why"]
    assert citrate.json(*ON, "lot", "L002U")["fit"] is False


def test_looks_are_those_of_the_recipe(citrate: CommandLine) -> None:
    refused = citrate.json(*ON, "check", "L002U", "looks", "weeping", code=2)
    assert "threads, mould, cloudy" in refused["error"]["message"]
    assert citrate.json(*ON, "check", "L002U", "looks", "clear")["verdict"] == "fit"


def test_undoing_a_look_that_was_booked_by_mistake_lets_a_reading_pass_again(citrate: CommandLine) -> None:
    booked = citrate.json(*ON, "check", "L002U", "looks", "mould")
    citrate.json(*ON, "undo", booked["action"], "--why", "the wrong jar")
    assert read(citrate, "pH 4.3")["verdict"] == "fit"


OWN = """
[recipe]
key = "gel-with-check"
name = "Gel, with a check"
kind = "stock"
makes = "methyl-cellulose-gel"
batch = "200 mL"
life = "14 days"
check_every = "2 days"

[check]
method = "refractometer"
low = "2"
unit = "Brix"
error = "0.2"
spoilt = ["thin"]
extends = EXTENDS
source = "Own trial."

[[line]]
material = "methyl-cellulose"
amount = "5 % w/v"

[[line]]
material = "deionised-water"
amount = "make up"
"""


@pytest.mark.parametrize(("extends", "check_by"), [("true", "2026-01-07"), ("false", "2026-01-06")])
def test_a_passed_check_moves_the_check_by_day_only_where_the_recipe_lets_it(
    stockroom: CommandLine, tmp_path: Path, extends: str, check_by: str
) -> None:
    file = tmp_path / "gel.toml"
    file.write_text(OWN.replace("EXTENDS", extends))
    added = stockroom.json("recipe", "new", "--from", str(file))
    assert added["check"]["low"] == 2
    assert added["check"]["extends"] is (extends == "true")
    stockroom.json("--on", "2026-01-02", "receive", "methyl-cellulose", "250 g", "--cost", "22")
    gel = stockroom.json("--on", "2026-01-04", "make", "gel-with-check", "200 mL")["code"]
    found = stockroom.json(*ON, "check", gel, "reading", "2.5")
    assert (found["verdict"], found["check_by"]) == ("fit", check_by)
    assert stockroom.json("lot", gel)["use_by"] == "2026-01-18"
    assert any("moves no date" in caution for caution in found["cautions"]) is (extends == "false")


def test_a_recipes_check_is_shown_copied_edited_and_exported(stockroom: CommandLine, tmp_path: Path) -> None:
    assert "spoilt when: mould, smell, weeping" in stockroom("recipe", "show", "wheat-starch-paste").out
    stockroom.json("recipe", "copy", "ammonium-citrate-2", "citrate-own", "Own citrate")
    exported = stockroom.json("recipe", "export", "citrate-own")["toml"]
    assert 'high = "4.6"' in exported
    file = tmp_path / "own.toml"
    file.write_text(exported.replace('high = "4.6"', 'high = "5"'))
    edited = stockroom.json("recipe", "edit", "citrate-own", "--from", str(file))
    assert (edited["version"], edited["check"]["high"]) == (2, 5)
    assert [line["became"] for line in edited["differences"]] == [
        "check: pH by meter or strip, 4.0 to 5 pH, good to 0.1 pH"
    ]
    assert stockroom.json("recipe", "show", "citrate-own", "--version", "1")["check"]["high"] == 4.6
