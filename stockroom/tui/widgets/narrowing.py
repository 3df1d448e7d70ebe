"""A field that narrows the list beneath it while the list is moved through with the arrow keys."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message

from stockroom.tui.widgets.as_it_stands import TypedInput


class NarrowingInput(TypedInput):
    """Keeps the letters for itself and hands the arrows on."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move('cursor_up')", "Up", show=False),
        Binding("down", "move('cursor_down')", "Down", show=False),
        Binding("pageup", "move('page_up')", "Page up", show=False),
        Binding("pagedown", "move('page_down')", "Page down", show=False),
    ]

    @dataclass
    class Move(Message):
        """The list beneath should move: cursor_up, cursor_down, page_up or page_down."""

        way: str

    def action_move(self, way: str) -> None:
        self.post_message(self.Move(way))
