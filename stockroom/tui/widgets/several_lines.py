"""A field that holds several lines of text."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.events import Paste
from textual.widgets import TextArea

from stockroom.labels.plain_text import make_visible
from stockroom.tui.widgets.as_it_stands import TypedInput

_OF_THE_SCREENS = ("f6", "f7", "pageup", "pagedown")
"""Keys that lead to areas of work or move the plan; here too."""


class SeveralLines(TextArea, inherit_bindings=False):
    """Enter begins another line, Tab goes on to the next field; what is typed stays as it was typed."""

    get_line_filters = TypedInput.get_line_filters

    BINDINGS: ClassVar[list[BindingType]] = [
        each for each in TextArea.BINDINGS if isinstance(each, Binding) and each.key not in _OF_THE_SCREENS
    ]

    def __init__(self, empty: str, rows: int, *, id: str) -> None:
        super().__init__(placeholder=empty, compact=True, highlight_cursor_line=False, id=id)
        self.styles.height = rows

    def put(self, text: str) -> None:
        """Hold another text, its control characters made visible."""
        self.load_text(visible_lines(text))

    async def _on_paste(self, event: Paste) -> None:
        event.text = visible_lines(event.text)
        await super()._on_paste(event)


def visible_lines(text: str) -> str:
    """Make control characters visible, line by line; what has none stays as it is."""
    return "\n".join(line if line.isprintable() else make_visible(line) for line in text.splitlines())
