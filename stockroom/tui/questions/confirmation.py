"""Show the plan as it would be booked, and ask whether to book it."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.told import Told


class Confirm(Question[bool]):
    """`b` books; nothing else does, so that Enter pressed twice books nothing."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("b", "book", "Book it")]

    def __init__(self, title: str, plan: Content, *, changed: str | None = None) -> None:
        super().__init__(title)
        self._plan, self._changed = plan, changed

    def body(self) -> ComposeResult:
        if self._changed:
            yield Static(Content(f"! {self._changed}"), classes="wrong")
        with VerticalScroll():
            yield Told(self._plan, classes="body")
        yield Static(Content("b books it. Esc goes back: nothing is booked until you say so."), classes="keys")

    def action_book(self) -> None:
        self.dismiss(True)
