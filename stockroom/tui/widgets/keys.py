"""The keys at the foot of every screen."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.reactive import Reactive
from textual.widgets import Footer


class Keys(Footer):
    """A footer whose keys are told how wide they stand before they are styled, not after: half the work of a start."""

    def __init__(self) -> None:
        super().__init__(show_command_palette=False)

    def compose(self) -> ComposeResult:
        for key in super().compose():
            compact = getattr(type(key), "compact", None)
            if isinstance(compact, Reactive):
                key.set_reactive(compact, self.compact)
            yield key
