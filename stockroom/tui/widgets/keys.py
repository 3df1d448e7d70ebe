"""The keys at the foot of every screen."""

from __future__ import annotations

from dataclasses import replace

from textual.app import ComposeResult
from textual.binding import ActiveBinding
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


Active = dict[str, ActiveBinding]


def named(active: Active, action: str, words: str, shown: str | None = None) -> Active:
    """Say what an action does here; `shown` is the key that is named, where it is not the bound one."""

    def name(one: ActiveBinding) -> ActiveBinding:
        bound = one.binding
        if bound.action != action:
            return one
        return one._replace(binding=replace(bound, description=words, key_display=shown or bound.key_display))

    return {key: name(one) for key, one in active.items()}
