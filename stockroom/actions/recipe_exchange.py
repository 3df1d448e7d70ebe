"""Recipes from other studios: a new one, or the next version of the one that has its key."""

from __future__ import annotations

from dataclasses import replace

from stockroom.actions.recipes import RecipeKept, add_recipe_of, edit_recipe
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipe_words import Difference, says
from stockroom.domain.recipes import Recipe
from stockroom.errors import NotFound
from stockroom.store.materials import materials_named
from stockroom.store.open import Store
from stockroom.store.recipes import recipe_key_taken


def take_in(
    store: Store,
    occasion: Occasion,
    text: str,
    where: str,
    *,
    dry_run: bool = False,
    confirmed: RecipeKept | None = None,
) -> RecipeKept:
    """Keep the recipe of a file, with what differs from the present version, or all of it where it is new here.

    `where` names the file in messages. Raises BadInput with every problem of the file, NotFound naming every material
    and recipe that is not here, Refused where the present one is of another kind, PlanChanged.
    """
    recipe = read_recipe(text, where)
    _refuse_unknown(store, recipe)
    if recipe_key_taken(store, recipe.key):
        return edit_recipe(store, occasion, recipe.key, text, where, dry_run=dry_run, confirmed=confirmed)
    agreed = confirmed and replace(confirmed, differences=())
    kept = add_recipe_of(store, occasion, recipe, dry_run=dry_run, confirmed=agreed)
    return replace(kept, differences=tuple(Difference(was=None, became=line) for line in says(recipe)))


def _refuse_unknown(store: Store, recipe: Recipe) -> None:
    """Name all that a recipe needs and this stockroom does not have, so that it is added in one go."""
    lines = recipe.version.lines
    keys = {line.material for line in lines} | {key for line in lines for key in line.stand_ins} | {recipe.makes}
    wanted = sorted(key for key in keys if key)
    known = materials_named(store, set(wanted))
    materials = [key for key in wanted if key not in known]
    recipes = [line.recipe for line in lines if line.recipe and not recipe_key_taken(store, line.recipe)]
    if materials or recipes:
        said = [f"materials {', '.join(materials)} (stockroom material new NAME --key KEY)"] if materials else []
        said += [f"recipes {', '.join(recipes)} (import these first)"] if recipes else []
        raise NotFound(
            f"{recipe.key} names what this stockroom does not have: {'; '.join(said)}. Nothing was changed.",
            materials=materials,
            recipes=recipes,
        )
