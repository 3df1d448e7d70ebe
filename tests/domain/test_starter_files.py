"""The order in which starter recipes are given."""

from __future__ import annotations

import pytest

from stockroom.domain.recipes import Line, Recipe, RecipeVersion
from stockroom.domain.starter_files import in_order
from stockroom.errors import BadInput


def naming(key: str, *others: str) -> Recipe:
    lines = tuple(Line(position=number, recipe=other) for number, other in enumerate(others, 1))
    return Recipe(key=key, name=key, kind="treatment", version=RecipeVersion(lines=lines))


def test_recipes_are_put_after_those_they_name() -> None:
    """Whoever stores them in this order finds what each line names."""
    keys = [recipe.key for recipe in in_order([naming("a", "b", "c"), naming("b", "c"), naming("c", "elsewhere")])]
    assert keys == ["c", "b", "a"]


def test_recipes_that_go_round_in_a_ring_are_refused_with_the_ring_named() -> None:
    """A recipe cannot hold itself, at whatever depth."""
    with pytest.raises(BadInput, match=r"ring: (a → b → c → a|b → c → a → b|c → a → b → c)"):
        in_order([naming("a", "b"), naming("b", "c"), naming("c", "a")])
