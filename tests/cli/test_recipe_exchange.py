"""Recipes go from studio to studio as files: nothing is lost on the way, and what differs is shown first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from pathlib import Path
from typing import Any

import pytest

from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipes import Line, RecipeCheck, RecipeVersion, Step

FULL = """
[recipe]
key = "all-there-is"
name = "All there is"
kind = "bath"
batch = "500 mL"
fills = 2
life = "4 h"
life_opened = "2 h"
ready_after = "1 h"
check_every = "3 days"
strength_line = "methyl-cellulose"
over_solid = true
ingredients_limit = true
media_test = "required"
evaporation = "mass balance"
leftover = "discard"
storage = "cold"
note = "Of every kind."
source = "Common practice, no source."

[check]
method = "pH by meter"
low = "8.0"
high = "9.0"
unit = "pH"
error = "0.1"
spoilt = ["cloudy", "mould"]
extends = false
source = "A handbook."

[[line]]
material = "methyl-cellulose"
amount = "0.5 % w/v"
stand_ins = ["wheat-starch"]
tolerance = "7.5 %"
note = "medium viscosity"

[[line]]
material = "calcium-hydroxide-solution"
amount = "to pH 8.0-8.5"
first_dose = "0.6 mL"

[[line]]
material = "ethanol"
amount = "1 in 10"

[[line]]
material = "sodium-chloride"
amount = "2 g"

[[line]]
material = "blotter"
amount = "2 each"

[[line]]
material = "polyester-web-light"
amount = "2 x area + 3 cm"

[[line]]
material = "deionised-water"
amount = "make up"

[[step]]
words = "Eye protection on."
caution = true

[[step]]
words = "Swell {methyl-cellulose} and make up to {total}."
wait = "20 min"
"""


@pytest.fixture
def write(tmp_path: Path) -> Callable[[str], str]:
    def to_file(text: str) -> str:
        path = tmp_path / "in.toml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return to_file


def test_the_full_recipe_has_every_field_there_is() -> None:
    """So that a field that is added later is missed here until it travels too."""
    version = read_recipe(FULL.replace('strength_line = "methyl-cellulose"', 'strength = "1 %"'), "full").version
    given = {name.name for name in fields(RecipeVersion) if getattr(version, name.name)}
    assert given == {name.name for name in fields(RecipeVersion)} - {"id", "strength_line"}
    assert version.check is not None
    assert all(getattr(version.check, name.name) is not None for name in fields(RecipeCheck))
    for kind, those in ((Line, version.lines), (Step, version.steps)):
        given = {name.name for name in fields(kind) for one in those if getattr(one, name.name)}
        assert given == {name.name for name in fields(kind)} - {"recipe"}


def test_a_full_recipe_comes_out_as_it_went_in(stockroom: Any, write: Any, tmp_path: Path) -> None:
    """Through the file, the stockroom and a file again; a second time it says nothing new."""
    first = stockroom.json("recipe", "import", write(FULL), "--yes")
    assert first["kept"] is True and first["version"] == 1
    path = tmp_path / "out.toml"
    assert stockroom.json("recipe", "export", "all-there-is", "--out", str(path))["files"] == [str(path)]
    assert read_recipe(path.read_text("utf-8"), "out") == read_recipe(FULL, "in")
    again = stockroom.json("recipe", "import", str(path), "--yes")
    assert (again["kept"], again["differences"]) == (False, [])


def test_every_starter_recipe_travels_under_another_key(stockroom: Any, write: Any) -> None:
    """Exported, taken in as new, exported again: the same but for the key."""
    keys = [one["key"] for one in stockroom.json("recipe", "list")["recipes"]]
    assert len(keys) > 20
    for key in keys:
        text = stockroom.json("recipe", "export", key)["toml"]
        if "makes = " in text:
            continue  # a stock's material has one recipe; the next test takes these
        other = text.replace(f'key = "{key}"', f'key = "{key}-two"', 1)
        assert stockroom.json("recipe", "import", write(other), "--yes")["kept"] is True
        assert stockroom.json("recipe", "export", f"{key}-two")["toml"] == other


def test_every_starter_recipe_is_known_again_in_another_stockroom(stockroom: Any, write: Any) -> None:
    for one in stockroom.json("recipe", "list")["recipes"]:
        text = stockroom.json("recipe", "export", one["key"])["toml"]
        assert stockroom.json("recipe", "import", write(text), "--yes")["differences"] == []


def test_what_differs_is_shown_and_nothing_is_kept_until_it_is_agreed(stockroom: Any, write: Any) -> None:
    text = stockroom.json("recipe", "export", "calcium-hydroxide-1-in-4")["toml"]
    changed = write(text.replace('"1 in 4"', '"1 in 5"'))
    ran = stockroom("recipe", "import", changed)
    assert "against version 1" in ran.out and "- line: calcium-hydroxide-solution, 1 in 4" in ran.out
    assert "+ line: calcium-hydroxide-solution, 1 in 5" in ran.out and "Nothing was changed" in ran.out
    for more in ([], ["--dry-run"], ["--dry-run", "--yes"]):
        planned = stockroom.json("recipe", "import", changed, *more)
        assert (planned["kept"], planned["version"]) == (False, None) and len(planned["differences"]) == 1
    assert stockroom.json("recipe", "show", "calcium-hydroxide-1-in-4")["version"] == 1
    assert stockroom.json("recipe", "import", changed, "--yes")["version"] == 2
    assert stockroom.json("recipe", "export", "calcium-hydroxide-1-in-4", "--version", "1")["toml"] == text


def test_all_that_is_not_here_is_named_at_once(stockroom: Any, write: Any) -> None:
    text = FULL.replace('"ethanol"', '"arrowroot"').replace('["wheat-starch"]', '["agar"]')
    ran = stockroom.json("recipe", "import", write(text), "--yes", code=2)
    assert ran["error"]["details"] == {"materials": ["agar", "arrowroot"], "recipes": []}
    wash = stockroom.json("recipe", "export", "wash")["toml"].replace("conditioned-wash-water", "other-water")
    ran = stockroom.json("recipe", "import", write(wash), "--yes", code=2)
    assert ran["error"]["details"]["recipes"] == ["other-water"]


def test_a_file_is_not_written_over_and_has_its_suffix(stockroom: Any, tmp_path: Path) -> None:
    path = tmp_path / "wash.toml"
    path.write_text("mine")
    assert stockroom("recipe", "export", "wash", "--out", str(path)).code == 1
    assert path.read_text() == "mine"
    stockroom.json("recipe", "export", "wash", "--out", str(path), "--replace")
    assert path.read_text("utf-8").startswith("[recipe]")
    assert stockroom("recipe", "export", "wash", "--out", str(tmp_path / "wash.txt")).code == 2
