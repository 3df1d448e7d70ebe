"""Show what was booked, and offer what comes next."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.told import Told


class Result(Question[str]):
    """Answers with what to do next: label, lot or undo; None for nothing."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("l", "next('label')", "Label"),
        Binding("o", "next('lot')", "Its page"),
        Binding("u", "next('undo')", "Undo"),
        Binding("enter", "leave", "Done"),
        Binding("escape", "leave", "Done", show=False),
    ]

    def __init__(self, title: str, told: Content, *, offered: tuple[str, ...]) -> None:
        super().__init__(title)
        self._told, self._offered = told, offered

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Told(self._told, classes="body")
        words = {"label": "l shows its label", "lot": "o opens its page", "undo": "u undoes it"}
        offered = ", ".join(words[one] for one in self._offered)
        read = "Enter when you have read it."
        yield Static(Content(f"{offered}. {read}" if offered else read), classes="keys")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        return action != "next" or parameters[0] in self._offered

    def action_next(self, what: str) -> None:
        self.dismiss(what)
