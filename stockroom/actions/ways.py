"""How the materials that a plan needs are made and bought, as the stockroom knows it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from stockroom.actions.delivery_times import delivery_time
from stockroom.actions.recipe_book import load_book
from stockroom.domain.materials import Material
from stockroom.domain.open_days import ALWAYS_OPEN, OpenDays
from stockroom.domain.orders import Offer
from stockroom.domain.studio import Supplier
from stockroom.planning.levels import ingredients
from stockroom.planning.requirements import Book
from stockroom.planning.ways import HowBought, HowMade
from stockroom.store.deliveries import last_suppliers
from stockroom.store.kept_in import kept_in
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.recipes import recipe_making


def makings(store: Store, needed: dict[int, Material]) -> tuple[dict[int, HowMade], Book]:
    """Load how each needed material is made, and what it is made of, to any depth."""
    jars = kept_in(store)
    made: dict[int, HowMade] = {}
    book = Book(materials={}, recipes={})
    seen = dict(needed)
    waiting = list(needed.values())
    while waiting:
        material = waiting.pop()
        recipe = recipe_making(store, material.key)
        if recipe is None:
            continue
        jar = jars.get(recipe.id)
        made[material.id] = HowMade(
            recipe=recipe, jar=jar.jar if jar else None, left_behind=jar.left_behind if jar else 0
        )
        part = load_book(store, recipe)
        book = Book(materials={**book.materials, **part.materials}, recipes={**book.recipes, **part.recipes})
        by_id = {each.id: each for each in part.materials.values()}
        for key in ingredients(recipe, part):
            if key not in seen:
                seen[key] = by_id[key]
                waiting.append(by_id[key])
    return made, book


def buyings(store: Store, days: Mapping[int | None, OpenDays]) -> dict[int, HowBought]:
    """Return how each material is bought: by its cheapest offer, else from whom it last came, in its own packs."""
    found: dict[int, HowBought] = {}
    times: dict[int, int | None] = {}

    def from_supplier(supplier: Supplier) -> HowBought:
        if supplier.id not in times:
            times[supplier.id] = delivery_time(store, supplier).days
        open_days = days.get(supplier.id, ALWAYS_OPEN)
        return HowBought(delivery_days=times[supplier.id], supplier=supplier.name, open_days=open_days)

    for key, supplier in last_suppliers(store).items():
        found[key] = from_supplier(supplier)
    for offer in sorted(current_offers(store), key=_price_a_quantum, reverse=True):
        how = from_supplier(offer.supplier)
        found[offer.material.id] = replace(how, pack=offer.pack_quanta, least_packs=offer.minimum_packs)
    return found


def _price_a_quantum(offer: Offer) -> float:
    return offer.in_own(offer.price) / offer.pack_quanta
