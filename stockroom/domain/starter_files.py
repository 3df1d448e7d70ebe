"""The materials and recipes that a new stockroom starts with."""

from __future__ import annotations

from collections.abc import Iterable
from graphlib import CycleError, TopologicalSorter
from importlib import resources

from stockroom.domain.material_files import read_materials
from stockroom.domain.materials import Material
from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput


def starter_materials() -> list[Material]:
    """Read every starter material, file by file. Raises BadInput."""
    return [material for where, text in _texts("materials") for material in read_materials(text, where)]


def starter_recipes() -> list[Recipe]:
    """Read every starter recipe, each after those it names. Raises BadInput."""
    return in_order(read_recipe(text, where) for where, text in _texts("recipes"))


def in_order(recipes: Iterable[Recipe]) -> list[Recipe]:
    """Put recipes in an order in which each comes after those it names. Raises BadInput for a ring.

    A recipe named but not among them is left to whoever stores them.
    """
    by_key = {recipe.key: recipe for recipe in recipes}
    names = {
        key: sorted(line.recipe for line in recipe.version.lines if line.recipe in by_key and line.recipe)
        for key, recipe in sorted(by_key.items())
    }
    try:
        return [by_key[key] for key in TopologicalSorter(names).static_order()]
    except CycleError as error:
        ring = " → ".join(reversed(error.args[1]))
        raise BadInput(f"These recipes would go round in a ring: {ring}.") from None


def _texts(folder: str) -> list[tuple[str, str]]:
    """Give every TOML file of a starter folder: its place for messages, and its text."""
    files = resources.files("stockroom").joinpath("starter", folder).iterdir()
    return [
        (f"starter/{folder}/{file.name}", file.read_text(encoding="utf-8"))
        for file in sorted(files, key=lambda file: file.name)
        if file.name.endswith(".toml")
    ]
