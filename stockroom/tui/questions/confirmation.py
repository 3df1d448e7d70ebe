"""Show the plan as it would be booked, or kept, and ask whether to do it."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.keys import Active, named
from stockroom.tui.widgets.told import Told


class Confirm(Question[bool]):
    """`b` does it, and the letter that what is done begins with; Enter pressed twice does nothing."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("b,B", "book", "Book it")]

    def __init__(self, title: str, plan: Content, *, changed: str | None = None, verb: str = "Book") -> None:
        super().__init__(title)
        self._plan, self._changed, self._verb = plan, changed, verb

    def body(self) -> ComposeResult:
        if self._changed:
            yield Static(Content(f"! {self._changed}"), classes="wrong")
        with VerticalScroll():
            yield Told(self._plan, classes="body")
        does = f"{self._key} {self._verb.lower()}s it"
        yield Static(Content(f"{does}. Esc goes back: nothing is done until you say so."), classes="keys")

    @property
    def _key(self) -> str:
        return self._verb[0].lower()

    @property
    def active_bindings(self) -> Active:
        return named(super().active_bindings, "book", f"{self._verb} it", self._key)

    async def on_key(self, event: events.Key) -> None:
        """Take the first letter of what is done too, with caps lock as well."""
        if event.key.lower() == self._key:
            event.stop()
            self.action_book()

    def action_book(self) -> None:
        self.dismiss(True)
