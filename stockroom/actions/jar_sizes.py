"""In what jars a stock is kept, and how much of each cannot be drawn. A plan, never an entry."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import accumulate

from stockroom.actions.editing import changes, keep_changes
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.kept_in import KeptIn, kept_in, set_kept_in
from stockroom.store.ledger import entries_of_lot
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes, find_recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class JarSize:
    """The jar of one stock."""

    recipe: Recipe
    jar: Quantity
    left_behind: Quantity
    """What cannot be drawn from each: above the solid, at the bottom."""


def set_jar_size(
    store: Store, occasion: Occasion, words: str, size: str | None, left_behind: str | None = None
) -> JarSize | None:
    """Keep what jar a stock goes into, as typed; without a size the usual batch is planned again.

    Raises BadInput for what is no stock, a size of another kind, or a jar of which nothing could be drawn.
    """
    recipe = find_recipe(store, words)
    if recipe.makes is None:
        raise BadInput(f"{recipe.name} is a {recipe.kind}, mixed for an object: only a stock is kept in jars.")
    if size is None and left_behind is not None:
        raise BadInput("How much stays behind goes with the size of the jar: give --size as well.")
    material = find_material(store, recipe.makes)
    told = None
    if size is not None:
        jar = read_quantity(size, expect=material.dimension, packs=material.packs).quantity
        stays = material.quantity(0)
        if left_behind is not None:
            stays = read_quantity(left_behind, expect=material.dimension, packs=material.packs).quantity
        if not stays.quanta < jar.quanta:
            raise BadInput(f"A jar of {show(jar)} of which {show(stays)} stays behind gives nothing.")
        told = KeptIn(jar=jar.quanta, left_behind=stays.quanta)
    with store.write() as booked_at:
        before = kept_in(store).get(recipe.id)
        set_kept_in(store, recipe.id, told)
        made = changes(_fields(before), _fields(told))
        keep_changes(store, "recipe", recipe.key, made, occasion, booked_at)
    return _built(recipe, told, material.quantity) if told else None


def jar_sizes(store: Store) -> list[JarSize]:
    """Return the jars that are kept, by recipe."""
    kept = kept_in(store)
    return [
        _built(recipe, kept[recipe.id], find_material(store, recipe.makes).quantity)
        for recipe in all_recipes(store)
        if recipe.id in kept and recipe.makes
    ]


def _built(recipe: Recipe, told: KeptIn, quantity: Callable[[int], Quantity]) -> JarSize:
    return JarSize(recipe=recipe, jar=quantity(told.jar), left_behind=quantity(told.left_behind))


def _fields(told: KeptIn | None) -> dict[str, str | None]:
    return {
        "jar_quanta": str(told.jar) if told else None,
        "left_behind": str(told.left_behind) if told else None,
    }


def most_held(store: Store, lot: Lot) -> Quantity | None:
    """Return the most a jar has held, which is what its size must be; None for what is no jar of liquid."""
    if not lot.is_jar or lot.material.dimension is not Dimension.VOLUME:
        return None
    most = max(accumulate(entry.quantity for entry in entries_of_lot(store, lot.id)), default=0)
    return lot.material.quantity(most) if most > 0 else None
