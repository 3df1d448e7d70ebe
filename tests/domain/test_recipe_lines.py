"""A recipe typed in fields is the recipe of its file: nothing is lost on the way there or back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipe_lines import read_lines, read_steps, write_lines
from stockroom.domain.recipe_typed import by_field, typed_from, write_typed
from stockroom.domain.recipes import Line, Recipe, RecipeVersion, Step
from stockroom.domain.starter_files import starter_recipes
from stockroom.errors import BadInput
from stockroom.science.amounts import read_amount


def read_back(recipe: Recipe) -> Recipe:
    typed = typed_from(recipe)
    return read_recipe(write_typed(typed, read_lines(typed["lines"]), read_steps(typed.get("steps", ""))), "typed")


@pytest.mark.parametrize("recipe", starter_recipes(), ids=lambda recipe: recipe.key)
def test_every_starter_recipe_is_read_back_as_it_was_typed(recipe: Recipe) -> None:
    assert read_back(recipe) == recipe


def test_what_no_starter_recipe_says_is_read_back_too() -> None:
    lines = (
        Line(position=1, material="note", amount=read_amount("1 in 4"), note="first\nsecond = 2, caution: none"),
        Line(
            position=2,
            material="ethanol",
            amount=read_amount("to pH 8.0-8.5"),
            first_dose="0.1 mL",
            stand_ins=("acetone", "water"),
            tolerance=Fraction(1, 8),
        ),
        Line(position=3, recipe="wash"),
    )
    steps = (
        Step(words="Stand [/] well.\nThen look: a = b", wait="20 min"),
        Step(words="Eyes (goggles)", caution=True),
        Step(words='Say "so" \\ 😀 to {total}'),
    )
    version = RecipeVersion(fills=3, over_solid=True, lines=lines, steps=steps, note='a\n"b"')
    recipe = Recipe(key="mine", name="Mine", kind="bath", version=version)
    assert read_back(recipe) == recipe


def test_what_stands_beneath_a_line_need_not_be_indented() -> None:
    assert read_lines("ethanol = 50 % v/v\nnote = dry\nwater = make up") == [
        {"material": "ethanol", "amount": "50 % v/v", "note": "dry"},
        {"material": "water", "amount": "make up"},
    ]


def test_a_line_without_an_amount_is_for_the_reader_to_refuse() -> None:
    assert read_lines("  ethanol\n\n  water = make up") == [
        {"material": "ethanol"},
        {"material": "water", "amount": "make up"},
    ]


def test_problems_are_sorted_by_the_fields_they_stand_beside() -> None:
    typed = {"key": "x", "name": "X", "kind": "bath", "life": "soon", "check_low": "much", "check_spoilt": "mould"}
    lines, steps = read_lines("water = 1 n 4\nethanol"), read_steps("Stir {sugar}.\nWait. (wait a bit)")
    with pytest.raises(BadInput) as refused:
        read_recipe(write_typed(typed, lines, steps), "typed")
    found = by_field(refused.value.details["problems"], lines)
    assert set(found) == {"life", "lines", "steps", "check_low", "check_method"}
    assert found["lines"].startswith("water: “1 n 4”")
    assert "ethanol: this is missing" in found["lines"]
    assert found["steps"].startswith("step 1: “{sugar}” names no line")
    assert "step 2: read" in found["steps"]


def test_lines_are_written_one_below_the_other() -> None:
    line = Line(position=1, material="ethanol", amount=read_amount("50 % v/v"), stand_ins=("acetone",), note="a\nb")
    version = RecipeVersion(lines=(line, replace(line, stand_ins=(), note=None)))
    assert write_lines(version) == ("ethanol = 50 % v/v\n  stand_ins = acetone\n  note = a\n    b\nethanol = 50 % v/v")
