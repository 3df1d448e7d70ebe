"""Three steps to begin with: what one sees, how one finds, how one books."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.questions.question import Question

STEPS = (
    (
        "1 of 3: what is due",
        "This screen opens first. Each line says what has to be done, by when and why, most urgent first. "
        "The line beneath the list says what Enter does with the marked one: it opens the right form, filled in.\n\n"
        "F2 to F10 lead to the other areas of work; the top line names them. ? explains any screen and its keys.",
    ),
    (
        "2 of 3: finding",
        "Ctrl+F finds any material, jar, job or thing to do by a few letters. A scanned label opens its lot from "
        "anywhere; so does its code, typed. While a form is open, scanning a bottle puts that bottle into it.",
    ),
    (
        "3 of 3: booking",
        "Forms work the plan out while you type: what is drawn from which lot, whether it is fit, what is short, what "
        "it costs. Write amounts as you say them: ½ L, 20 mL, 2 sheets. Nothing is booked before B confirms it, and "
        "what was booked can be undone.\n\nA form that you leave is kept; it stands on top of what is due.",
    ),
)


class Tour(Question[None]):
    """Enter goes on, Escape ends it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space,right", "further", "Go on"),
        Binding("left", "further(-1)", "Back"),
    ]

    def __init__(self) -> None:
        super().__init__("Three steps to begin with")
        self._step = 0

    def body(self) -> ComposeResult:
        yield Static("", id="step", classes="body")
        yield Static(Content("Enter goes on, Esc ends it. Ctrl+F, 'three steps', shows it again."), classes="keys")

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        title, text = STEPS[self._step]
        self.query_one("#step", Static).update(Content.assemble((title, "bold"), "\n\n", text))

    def action_further(self, way: int = 1) -> None:
        self._step = max(0, self._step + way)
        if self._step >= len(STEPS):
            self.dismiss(None)
        else:
            self._show()
