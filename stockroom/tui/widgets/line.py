"""One line of a form: what is asked, where it is answered, and beneath it what is wrong with the answer."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Input, Label, Static

from stockroom.tui.forms.form import Asked
from stockroom.tui.widgets.as_it_stands import TypedInput
from stockroom.tui.widgets.chosen import Chosen
from stockroom.tui.widgets.several_lines import SeveralLines
from stockroom.tui.words import on_screen


class Line(Vertical):
    """Holds the answer to one question; of a choice, the key chosen."""

    def __init__(self, asked: Asked) -> None:
        super().__init__()
        self.asked = asked
        self.field: Input | Chosen | SeveralLines
        if asked.choose is not None:
            self.field = Chosen(asked.hint, id=asked.key)
        elif asked.rows:
            self.field = SeveralLines(asked.hint, asked.rows, id=asked.key)
        else:
            self.field = TypedInput(placeholder=asked.hint, compact=True, id=asked.key)
        self._wrong = Static("", classes="wrong")
        self._told: str | None = None

    def compose(self) -> ComposeResult:
        with Horizontal(classes="several" if self.asked.rows else ""):
            yield Label(Content(self.asked.words))
            yield self.field
        yield self._wrong

    @property
    def answer(self) -> str | None:
        """What stands in it; None where it is empty."""
        field = self.field
        if isinstance(field, Chosen):
            return field.key
        if isinstance(field, SeveralLines):
            return field.text.strip("\n") if field.text.strip() else None
        return field.value.strip() or None

    def put(self, answer: str | None, words: str | None = None) -> None:
        """Put an answer in; `words` says it for a choice."""
        field = self.field
        if isinstance(field, Chosen):
            field.choose(answer, words or answer or "")
        elif isinstance(field, SeveralLines):
            field.put(answer or "")
        else:
            field.value = answer or ""

    @property
    def words(self) -> str:
        """The answer as it is shown."""
        field = self.field
        return field.words if isinstance(field, Chosen) else self.answer or ""

    def tell(self, wrong: str | None) -> None:
        """Say beneath the field what is wrong with it, where it is seen by whoever types there."""
        if wrong and wrong != self._told and self.has_focus_within:
            self.call_after_refresh(self._wrong.scroll_visible, animate=False)
        self._told = wrong
        self._wrong.display = wrong is not None
        self._wrong.update(Content(f"! {on_screen(wrong)}" if wrong else ""))
