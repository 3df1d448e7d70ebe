"""What every question is: a title, a body, and Escape to leave it unanswered."""

from __future__ import annotations

from typing import ClassVar, Generic, TypeVar

from textual import events, getters
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from stockroom.labels.plain_text import make_visible
from stockroom.tui.app import StockroomApp
from stockroom.tui.widgets.keys import Keys

T = TypeVar("T")


class Question(ModalScreen[T | None], Generic[T]):
    """Waits for an answer of one type; None where it was left."""

    app = getters.app(StockroomApp)
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Go back")]

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title = title

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(Content(make_visible(self._title)), classes="title")
            yield from self.body()
        yield Keys()

    def body(self) -> ComposeResult:
        """Compose what is beneath the title."""
        yield from ()

    async def on_key(self, event: events.Key) -> None:
        """Catch what is typed, or sent by a scanner, before the field is ready for it."""
        field = self.query_one_optional(Input)
        if field is None or field.has_focus:
            return
        if event.is_printable and event.character:
            event.stop()
            field.value += event.character
            field.cursor_position = len(field.value)
        elif event.key == "enter":
            event.stop()
            await field.action_submit()

    def action_leave(self) -> None:
        self.dismiss(None)
