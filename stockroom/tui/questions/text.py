"""Ask for a line of text: a reason, an amount."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.as_it_stands import TypedInput
from stockroom.tui.words import on_screen


class AskText(Question[str]):
    """One field. What is offered stands in it, selected, so that Enter takes it and typing replaces it."""

    def __init__(self, title: str, explained: str, *, offered: str = "", empty: str = "", needed: bool = True) -> None:
        super().__init__(title)
        self._explained, self._offered, self._empty, self._needed = explained, offered, empty, needed

    def body(self) -> ComposeResult:
        yield Static(Content(on_screen(self._explained)), classes="body")
        yield TypedInput(self._offered, placeholder=self._empty, compact=True)
        yield Static("", classes="wrong")
        yield Static(Content("Enter goes on, Esc leaves it as it was."), classes="keys")

    @on(Input.Submitted)
    def answer(self, event: Input.Submitted) -> None:
        if self._needed and not event.value.strip():
            self.query_one(".wrong", Static).update(Content("! Write at least one word."))
        else:
            self.dismiss(event.value.strip())


def ask_reason(title: str, explained: str, offered: str) -> AskText:
    """Ask why something is done; the commonest reason is offered."""
    return AskText(title, f"{explained}\nWhy? The reason stays in the record.", offered=offered)
