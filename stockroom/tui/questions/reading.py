"""Something to be read, and nothing to be answered."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content

from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.told import Told


class Reading(Question[None]):
    """Shows a text until it was read."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter,escape", "leave", "Done")]

    def __init__(self, title: str, told: Content) -> None:
        super().__init__(title)
        self._told = told

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Told(self._told, classes="body")
