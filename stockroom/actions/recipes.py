"""Recipes of the studio's own: adding, editing, copying and retiring them.

A version is never changed: editing adds the next one, and what was made by an earlier one stays as it was.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import carry_out
from stockroom.actions.editing import changes, keep_changes, retired
from stockroom.actions.naming import check_key, check_text
from stockroom.domain.jobs import JobObject
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipe_words import Difference, differences, says
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.planning.requirements import Book, Scale, needs_of
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import open_bookings
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import (
    add_recipe,
    add_version,
    all_recipes,
    change_recipe,
    find_recipe,
    recipe_key_taken,
    refuse_ring,
)

TRIAL_OBJECT = JobObject(position=1, name="a trial sheet", length_um=400_000, width_um=300_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeKept:
    """A recipe as it would be, or is, kept."""

    recipe: Recipe
    differences: tuple[Difference, ...] = ()
    """From the version before, line by line."""
    warnings: tuple[str, ...] = ()
    """Why it cannot be worked out yet, where it cannot."""

    def as_plan(self) -> RecipeKept:
        version = replace(self.recipe.version, id=0, number=0)
        return replace(self, recipe=replace(self.recipe, id=0, version=version))


def new_recipe(store: Store, occasion: Occasion, text: str, where: str, *, dry_run: bool = False) -> RecipeKept:
    """Add the recipe of a file. `where` names the file in messages.

    Raises BadInput with every problem, for a ring too; AlreadyExists when its key is taken.
    """
    return add_recipe_of(store, occasion, read_recipe(text, where), dry_run=dry_run)


def copy_recipe(store: Store, occasion: Occasion, words: str, key: str, name: str) -> RecipeKept:
    """Add a recipe that begins as another's newest version, under a key and name of its own."""
    check_key(key, lambda wanted: recipe_key_taken(store, wanted))
    return add_recipe_of(store, occasion, replace(find_recipe(store, words), key=key, name=check_text(name, "name")))


def add_recipe_of(
    store: Store, occasion: Occasion, recipe: Recipe, *, dry_run: bool = False, confirmed: RecipeKept | None = None
) -> RecipeKept:
    """Add a recipe that was read. Raises as `new_recipe` does, and PlanChanged."""

    def build(booked_at: datetime) -> RecipeKept:
        _check_batch(store, recipe)
        add_recipe(store, recipe, occasion.by, utc_text(booked_at))
        return RecipeKept(recipe=find_recipe(store, recipe.key), warnings=_warnings(store, recipe))

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def edit_recipe(
    store: Store,
    occasion: Occasion,
    words: str,
    text: str,
    where: str,
    *,
    dry_run: bool = False,
    confirmed: RecipeKept | None = None,
) -> RecipeKept:
    """Make what a file says the next version of a recipe. A file that says nothing new adds none.

    Raises Refused where the file is another recipe's, or of another kind.
    """
    edited = read_recipe(text, where)

    def build(booked_at: datetime) -> RecipeKept:
        before = find_recipe(store, words)
        after = replace(edited, id=before.id, retired_on=before.retired_on)
        _check_same(before, after, where)
        _check_batch(store, after)
        found = differences(before, after)
        if found:
            change_recipe(store, after)
            renamed = changes({"name": before.name}, {"name": after.name})
            keep_changes(store, "recipe", before.key, renamed, occasion, booked_at)
        if says(after)[1:] != says(before)[1:]:
            add_version(store, before.id, after.version, occasion.by, utc_text(booked_at))
        return RecipeKept(recipe=find_recipe(store, before.key), differences=found, warnings=_warnings(store, after))

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _check_same(before: Recipe, after: Recipe, where: str) -> None:
    for what, was, became in (
        ("key", before.key, after.key),
        ("kind", before.kind, after.kind),
        ("makes", before.makes, after.makes),
    ):
        if was != became:
            raise Refused(
                f"{where} says {what} = {became}, but {before.key} has {was}, which never changes. "
                "Put it right in the file, or add the file as a recipe of its own with 'stockroom recipe new'."
            )


def _check_batch(store: Store, recipe: Recipe) -> None:
    """Refuse a stock whose batch is no amount of what it makes."""
    if recipe.makes is None:
        return
    made = next((each for each in all_materials(store, retired=True) if each.key == recipe.makes), None)
    if made is None:
        raise NotFound(f"{recipe.key} makes '{recipe.makes}', a material this stockroom does not have. Add it first.")
    batch = recipe.version.batch
    if batch is not None and batch.dimension is not made.dimension:
        raise BadInput(
            f"{recipe.key} makes {made.name}, which is measured by {made.dimension.value}: "
            f"a batch of {show(batch)} is not that."
        )


def _warnings(store: Store, recipe: Recipe) -> tuple[str, ...]:
    """Try a batch for one object."""
    made = next((each.dimension for each in all_materials(store) if each.key == recipe.makes), Dimension.VOLUME)
    return trial(store, recipe, Scale(total=recipe.version.batch or Quantity(made, 1_000_000), objects=(TRIAL_OBJECT,)))


def trial(store: Store, recipe: Recipe, scale: Scale) -> tuple[str, ...]:
    """Work out what a recipe needs at a scale; say why where that cannot be done."""
    book = Book(
        materials={each.key: each for each in all_materials(store, retired=True)},
        recipes={each.key: each for each in all_recipes(store, retired=True)},
    )
    try:
        needs_of(recipe, scale, book)
    except BadInput as error:
        return (f"What it needs cannot be worked out yet: {error.message}",)
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RetiredRecipe:
    """A recipe that is offered no more, and what still speaks of it."""

    recipe: Recipe
    recipes: tuple[str, ...]
    """Keys of the recipes that name it."""
    bookings: tuple[str, ...]
    """Codes of the booked treatments that use it."""


def retire_recipe(store: Store, occasion: Occasion, words: str, *, undo: bool = False) -> RetiredRecipe:
    """Offer a recipe no more, or take it back into use."""
    with store.write() as booked_at:
        before = find_recipe(store, words)
        after, made = retired(before, occasion, before.name, undo=undo)
        change_recipe(store, after)
        refuse_ring(store, after.id)
        keep_changes(store, "recipe", before.key, made, occasion, booked_at)
    return RetiredRecipe(
        recipe=after,
        recipes=tuple(
            each.key for each in all_recipes(store) if any(line.recipe == after.key for line in each.version.lines)
        ),
        bookings=tuple(each.code for each in open_bookings(store) if each.recipe_key == after.key),
    )
