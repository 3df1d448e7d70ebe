"""The recipes and materials that a plan may name."""

from __future__ import annotations

from stockroom.domain.recipes import Recipe
from stockroom.planning.requirements import Book
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


def load_book(store: Store, *wanted: Recipe) -> Book:
    """Load the materials and recipes that some recipes name, to any depth."""
    recipes: dict[str, Recipe] = {}
    waiting = list(wanted)
    while waiting:
        one = waiting.pop()
        for line in one.version.lines:
            if line.recipe is not None and line.recipe not in recipes:
                recipes[line.recipe] = find_recipe(store, line.recipe)
                waiting.append(recipes[line.recipe])
    materials = {material.key: material for material in all_materials(store, retired=True)}
    return Book(materials=materials, recipes=recipes)
