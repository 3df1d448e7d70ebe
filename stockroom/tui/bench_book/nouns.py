"""The kinds of thing in the bench book: how each is listed, what its page says, and which forms are for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from importlib import import_module

from textual.content import Content

from stockroom.store.fold import fold, holds
from stockroom.store.labels import all_label_stocks, all_printers
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes
from stockroom.store.studio import all_measures, all_people, all_places
from stockroom.store.suppliers import all_suppliers


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing, as it stands in the list."""

    noun: str
    key: str
    name: str
    told: str = ""
    retired_on: str | None = None

    @property
    def folded(self) -> str:
        """What is searched for it, the word of its kind among it."""
        return fold(
            f"{self.name} {self.told} {self.key} {NOUNS[self.noun].many} {'retired' if self.retired_on else ''}"
        )

    def holds(self, words: Sequence[tuple[str, str]]) -> bool:
        """Say whether it holds every word."""
        return holds(self.folded, words)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingPage:
    """All that is kept of one thing."""

    thing: Thing
    parts: tuple[tuple[str, Content], ...]
    """What its page says, each part under its title if it has one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Noun:
    """One kind of thing."""

    many: str
    """What several are called."""
    things: Callable[[Store], list[Thing]]
    """Every one, retired ones too."""
    page: str
    """A module of this package and the function in it that writes the parts of a page."""
    new: str
    """The form that adds one."""
    edit: str
    """The form that changes one."""
    ending: str = "Retire"
    """What taking it out of use is called."""


def read_page(store: Store, noun: str, key: str, currency: str, local: datetime) -> ThingPage | None:
    """Return all that is kept of one thing; None where it is not here any more."""
    thing = next((one for one in NOUNS[noun].things(store) if one.key == key), None)
    if thing is None:
        return None
    module, function = NOUNS[noun].page.split(":")
    write = getattr(import_module(f"stockroom.tui.bench_book.{module}"), function)
    return ThingPage(thing=thing, parts=tuple(write(store, key, currency, local)))


def all_things(store: Store, noun: str | None = None, words: Sequence[tuple[str, str]] = ()) -> list[Thing]:
    """Return the things of one kind or of all that hold every word, by kind, retired ones last."""
    found = [
        thing for name, each in NOUNS.items() if noun in (None, name) for thing in _in_use_first(each.things(store))
    ]
    return [thing for thing in found if thing.holds(words)]


def _in_use_first(things: list[Thing]) -> list[Thing]:
    return sorted(things, key=lambda one: one.retired_on is not None)


def _recipes(store: Store) -> list[Thing]:
    return [
        Thing(noun="recipe", key=one.key, name=one.name, told=one.kind, retired_on=one.retired_on)
        for one in all_recipes(store, retired=True)
    ]


def _materials(store: Store) -> list[Thing]:
    return [
        Thing(
            noun="material",
            key=one.key,
            name=one.name,
            told=f"{one.grade}, {one.kind}, by {one.dimension}" if one.grade else f"{one.kind}, by {one.dimension}",
            retired_on=one.retired_on,
        )
        for one in all_materials(store, retired=True)
    ]


def _places(store: Store) -> list[Thing]:
    return [
        Thing(noun="place", key=str(one.id), name=one.name, told=one.note or "", retired_on=one.retired_on)
        for one in all_places(store, retired=True)
    ]


def _measures(store: Store) -> list[Thing]:
    return [
        Thing(noun="measure", key=str(one.id), name=one.name, told=one.kind, retired_on=one.retired_on)
        for one in all_measures(store, retired=True)
    ]


def _people(store: Store) -> list[Thing]:
    return [
        Thing(noun="person", key=one.initials, name=f"{one.initials} {one.name}", retired_on=one.retired_on)
        for one in all_people(store)
    ]


def _suppliers(store: Store) -> list[Thing]:
    return [
        Thing(
            noun="supplier",
            key=str(one.id),
            name=one.name,
            told="" if one.lead_days is None else f"delivers in {one.lead_days} days, as promised",
            retired_on=one.retired_on,
        )
        for one in all_suppliers(store)
    ]


def _label_stocks(store: Store) -> list[Thing]:
    return [
        Thing(
            noun="label stock",
            key=str(one.id),
            name=one.name,
            told=f"{one.columns * one.rows} on a page" if one.columns * one.rows > 1 else "single labels",
            retired_on=one.retired_on,
        )
        for one in all_label_stocks(store, retired=True)
    ]


def _printers(store: Store) -> list[Thing]:
    return [Thing(noun="printer", key=one.name, name=one.name, told="measured") for one in all_printers(store)]


NOUNS: dict[str, Noun] = {
    "recipe": Noun(
        many="Recipes", things=_recipes, page="recipe_page:recipe_parts", new="new-recipe", edit="edit-recipe"
    ),
    "material": Noun(
        many="Materials",
        things=_materials,
        page="material_page:material_parts",
        new="new-material",
        edit="edit-material",
    ),
    "place": Noun(many="Places", things=_places, page="studio_pages:place_parts", new="new-place", edit="edit-place"),
    "measure": Noun(
        many="Measures", things=_measures, page="studio_pages:measure_parts", new="new-measure", edit="edit-measure"
    ),
    "person": Noun(
        many="People", things=_people, page="studio_pages:person_parts", new="new-person", edit="edit-person"
    ),
    "supplier": Noun(
        many="Suppliers",
        things=_suppliers,
        page="trade_pages:supplier_parts",
        new="new-supplier",
        edit="edit-supplier",
    ),
    "label stock": Noun(
        many="Labels",
        things=_label_stocks,
        page="trade_pages:label_stock_parts",
        new="new-label-stock",
        edit="edit-label-stock",
    ),
    "printer": Noun(
        many="Printers",
        things=_printers,
        page="trade_pages:printer_parts",
        new="new-printer",
        edit="new-printer",
        ending="Forget it",
    ),
}
"""In the order in which they are listed."""
