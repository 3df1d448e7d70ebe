"""A trial batch of a recipe that is being written: amounts, steps, hazards and cautions, and nothing drawn."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.actions.drawing import DrawPlan
from stockroom.actions.measuring import LineMeasured, ways_for
from stockroom.actions.precautions import RecipeHazards, cautions_for, hazards_of
from stockroom.actions.recipe_book import load_book
from stockroom.actions.recipes import TRIAL_OBJECT
from stockroom.domain.materials import Material
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.requirements import Need, Scale, needs_of
from stockroom.planning.steps import Measured, StepToDo, written_out
from stockroom.science.amounts import show_amount
from stockroom.science.cautions import Caution
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.materials import find_material
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A batch of a recipe worked out: nothing is drawn, and nothing on the shelf is asked."""

    batch: str
    lines: tuple[tuple[str, str], ...]
    """Of each line its amount and its material's name."""
    measured: tuple[LineMeasured, ...]
    steps: tuple[StepToDo, ...]
    cautions: tuple[Caution, ...]
    hazards: RecipeHazards | None
    """None for a treatment."""


def try_batch(store: Store, recipe: Recipe, typed: str | None = None) -> Trial:
    """Work out a batch of a recipe, which need not be kept yet; of a treatment, one fill for a sheet of 40 x 30 cm.

    Raises BadInput where the amount cannot be read, or what a line needs is not known.
    """
    makes = find_material(store, recipe.makes) if recipe.makes else None
    scale = Scale(total=_total(recipe, makes, typed), objects=(TRIAL_OBJECT,))
    book = load_book(store, recipe)
    needs = needs_of(recipe, scale, book)
    inner = [book.recipes[line.recipe] for line in recipe.version.lines if line.recipe]
    words = show(scale.total) if scale.total else ""
    measured = [
        Measured(key=one.material.key, words=f"{_amount(one)} of {one.material.name}", fills_up=bool(one.made_up_to))
        for one in needs
    ]
    return Trial(
        batch=f"a sheet of 40 x 30 cm, one fill of {words}" if recipe.kind == "treatment" else words,
        lines=tuple((_in_trial(need), need.material.name) for need in needs),
        measured=ways_for(store, [(need, need.material, need.per_fill) for need in needs if need.per_fill]),
        steps=written_out([*((one, words) for one in inner), (recipe, words)], measured),
        cautions=cautions_for(recipe, needs, DrawPlan(lines=()), book, makes=makes),
        hazards=hazards_of(store, recipe),
    )


def try_if_possible(store: Store, recipe: Recipe, typed: str | None) -> Trial | None:
    """Work a batch out; None where a line needs what is not known, as the recipe's own warnings say.

    Raises BadInput where the amount cannot be read.
    """
    _total(recipe, find_material(store, recipe.makes) if recipe.makes else None, typed)
    try:
        return try_batch(store, recipe, typed)
    except BadInput:
        return None


def _total(recipe: Recipe, makes: Material | None, typed: str | None) -> Quantity:
    batch = recipe.version.batch
    dimension = makes.dimension if makes else batch.dimension if batch else Dimension.VOLUME
    if typed:
        return read_quantity(typed, expect=dimension).quantity
    return batch or Quantity(dimension, 1_000_000)


def _in_trial(need: Need) -> str:
    return f"make up to {show(need.made_up_to)}" if need.made_up_to else _amount(need)


def _amount(need: Need) -> str:
    if need.per_fill is None:
        return show_amount(need.line.amount) if need.line.amount else "to the reading"
    return f"about {show(need.per_fill)}" if need.made_up_to else show(need.per_fill)
