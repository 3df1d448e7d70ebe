"""Bench cards: a recipe scaled to an amount, on paper, with empty boxes and a code of its own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from stockroom.actions.drawing import DrawPlan
from stockroom.actions.precautions import cautions_for
from stockroom.actions.recipe_book import load_book
from stockroom.domain.labels import Card
from stockroom.domain.occasion import utc_text
from stockroom.domain.recipes import Recipe
from stockroom.domain.typed_amounts import read_amount
from stockroom.errors import BadInput
from stockroom.files import write_whole
from stockroom.labels.bench_card import BenchCard, CardLine, draw_card
from stockroom.planning.requirements import Need, Scale, needs_of
from stockroom.planning.steps import Measured, StepToDo, unsaid, written_out
from stockroom.science.amounts import show_amount
from stockroom.science.quantities import Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.codes import give_code
from stockroom.store.labels import add_card, find_card
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.stockroom_settings import setting


@dataclass(frozen=True, slots=True, kw_only=True)
class CardMade:
    """A bench card that was written."""

    code: str
    recipe: str
    version: int
    quantity: str | None
    steps: tuple[StepToDo, ...]
    path: Path


def make_card(
    store: Store, recipe_words: str, typed: str | None, path: Path, *, by: str | None, now: datetime
) -> CardMade:
    """Write a bench card for so much of a stock or bath as a PDF, and keep its code.

    Raises NotFound for a recipe there is not, BadInput for one that is worked out from an object's size or for a
    file that is no .pdf, Refused where the place cannot be written.
    """
    if path.suffix.lower() != ".pdf":
        raise BadInput(f"{path.name}: a bench card is a .pdf; end the name with it.")
    recipe = find_recipe(store, recipe_words)
    if recipe.kind == "treatment":
        raise BadInput(
            f"{recipe.name} is a treatment, worked out for an object: 'stockroom use {recipe.key} --job … --dry-run'. "
            "Cards are for stocks and baths."
        )
    total = _total(store, recipe, typed)
    book = load_book(store, recipe)
    needs = needs_of(recipe, Scale(total=total), book)
    makes = find_material(store, recipe.makes) if recipe.makes else None
    measured = [
        Measured(key=need.material.key, words=_words(need), fills_up=need.made_up_to is not None) for need in needs
    ]
    steps = written_out([(recipe, show(total))], measured)
    cautions = cautions_for(recipe, needs, DrawPlan(lines=()), book, makes=makes)
    warned = tuple(step.words for step in steps if step.caution)
    with store.write():
        _, code = give_code(store, "T")
        add_card(store, code, recipe.version.id, typed or show(total), utc_text(now), by)
    drawn = draw_card(
        BenchCard(
            code=code,
            title=recipe.name,
            amount=show(total),
            version=recipe.version.number,
            printed=now.astimezone(ZoneInfo(setting(store, "time_zone"))).date().isoformat(),
            cautions=(*warned, *(caution.words for caution in unsaid(cautions, steps))),
            lines=tuple(CardLine(material=need.material.name, planned=_planned(need)) for need in needs),
            steps=tuple(
                step.words + (f" Wait {step.wait}." if step.wait else "") for step in steps if not step.caution
            ),
        )
    )
    write_whole(path, drawn)
    return CardMade(
        code=code,
        recipe=recipe.key,
        version=recipe.version.number,
        quantity=typed or show(total),
        steps=steps,
        path=path,
    )


def card_of(store: Store, code: str) -> Card:
    """Return a bench card by the code it is stored under. Raises NotFound."""
    return find_card(store, code)


def _total(store: Store, recipe: Recipe, typed: str | None) -> Quantity:
    if typed is None:
        if recipe.version.batch is None:
            raise BadInput(f"How much {recipe.name} is the card for? Say it, for example '1 L'.")
        return recipe.version.batch
    if recipe.makes is None:
        return read_quantity(typed).quantity
    material = find_material(store, recipe.makes)
    return read_amount(material, typed)


def _planned(need: Need) -> str:
    if need.total is None:
        return show_amount(need.line.amount) if need.line.amount else "to the reading"
    return f"{'about ' if need.made_up_to else ''}{show(need.total)}"


def _words(need: Need) -> str:
    return f"{_planned(need)} of {need.material.name}"
