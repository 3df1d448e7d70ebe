"""Find a material, a lot, a job, a recipe or something to do by a few letters."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from textual.content import Content

from stockroom.domain.lots import Lot
from stockroom.errors import StockroomError
from stockroom.store.fold import fold, holds, words_to_find
from stockroom.store.jobs import all_jobs
from stockroom.store.lots import ShelfSearch, lots_in_order
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes
from stockroom.tui.app import StockroomApp
from stockroom.tui.bench_book.nouns import Thing, all_things
from stockroom.tui.forms import FORMS, find_form
from stockroom.tui.papers import PAPERS, find_paper
from stockroom.tui.questions.code import known_code
from stockroom.tui.screens.papers import open_paper
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.area_line import AREAS

MOST = 12
"""Of each kind; whoever does not find it here types one letter more."""

WORDS_OF_AREAS = {
    "due": "What is due",
    "shelf": "The shelf",
    "jobs": "Jobs and what they cost",
    "plan": "What is booked for the days to come",
    "buy": "What to buy, and orders",
    "count": "Count a place",
    "bench-book": "The bench book: recipes, materials, places, measures, people, suppliers, labels",
}
_OPENED_FROM_A_PAGE = ("move-booking", "cancel-booking", "retire", "take-up", "weigh-spoon")


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Something that was found: how it is told, and where it leads."""

    words: str
    detail: str
    go: Callable[[StockroomApp], object]

    @property
    def line(self) -> Content:
        return Content.assemble(one_line(self.words), "  ", (one_line(self.detail), "dim"))


def to_do() -> Iterator[Found]:
    """Give everything that can be done, and every area of work."""
    for area, words in WORDS_OF_AREAS.items():
        yield Found(words=words, detail=AREAS[area].split()[0], go=partial(StockroomApp.action_area, area=area))
    for name in FORMS:
        if name in _OPENED_FROM_A_PAGE or name.startswith("edit-"):
            continue
        title = find_form(name).title
        if name in AREAS:
            yield Found(words=title, detail=AREAS[name].split()[0], go=partial(StockroomApp.action_area, area=name))
        else:
            yield Found(words=title, detail="", go=partial(StockroomApp.open_form, name=name))
    yield Found(words="Papers to hang up, sign or hand over", detail="P", go=StockroomApp.action_papers)
    for name in PAPERS:
        yield Found(words=find_paper(name).title, detail="paper", go=partial(open_paper, name=name))
    yield Found(words="Undo one of your last", detail="", go=StockroomApp.action_undo_last)
    yield Found(words="Who is booking", detail="", go=StockroomApp.action_who)
    yield Found(words="Lamp light or paper", detail="dark or light", go=StockroomApp.action_other_look)
    yield Found(words="Three steps to begin with", detail="", go=StockroomApp.action_tour)
    yield Found(words="Leave", detail="Ctrl+Q", go=StockroomApp.exit)


Searched = tuple[str, Found]
"""The folded text that is searched, and what it leads to."""


class Finder:
    """Finds by a few letters; kept, it reads what is searched once as long as nothing is changed."""

    def __init__(self, store: Store) -> None:
        self._store, self._shelf = store, ShelfSearch(store)
        self._revision: object = None
        self._kinds: list[list[Searched]] = []

    def find(self, typed: str) -> list[Found]:
        """Find what holds every word typed: first what a whole code names, then things to do, lots, jobs and the rest.

        Before anything is typed, give what can be done.
        """
        words = words_to_find(typed)
        if not words:
            return list(to_do())
        store, revision = self._store, self._store.revision()
        if revision != self._revision:
            self._kinds, self._revision = [_jobs(store), _recipes(store), _materials(store), _things(store)], revision
        found: list[Found] = []
        try:
            code = known_code(store, typed)
            go = partial(StockroomApp.open_code, code=code)
            found.append(Found(words=f"Open {code}", detail="by its code", go=go))
        except StockroomError:
            pass
        found += [one for one in to_do() if holds(fold(one.words), words)]
        found += map(_lot, lots_in_order(store, self._shelf.find(typed)[:MOST]))
        for kind in self._kinds:
            found += [one for text, one in kind if holds(text, words)][:MOST]
        return found


def _lot(lot: Lot) -> Found:
    return Found(
        words=f"{lot.code}  {lot.material.name}",
        detail=", ".join(part for part in (lot.amount_words, lot.place) if part),
        go=partial(StockroomApp.open_code, code=lot.code),
    )


def _jobs(store: Store) -> list[Searched]:
    return [
        (
            fold(f"{job.code} {job.title} {job.client or ''}"),
            Found(words=f"{job.code}  {job.title}", detail="job", go=partial(StockroomApp.open_code, code=job.code)),
        )
        for job in all_jobs(store)
    ]


def _recipes(store: Store) -> list[Searched]:
    found = []
    for recipe in all_recipes(store):
        form, told = ("make", "make it up") if recipe.kind == "stock" else ("use", "use it for a job")
        go = partial(StockroomApp.open_form, name=form, recipe=recipe.key)
        found.append((fold(f"{recipe.key} {recipe.name}"), Found(words=recipe.name, detail=told, go=go)))
    return found


def _materials(store: Store) -> list[Searched]:
    made, found = {recipe.makes for recipe in all_recipes(store)}, []
    for material in all_materials(store):
        told = "made here, on the shelf" if material.key in made else "on the shelf"
        go = partial(StockroomApp.search_shelf, words=material.name)
        text = fold(f"{material.key} {material.name} {material.kind} {material.grade or ''}")
        found.append((text, Found(words=material.name, detail=told, go=go)))
    return found


def _things(store: Store) -> list[Searched]:
    return [
        (
            thing.folded,
            Found(words=thing.name, detail=f"{thing.noun} in the bench book", go=partial(_open_thing, thing=thing)),
        )
        for thing in all_things(store)
    ]


def _open_thing(app: StockroomApp, thing: Thing) -> None:
    from stockroom.tui.screens.thing import open_thing

    open_thing(app, thing.noun, thing.key)
