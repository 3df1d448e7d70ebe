"""Recipes written in a form: what was typed becomes the recipe's file, and a trial batch of it is worked out beside."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import carry_out
from stockroom.actions.materials import new_material
from stockroom.actions.naming import free_key
from stockroom.actions.recipe_trial import Trial, try_if_possible
from stockroom.actions.recipes import RecipeKept, edit_recipe, new_recipe
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipe_lines import Values, read_lines, read_steps
from stockroom.domain.recipe_typed import by_field, write_typed
from stockroom.domain.recipes import Recipe, RecipeVersion
from stockroom.errors import BadInput, NotFound, StockroomError
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.reading import read_quantity
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe, recipe_key_taken

Typed = Mapping[str, str]
NEW_MATERIAL = "+"
"""What a new stock makes, where it is to become a material of its own."""
WHERE = "The recipe"
_UNNAMED = "this-recipe"
"""A key for what has none yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A recipe as it would be, or is, kept, with a trial batch."""

    kept: RecipeKept
    was: int | None
    """The version before; None for a new recipe."""
    trial: Trial | None
    came_along: tuple[str, ...] = ()
    """What a copy still says of the recipe that it was begun as, though its lines are others."""
    action: None = None

    def as_plan(self) -> Written:
        return replace(self, kept=self.kept.as_plan())


def write_new(
    store: Store,
    occasion: Occasion,
    typed: Typed,
    *,
    copy_of: str | None = None,
    dry_run: bool = False,
    confirmed: Written | None = None,
) -> Written:
    """Add a recipe as it was typed, begun as a copy of another or not. Raises what `new_recipe` raises."""

    def build(booked_at: datetime) -> Written:
        values = dict(typed)
        source = find_recipe(store, copy_of) if copy_of else None
        values.setdefault("key", free_key(values["name"], lambda key: recipe_key_taken(store, key), "recipe"))
        if values.get("makes") == NEW_MATERIAL:
            values["makes"] = _new_solution(store, values)
        kept = new_recipe(store, occasion, _file(store, values), WHERE)
        return Written(
            kept=kept,
            was=None,
            trial=try_if_possible(store, kept.recipe, typed.get("trial")),
            came_along=_came_along(source.version, kept.recipe.version) if source else (),
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed, together=True)


def write_again(
    store: Store, occasion: Occasion, key: str, typed: Typed, *, dry_run: bool = False, confirmed: Written | None = None
) -> Written:
    """Make what was typed the next version of a recipe. Raises what `edit_recipe` raises."""

    def build(booked_at: datetime) -> Written:
        before = find_recipe(store, key)
        kept = edit_recipe(store, occasion, before.key, _file(store, _kept_as(before, typed)), WHERE)
        trial = try_if_possible(store, kept.recipe, typed.get("trial"))
        return Written(kept=kept, was=before.version.number, trial=trial)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed, together=True)


def read_typed(store: Store, typed: Typed, key: str | None = None) -> Recipe:
    """Read what was typed as far as it goes, under names of its own where there are none yet. Raises BadInput.

    A stock whose material is still to be added makes none yet.
    """
    recipe = read_recipe(_file(store, _as_far(store, typed, key)), WHERE)
    return replace(recipe, makes=None) if recipe.makes == _UNNAMED else recipe


def problems_of(store: Store, typed: Typed, key: str | None = None) -> dict[str, str]:
    """Say what is wrong with the fields of a recipe, by field; what is only not filled in yet is left out."""
    lines = read_lines(typed.get("lines", ""))
    unknown = [words for line in lines for words in _unknown(store, line)]
    if unknown:
        return {"lines": "\n".join(unknown)}
    try:
        read_typed(store, typed, key)
    except BadInput as error:
        found = by_field(error.details.get("problems", [error.message]), lines)
        return {field: words for field, words in found.items() if field in typed}
    return {}


def _came_along(source: RecipeVersion, copy: RecipeVersion) -> tuple[str, ...]:
    """Name what speaks of the other recipe's lines and was not put right with them."""
    if source.lines == copy.lines:
        return ()
    return tuple(
        name
        for name in ("strength", "life", "check", "note", "source")
        if getattr(copy, name) and getattr(copy, name) == getattr(source, name)
    )


def _new_solution(store: Store, typed: Typed) -> str:
    """Add the material that a new stock makes, named like it and measured as its batch is."""
    batch = read_quantity(typed["batch"]).quantity if "batch" in typed else Quantity(Dimension.VOLUME, 1)
    named = {"name": typed["name"], "kind": "solution", "measured_by": batch.dimension.value}
    return new_material(store, {**named, "storage": typed.get("storage")}).key


def _kept_as(before: Recipe, typed: Typed) -> dict[str, str]:
    """Put into what was typed what never changes."""
    fixed = {"key": before.key, "kind": before.kind, "makes": before.makes}
    return {**typed, **{name: value for name, value in fixed.items() if value}}


def _as_far(store: Store, typed: Typed, key: str | None) -> dict[str, str]:
    if key is not None:
        return _kept_as(find_recipe(store, key), typed)
    values = {"key": _UNNAMED, "name": "this recipe", "kind": "bath", **typed}
    makes = values.pop("makes", NEW_MATERIAL)
    if values["kind"] == "stock":
        values["makes"] = _UNNAMED if makes == NEW_MATERIAL else makes
    return values


def _file(store: Store, typed: Typed) -> str:
    """Write the recipe's file; materials and recipes may be named in any words that mean only them."""
    lines = [_keyed(store, line) for line in read_lines(typed.get("lines", ""))]
    return write_typed(typed, lines, read_steps(typed.get("steps", "")))


def _keyed(store: Store, line: Values) -> Values:
    keyed = dict(line)
    if "material" in line:
        keyed["material"] = find_material(store, str(line["material"])).key
    if "recipe" in line:
        keyed["recipe"] = find_recipe(store, str(line["recipe"])).key
    named = line.get("stand_ins")
    if isinstance(named, list):
        keyed["stand_ins"] = [find_material(store, words).key for words in named]
    return keyed


def _unknown(store: Store, line: Values) -> Iterator[str]:
    named = line.get("stand_ins")
    wanted = [("material", line.get("material")), ("recipe", line.get("recipe"))]
    wanted += [("material", words) for words in named] if isinstance(named, list) else []
    for noun, words in wanted:
        if words is None:
            continue
        try:
            find_material(store, str(words)) if noun == "material" else find_recipe(store, str(words))
        except NotFound as error:
            fits = error.details.get("fits")
            several = f"fits several: {', '.join(fits)}" if isinstance(fits, list) else f"is no {noun} of this studio"
            apart = noun == "material" and "amount" not in line and any(sign.isdigit() for sign in str(words))
            yield f"'{words}' {several}.{' Write = between a material and its amount.' if apart else ''}"
        except StockroomError as error:
            yield error.message
