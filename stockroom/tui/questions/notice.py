"""Tell what went wrong, and wait until it was read."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.errors import DatabaseUnusable, Refused, StockroomError
from stockroom.tui.questions.question import Question
from stockroom.tui.words import on_screen


class Notice(Question[None]):
    """An error in words; any of Enter and Escape closes it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "leave", "I have read it"),
        Binding("escape", "leave", "I have read it", show=False),
    ]

    def __init__(self, error: StockroomError) -> None:
        if isinstance(error, DatabaseUnusable):
            title = "! The stockroom file cannot be used"
        elif isinstance(error, Refused):
            title = "! Not booked"
        else:
            title = "! This cannot be read"
        super().__init__(title)
        self._message = on_screen(error.message)

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Static(Content(self._message), classes="body")
