"""A picture that is drawn anew for the room it has."""

from __future__ import annotations

from collections.abc import Callable

from textual.content import Content
from textual.widgets import Static

Draw = Callable[[int, int], Content]
"""Draws for so many columns and rows."""


class Picture(Static):
    """Draws itself again whenever its room changes."""

    def __init__(self, *, id: str) -> None:
        super().__init__("", id=id)
        self._draw: Draw | None = None

    def show(self, draw: Draw) -> None:
        """Show another picture."""
        self._draw = draw
        self._again()

    def on_resize(self) -> None:
        self._again()

    def _again(self) -> None:
        width, height = self.content_size.width, self.content_size.height
        if self._draw is not None and width and height:
            self.update(self._draw(width, height))
