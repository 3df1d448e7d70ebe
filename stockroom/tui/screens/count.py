"""Stock-take: the places, and the rounds in progress there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from stockroom.domain.studio import Place
from stockroom.store.lots import lots_at
from stockroom.store.open import Store
from stockroom.store.rounds import open_round
from stockroom.store.studio import all_places
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.texts import one_line


class CountScreen(ListingPage):
    """The places to be counted."""

    AREA = "count"
    HELP = """
A stock-take is a round through one place: scan what is there, leave and come back, and
confirm the differences once. Enter begins the round at a place or goes on with it. C counts
one lot alone.
"""
    BINDINGS: ClassVar[list[BindingType]] = [Binding("c", "count", "Count one lot")]

    def read(self, store: Store) -> Sequence[Entry]:
        return [self._entry(store, place) for place in all_places(store)]

    def _entry(self, store: Store, place: Place) -> Entry:
        lots, going = len(lots_at(store, place.id)), open_round(store, place.id)
        words = f"{lots} lot{'s' if lots != 1 else ''} kept here"
        if going:
            words += f"; a round is in progress: {len(going.lines)} seen, begun by {going.initials}"
        return Entry(
            key=place.name,
            words=Content.styled(one_line(place.name), "bold"),
            below=(Content.styled(words, "dim"),),
            does="go on with the round" if going else "begin a round here",
        )

    def heading(self) -> str:
        if not self.entries:
            return "No place is named yet: name one in the bench book (F12)."
        return "Count which place?"

    def go_on(self, key: str) -> None:
        from stockroom.tui.screens.round import RoundScreen

        self.app.push_screen(RoundScreen(key))

    def action_count(self) -> None:
        self.app.open_form("count")
