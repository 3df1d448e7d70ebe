"""Begin a stockroom: its file, its own settings, the first person, and what most studios have."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from stockroom.actions.naming import check_initials, check_text
from stockroom.domain.materials import Material
from stockroom.domain.occasion import utc_text
from stockroom.domain.recipes import Recipe
from stockroom.domain.studio import Measure
from stockroom.errors import BadInput
from stockroom.science.money import minor_digits
from stockroom.science.numerals import quoted
from stockroom.store.creating import create_store
from stockroom.store.materials import add_material
from stockroom.store.open import Store
from stockroom.store.recipes import add_recipe
from stockroom.store.stockroom_settings import set_setting
from stockroom.store.studio import add_measure, add_person, add_place

DEFAULT_CURRENCY = "EUR"
DEFAULT_INITIALS = "ME"
DEFAULT_NAME = "the keeper"
COSTS = ("net", "gross")
"""Whether costs are booked without or with the tax on them; a stockroom keeps to one."""

STARTER_PLACES = ("shelf", "solvent cupboard", "refrigerator")
STARTER_MEASURES = (
    *(Measure(id=0, name=f"{ul / 1000:g} mL spoon", kind="spoon", capacity_ul=ul) for ul in (5000, 2500, 1250, 630)),
    Measure(id=0, name="100 mL beaker", kind="beaker", capacity_ul=100_000, graduation_ul=10_000),
    Measure(id=0, name="500 mL beaker", kind="beaker", capacity_ul=500_000, graduation_ul=50_000),
    Measure(id=0, name="1 L beaker", kind="beaker", capacity_ul=1_000_000, graduation_ul=100_000),
    Measure(id=0, name="10 mL cylinder", kind="cylinder", capacity_ul=10_000, graduation_ul=200),
    Measure(id=0, name="100 mL cylinder", kind="cylinder", capacity_ul=100_000, graduation_ul=1_000),
    Measure(id=0, name="500 mL cylinder", kind="cylinder", capacity_ul=500_000, graduation_ul=5_000),
    Measure(id=0, name="30 x 40 cm tray", kind="tray", length_um=300_000, width_um=400_000),
    Measure(id=0, name="0.01 g balance", kind="balance", resolution_ug=10_000),
)
"""Common practice, no source: a kitchen set of spoons, beakers, cylinders, a photographic tray, a bench balance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """A stockroom that has just begun."""

    path: Path
    initials: str
    name: str
    currency: str
    time_zone: str
    costs: str
    materials: int
    recipes: int


def begin(
    path: Path,
    *,
    initials: str | None = None,
    name: str | None = None,
    currency: str = DEFAULT_CURRENCY,
    time_zone: str = "UTC",
    costs: str = "net",
    empty: bool = False,
) -> Beginning:
    """Make the file with everything in it, or nothing at all.

    Raises AlreadyExists for a file that is there, BadInput for an unknown currency, zone or way of costing.
    """
    currency = currency.strip().upper()
    minor_digits(currency)
    _check_zone(time_zone)
    if costs not in COSTS:
        raise BadInput(f"{quoted(costs)} is not a way of keeping costs. Write net (without tax) or gross (with it).")
    initials = check_initials(initials or DEFAULT_INITIALS)
    name = check_text(name, "name") if name is not None else DEFAULT_NAME
    materials, recipes = ([], []) if empty else _starter()

    def fill(store: Store, booked_at: datetime) -> None:
        for setting, value in (("currency", currency), ("time_zone", time_zone), ("costs", costs)):
            set_setting(store, setting, value)
        add_person(store, initials, name)
        if empty:
            return
        for place in STARTER_PLACES:
            add_place(store, place, None)
        for measure in STARTER_MEASURES:
            add_measure(store, measure)
        for material in materials:
            add_material(store, material)
        for recipe in recipes:
            add_recipe(store, recipe, initials, utc_text(booked_at))

    store = create_store(path, fill)
    store.close()
    return Beginning(
        path=store.path,
        initials=initials,
        name=name,
        currency=currency,
        time_zone=time_zone,
        costs=costs,
        materials=len(materials),
        recipes=len(recipes),
    )


def _starter() -> tuple[list[Material], list[Recipe]]:
    from stockroom.domain.starter_files import starter_materials, starter_recipes

    return starter_materials(), starter_recipes()


def _check_zone(name: str) -> None:
    try:
        ZoneInfo(name)
    except (KeyError, OSError, ValueError):
        raise BadInput(
            f"{quoted(name)} is not a time zone known here. Write one like Europe/Berlin, America/Toronto or UTC."
        ) from None
