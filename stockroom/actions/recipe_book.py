"""The recipes and materials that a plan may name."""

from __future__ import annotations

from stockroom.domain.recipes import Recipe
from stockroom.planning.requirements import Book
from stockroom.store.materials import materials_named
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


def load_book(store: Store, *wanted: Recipe) -> Book:
    """Load the materials and recipes that some recipes name, to any depth."""
    recipes: dict[str, Recipe] = {}
    named: set[str] = set()
    waiting = list(wanted)
    while waiting:
        one = waiting.pop()
        for line in one.version.lines:
            named.update(line.stand_ins)
            if line.material is not None:
                named.add(line.material)
            if line.recipe is not None and line.recipe not in recipes:
                recipes[line.recipe] = find_recipe(store, line.recipe)
                waiting.append(recipes[line.recipe])
    return Book(materials=materials_named(store, named), recipes=recipes)
