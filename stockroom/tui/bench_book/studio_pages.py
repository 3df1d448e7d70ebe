"""The pages of places, measures and people."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from textual.content import Content

from stockroom.store.left_open import left_open
from stockroom.store.lots import lots_at
from stockroom.store.open import Store
from stockroom.store.studio import find_person
from stockroom.store.weighings import spoon_weighings
from stockroom.tui.bench_book.history import edits_part, listed
from stockroom.tui.forms.own_spoons import weighed_words
from stockroom.tui.forms.own_studio import measure_of, measure_told, place_of
from stockroom.tui.texts import one_line, rows

Part = tuple[str, Content]


def place_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a place: its note, and what is kept there."""
    found = place_of(store, key)
    yield "", Content(one_line(found.note or "Nothing more is noted of it."))
    lots = lots_at(store, found.id)
    yield (
        "What is kept there",
        listed(f"{lot.code}  {lot.amount_words}  {lot.material.name}" for lot in lots)
        if lots
        else Content("Nothing is kept there."),
    )
    yield edits_part(store, "place", key)


def measure_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a measure: what it holds, and of a spoon what its spoonfuls weighed."""
    found = measure_of(store, key)
    yield "", rows(measure_told(found))
    weighed = [one for one in spoon_weighings(store) if one.spoon == found.name]
    if found.kind == "spoon" and not weighed:
        words = "None yet: until then it is reckoned by the usual range for such powders. W weighs them."
        yield "Spoonfuls weighed", Content(words)
    else:
        yield "Weighed, levelled", listed(weighed_words(one) for one in weighed)
    yield edits_part(store, "measure", key)


def person_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a person: the name, and what is left open."""
    found = find_person(store, key)
    yield "", rows((("name", found.name), ("initials", f"{found.initials}, theirs for good")))
    still = left_open(store, found.initials)
    yield (
        "Left open",
        listed(f"{one.code}  {one.words}" + (f", back by {one.by}" if one.by else "") for one in still)
        if still
        else Content("Nothing is left open."),
    )
    yield edits_part(store, "person", key)
