"""Explain the screen beneath: what it is for, and every key that works there."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from stockroom.tui.questions.question import Question
from stockroom.tui.texts import rows

_OF_EVERY_SCREEN = ("app.focus_next", "app.focus_previous", "screen.copy_text", "app.help_quit", "screen.minimize")
"""Actions that the toolkit binds; they need no explaining."""


class Explanation(Question[None]):
    """The screen's own HELP, then its keys."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter,question_mark,f1", "leave", "Close", show=False)]

    def __init__(self, about: Screen[object]) -> None:
        super().__init__("What this screen does")
        self._about = about

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Static(Content(_flowing(getattr(self._about, "explained", ""))), classes="body")
            yield Static(rows(self._keys()), classes="keys")

    def _keys(self) -> list[tuple[str, str]]:
        """Return each key that does something there, with what it does; those of fields left out."""
        told: dict[str, str] = {}
        for active in self._about.active_bindings.values():
            binding = active.binding
            own = active.node is self._about or active.node is self.app
            if own and binding.action not in (*told, *_OF_EVERY_SCREEN) and active.enabled:
                told[binding.action] = f"{self.app.get_key_display(binding)}\t{binding.description}"
        return [(key, words) for key, _, words in (line.partition("\t") for line in told.values())]


def _flowing(text: str) -> str:
    """Join the lines of each paragraph, so that they wrap to whatever width there is."""
    return "\n\n".join(" ".join(part.split()) for part in text.strip().split("\n\n"))
