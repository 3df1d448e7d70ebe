"""One line of a form: what is asked, where it is answered, and beneath it what is wrong with the answer."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Input, Label, Static

from stockroom.tui.forms.form import Asked
from stockroom.tui.widgets.chosen import Chosen
from stockroom.tui.words import on_screen


class Line(Vertical):
    """Holds the answer to one question; of a choice, the key chosen."""

    def __init__(self, asked: Asked) -> None:
        super().__init__()
        self.asked = asked

    def compose(self) -> ComposeResult:
        with Horizontal():
            yield Label(Content(self.asked.words))
            if self.asked.choose is not None:
                yield Chosen(self.asked.hint, id=self.asked.key)
            else:
                yield Input(placeholder=self.asked.hint, compact=True, id=self.asked.key)
        yield Static("", classes="wrong")

    @property
    def field(self) -> Input | Chosen:
        return self.query_one(Chosen) if self.asked.choose is not None else self.query_one(Input)

    @property
    def answer(self) -> str | None:
        """What stands in it; None where it is empty."""
        field = self.field
        return field.key if isinstance(field, Chosen) else field.value.strip() or None

    def put(self, answer: str | None, words: str | None = None) -> None:
        """Put an answer in; `words` says it for a choice."""
        field = self.field
        if isinstance(field, Chosen):
            field.choose(answer, words or answer or "")
        else:
            field.value = answer or ""

    @property
    def words(self) -> str:
        """The answer as it is shown."""
        field = self.field
        return field.words if isinstance(field, Chosen) else field.value.strip()

    def tell(self, wrong: str | None) -> None:
        """Say beneath the field what is wrong with it."""
        told = self.query_one(".wrong", Static)
        told.display = wrong is not None
        told.update(Content(f"! {on_screen(wrong)}" if wrong else ""))
