"""A page that is one list, narrowed by typing while the arrow keys move through it."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from stockroom.store.fold import words_to_find
from stockroom.tui.screens.listing import Entries, ListingPage
from stockroom.tui.widgets.narrowing import NarrowingInput


class NarrowedPage(ListingPage):
    """Keeps the words that were typed in `_words`; `_total` is how many entries have them, shown or not."""

    AUTO_FOCUS = "NarrowingInput"
    NARROWED_BY: ClassVar[str]
    """What the words may be, for the empty field."""

    def __init__(self) -> None:
        super().__init__()
        self._total = 0
        self._words: list[tuple[str, str]] = []

    def above(self) -> ComposeResult:
        yield NarrowingInput(placeholder=f"type to narrow: {self.NARROWED_BY}", compact=True, id="words")

    def on_mount(self) -> None:
        self.query_one(Entries).can_focus = False

    @on(Input.Changed, "#words")
    def narrow(self, event: Input.Changed) -> None:
        self._words = words_to_find(event.value)
        self.load()

    @on(NarrowingInput.Move)
    def move(self, event: NarrowingInput.Move) -> None:
        getattr(self.query_one(Entries), f"action_{event.way}")()

    @on(Input.Submitted, "#words")
    def _submitted(self) -> None:
        self.open_marked()

    def open_marked(self) -> None:
        """Do what Enter does here."""
        self.query_one(Entries).action_select()
