"""Make up a solution: draw its ingredients and give each jar its code, dates, strength and cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from typing import Self

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.drawing import Choices, DrawPlan, plan_draws, waits_for_reading, with_shares
from stockroom.actions.drawn import Drawn, drawn_lines
from stockroom.actions.measuring import LineMeasured, measured_with
from stockroom.actions.mixing import (
    check_reading,
    measured_lines,
    stated_strength,
    temperature_detail,
    waiting_words,
)
from stockroom.actions.opening import opened_by_drawing
from stockroom.actions.posting import post
from stockroom.actions.precautions import against_cautions, cautions_for
from stockroom.actions.recipe_book import load_book
from stockroom.actions.taking import found_movement
from stockroom.actions.weighing import keep_tares
from stockroom.domain.ledger import Draft, Movement, Reworked, fact_text
from stockroom.domain.lots import Lot, NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.domain.typed_amounts import read_amount
from stockroom.errors import BadInput
from stockroom.planning.fitness import mark_of_withdrawn
from stockroom.planning.requirements import Scale, needs_of
from stockroom.planning.shelf_life import made_limits
from stockroom.planning.steps import StepToDo, written_out
from stockroom.science.cautions import Caution
from stockroom.science.lives import life_end, read_life
from stockroom.science.quantities import Quantity, show
from stockroom.science.reading import read_packs
from stockroom.science.sharing import share_out
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.studio import find_place


@dataclass(frozen=True, slots=True, kw_only=True)
class Making(ActionOutcome):
    """A solution made up, or the plan for it."""

    recipe: str
    recipe_name: str
    version: int
    material: str
    material_name: str
    total: Quantity
    jars: tuple[Quantity, ...]
    drawn: tuple[Drawn, ...]
    steps: tuple[StepToDo, ...]
    cautions: tuple[Caution, ...]
    measured: tuple[LineMeasured, ...]
    """With what each line is measured, and how closely."""
    strength: str | None
    use_by: str | None
    use_by_rule: str | None
    ready_on: str | None
    check_by: str | None
    cost: int
    cost_complete: bool
    opened: tuple[str, ...]
    waits_for: str | None = None
    """What is measured to a reading before anything is booked."""
    codes: tuple[str | None, ...] = ()
    reworked: tuple[Reworked, ...] = ()
    """Later counts that were kept as counted."""

    def as_plan(self) -> Self:
        return replace(self, codes=(None,) * len(self.jars), action=None)


def make(
    store: Store,
    occasion: Occasion,
    recipe_words: str,
    typed: str | None = None,
    *,
    into: str | None = None,
    choices: Choices | None = None,
    yielded: str | None = None,
    place: str | None = None,
    temperature: str | None = None,
    tares: Sequence[str] = (),
    dry_run: bool = False,
    confirmed: Making | None = None,
) -> Making:
    """Make up so much of a stock recipe, into one jar or several; `tares` are what they weigh empty.

    Raises Short with everything that is missing, BadInput for a recipe that is not a stock or jars too small,
    Refused for lots that are not fit, or things not to be brought together, and no reason given.
    """
    choices = choices or Choices()
    recipe = find_recipe(store, recipe_words)
    if recipe.kind != "stock" or recipe.makes is None:
        raise BadInput(f"{recipe.name} is a {recipe.kind}, mixed for an object: 'stockroom use {recipe.key} --job …'.")
    material = find_material(store, recipe.makes)
    total = _total(recipe, material, typed)
    book = load_book(store, recipe)
    needs = needs_of(recipe, Scale(total=total), book)
    waits = waits_for_reading(store, needs, choices)

    def build(booked_at: datetime) -> Making:
        plan = plan_draws(store, occasion, needs, book, choices, {"codes": [], "code": None, "drawn": []})
        cautions = cautions_for(recipe, needs, plan, book, makes=material)
        against = against_cautions(cautions, occasion)
        actual = _yielded(material, yielded, total, occasion)
        jars = _jars(material, into, total, actual)
        fields = _fields(store, recipe, plan, total, actual, occasion, choices, place)
        keys = [-(index + 1) for index in range(len(jars))]
        opening = opened_by_drawing(list(plan.lots.values()), occasion)
        draft = Draft(
            kind="make",
            occasion=occasion,
            new_lots=tuple(NewLot(key=key, material=material, kind="jar", fields=dict(fields)) for key in keys),
            movements=_movements(plan, keys, jars),
            facts=tuple(opening),
            version_id=recipe.version.id,
            details=_details(recipe, plan, total, typed, choices) | temperature_detail(temperature) | against,
        )
        posted = post(store, draft, booked_at)
        keep_tares(store, occasion, booked_at, [posted.lots[key] for key in keys], tares)
        drawn = drawn_lines(posted.entries, plan.lots, plan.overrides, plan.stand_ins)
        return Making(
            recipe=recipe.key,
            recipe_name=recipe.name,
            version=recipe.version.number,
            material=material.key,
            material_name=material.name,
            total=actual,
            jars=tuple(material.quantity(jar) for jar in jars),
            drawn=drawn,
            steps=written_out([(recipe, show(total))], measured_lines(plan)),
            cautions=cautions,
            measured=measured_with(store, plan),
            strength=fields["strength"] if isinstance(fields["strength"], str) else None,
            use_by=fact_text(fields["use_by"]),
            use_by_rule=fact_text(fields["use_by_rule"]),
            ready_on=fact_text(fields["ready_on"]),
            check_by=fact_text(fields["check_by"]),
            cost=sum(one.value for one in drawn),
            cost_complete=all(one.cost_known for one in drawn),
            opened=plan.opened(opening),
            waits_for=waiting_words(plan),
            codes=tuple(posted.lots[key] for key in keys),
            reworked=posted.reworked,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run or waits, confirmed=confirmed)


def _movements(plan: DrawPlan, keys: Sequence[int], jars: list[int]) -> tuple[Movement, ...]:
    """Return what was found, every draw into the jars in proportion to their sizes, then what each jar holds."""
    found = [found_movement(lot, quantity) for lot, quantity in plan.found.items()]
    draws = [
        Movement(lot=draw.lot.id, quantity=-share, other_end="lot", other_lot=key)
        for draw, shares in with_shares(plan, jars)
        for key, share in zip(keys, shares, strict=True)
        if share
    ]
    filled = [
        Movement(lot=key, quantity=jar, other_end="lot", other_lot=next(iter(plan.lots)), effect="base")
        if plan.lots
        else Movement(lot=key, quantity=jar, value=0, other_end="found", effect="base")
        for key, jar in zip(keys, jars, strict=True)
    ]
    return (*found, *draws, *filled)


def _total(recipe: Recipe, material: Material, typed: str | None) -> Quantity:
    if typed is None:
        if recipe.version.batch is None:
            raise BadInput(f"How much {recipe.name} is to be made? Say it, for example '1 L'.")
        return recipe.version.batch
    return read_amount(material, typed)


def _yielded(material: Material, typed: str | None, total: Quantity, occasion: Occasion) -> Quantity:
    """Return what came out in the end; another amount than planned needs a reason."""
    if typed is None:
        return total
    actual = read_amount(material, typed)
    if actual != total and not occasion.reason:
        raise BadInput(f"{show(actual)} came out where {show(total)} was planned: say why with --why.")
    return actual


def _jars(material: Material, into: str | None, total: Quantity, actual: Quantity) -> list[int]:
    """Share what came out over the jars, the first ones full."""
    if into is None:
        return [actual.quanta]
    sizes = [pack.quantity.quanta for pack in read_packs(into, expect=material.dimension, packs=material.packs)]
    if sum(sizes) < total.quanta:
        held = show(material.quantity(sum(sizes)))
        raise BadInput(f"'{into}' holds {held}, and {show(total)} is made. Name more or larger jars.")
    planned: list[int] = []
    left = total.quanta
    for size in sizes:
        if left <= 0:
            filled = f"{show(total)} fills {len(planned)} of the {len(sizes)} jars of '{into}'"
            raise BadInput(f"{filled}. Name only the jars that get some.")
        planned.append(min(size, left))
        left -= size
    return share_out(actual.quanta, planned)


def _fields(
    store: Store,
    recipe: Recipe,
    plan: DrawPlan,
    total: Quantity,
    actual: Quantity,
    occasion: Occasion,
    choices: Choices,
    place: str | None,
) -> dict[str, str | int | None]:
    version, made = recipe.version, occasion.local
    ingredients: list[Lot] = list(plan.lots.values()) if version.ingredients_limit else []
    use_by, rule = made_limits(made, version.life, ingredients)
    ready = life_end(made, read_life(version.ready_after)).text() if version.ready_after else None
    check = life_end(made, read_life(version.check_every)).text() if version.check_every else None
    reading = None if plan.waits_for else check_reading(plan, choices, occasion)
    strength = reading or stated_strength(recipe, plan, Fraction(total.quanta, actual.quanta))
    return {
        "made_at": occasion.minute_text,
        "over_solid": "over solid" if version.over_solid else "no solid",
        "cost_known": "known" if all(lot.cost_known for lot in plan.lots.values()) else "unknown",
        "life_opened": version.life_opened,
        "own_use_by": use_by,
        "use_by": use_by,
        "use_by_rule": rule,
        "ready_on": ready,
        "check_by": check,
        "strength": strength,
        "unfit": mark_of_withdrawn(plan.lots.values()),
        "place_id": find_place(store, place).id if place else None,
    }


def _details(recipe: Recipe, plan: DrawPlan, total: Quantity, typed: str | None, choices: Choices) -> dict[str, object]:
    numbers = {
        line.need.material.key: {
            "planned": line.need.total.quanta if line.need.total else None,
            "taken": line.quantity.quanta,
            "purity": line.need.material.purity,
            "density": str(line.need.material.density) if line.need.material.density else None,
        }
        for line in plan.lines
    }
    drawn = {"recipe": recipe.key, "total": total.quanta, "typed": typed or "", "lines": numbers}
    return drawn | plan.details(choices)
