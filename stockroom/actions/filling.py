"""How large a bath is: as a tray fills, as much as can be made from what is here, and how often a jar still does."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime, timedelta

from stockroom.actions.booked import load_booked
from stockroom.actions.drawing import Choices, plan_draws
from stockroom.actions.recipe_book import load_book
from stockroom.domain.jobs import JobObject
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput, Short
from stockroom.planning.requirements import Scale, needs_of, refuse_no_bath
from stockroom.science.measuring import tray_fill
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.history import uses_of_material
from stockroom.store.jobs import find_job, find_object
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.studio import find_measure

MOST_FILL_ML = 1_000_000
"""No bath is larger than a thousand litres."""
MOST_ANSWERS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class InTray:
    """One fill of a tray of the studio's own to a depth."""

    tray: str
    depth: Quantity
    volume: Quantity

    @property
    def words(self) -> str:
        """Say it as it is kept with the use: `30 x 40 cm tray, 8 mm`."""
        return f"{self.tray}, {show(self.depth)}"


def fill_of_tray(store: Store, tray: str | None, depth: str | None) -> InTray | None:
    """Work out one fill of a tray; None where neither was said. Raises BadInput where only one was."""
    if tray is None and depth is None:
        return None
    if tray is None or depth is None:
        raise BadInput("A tray is filled to a depth: say both, --tray '30 x 40 cm tray' --depth '8 mm'.")
    found = find_measure(store, tray, kind="tray")
    deep = read_quantity(depth, expect=Dimension.LENGTH).quantity
    volume = tray_fill(found.length_um or 0, found.width_um or 0, deep.quanta)
    return InTray(tray=found.name, depth=deep, volume=volume)


@dataclass(frozen=True, slots=True, kw_only=True)
class Greatest:
    """The largest fill that can be made from what is here, and what would be short of a larger one."""

    fill: Quantity
    limited_by: tuple[str, ...]


def greatest_fill(
    store: Store,
    occasion: Occasion,
    recipe_words: str,
    job_words: str,
    *,
    fills: int | None = None,
    objects: tuple[str, ...] = (),
    choices: Choices | None = None,
) -> Greatest:
    """Find the largest fill, of so many alike, that the shelf has everything for; to three digits, rounded down.

    Raises Short where not even a millilitre can be made, BadInput where nothing that is metered limits it.
    """
    recipe, job = find_recipe(store, recipe_words), find_job(store, job_words)
    refuse_no_bath(recipe)
    things: tuple[JobObject, ...] = tuple(find_object(job, words) for words in objects) or job.objects
    book = load_book(store, recipe)

    def try_fill(millilitres: int) -> None:
        total = Quantity(Dimension.VOLUME, 1_000 * millilitres)
        scale = Scale(total=total, fills=fills or recipe.version.fills, objects=things)
        plan_draws(store, occasion, needs_of(recipe, scale, book), book, choices or Choices(), {"drawn": []})

    enough, short = 1, MOST_FILL_ML
    try_fill(enough)
    limited_by: tuple[str, ...] = ()
    while short - enough > 1:
        middle = (enough + short) // 2
        try:
            try_fill(middle)
            enough = middle
        except Short as missing:
            short, limited_by = middle, tuple(book.materials[one["material"]].name for one in missing.details["short"])
    if not limited_by:
        raise BadInput(f"Nothing that is metered limits {recipe.name}: say how much with --qty.")
    step: int = 10 ** max(0, len(str(enough)) - 3)
    return Greatest(fill=Quantity(Dimension.VOLUME, enough // step * step * 1_000), limited_by=limited_by)


@dataclass(frozen=True, slots=True, kw_only=True)
class Enough:
    """How often a lot still does for a bath as it is booked, or as it was used last."""

    recipe: str
    recipe_name: str
    fills: int
    fill: Quantity | None
    tray: str | None
    known_from: str

    def words(self) -> str:
        """Say it: `for 3 fills of 960 mL (30 x 40 cm tray, 8 mm): Wash, as used on 2026-11-20`."""
        size = f" of {show(self.fill)}" if self.fill else ""
        tray = f" ({self.tray})" if self.tray else ""
        times = {0: "not for one fill", 1: "for 1 fill"}.get(self.fills, f"for {self.fills} fills")
        return f"{times}{size}{tray}: {self.recipe_name}, {self.known_from}"


def enough_for(store: Store, lot: Lot, local: datetime) -> tuple[Enough, ...]:
    """Say how many fills a lot is enough for: of what is booked, then of what was used last; a few at most."""
    if lot.material.dimension is not Dimension.VOLUME or lot.ended or not lot.balance.quantity:
        return ()
    found: dict[tuple[str, int], Enough] = {}
    recipes: dict[str, Recipe] = {}

    def add(key: str, each: int, fill: Quantity | None, tray: str | None, known_from: str) -> None:
        if each > 0 and (key, each) not in found and len(found) < MOST_ANSWERS:
            recipe = recipes.setdefault(key, find_recipe(store, key))
            found[key, each] = Enough(
                recipe=key,
                recipe_name=recipe.name,
                fills=lot.balance.quantity // each,
                fill=fill or recipe.version.batch,
                tray=tray,
                known_from=known_from,
            )

    for one, needs in load_booked(store, local):
        booking = one.booking
        fill = Quantity(Dimension.VOLUME, booking.fill_quanta) if booking.fill_quanta else None
        each = sum(need.per_fill.quanta for need, _ in needs if need.material.id == lot.material.id and need.per_fill)
        add(booking.recipe_key, each, fill, None, f"booked for {booking.for_day} ({booking.code})")
    lately = (local.date() - timedelta(days=365)).isoformat()
    for done in uses_of_material(store, lot.material.id, lately):
        details = json.loads(done.details)
        fill = Quantity(Dimension.VOLUME, details["fill"]) if details.get("fill") else None
        each = details.get("lines", {}).get(lot.material.key, 0) // details.get("fills", 1)
        add(details["recipe"], each, fill, details.get("tray"), f"as used on {done.day}")
    return tuple(found.values())
