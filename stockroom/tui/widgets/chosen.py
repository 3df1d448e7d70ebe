"""A field that holds one thing chosen from a list."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from stockroom.labels.plain_text import make_visible


class Chosen(Widget, can_focus=True):
    """Shows what was chosen; Enter, or beginning to type, asks for another."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "ask", "Choose"),
        Binding("space", "ask(' ')", "Choose", show=False),
    ]

    key: reactive[str | None] = reactive(None)
    words: reactive[str] = reactive("")

    @dataclass
    class Ask(Message):
        """Another choice is wanted; `typed` begins the search."""

        chosen: Chosen
        typed: str = ""

        @property
        def control(self) -> Chosen:
            return self.chosen

    @dataclass
    class Changed(Message):
        """Another thing was chosen."""

        chosen: Chosen

        @property
        def control(self) -> Chosen:
            return self.chosen

    def __init__(self, empty: str, *, id: str) -> None:
        super().__init__(id=id)
        self._empty = empty

    def render(self) -> Content:
        return Content(make_visible(self.words)) if self.key else Content.styled(self._empty, "dim")

    def choose(self, key: str | None, words: str) -> None:
        """Hold another thing, or none."""
        self.words, changed = words, key != self.key
        self.key = key
        if changed:
            self.post_message(self.Changed(self))

    def action_ask(self, typed: str = "") -> None:
        self.post_message(self.Ask(self, typed))

    def on_click(self) -> None:
        self.action_ask()

    def on_key(self, event: events.Key) -> None:
        if event.is_printable and event.character and event.character not in " ?":
            event.stop()
            self.post_message(self.Ask(self, event.character))
