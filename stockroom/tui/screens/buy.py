"""What is low, and booking in what came."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from stockroom.planning.due import Due
from stockroom.planning.due_shelf import due_materials
from stockroom.store.lots import shelf
from stockroom.store.materials import materials_with_a_least
from stockroom.store.open import Store
from stockroom.tui.going_on import Way, way_on
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.texts import one_line
from stockroom.tui.words import DUE


class BuyScreen(ListingPage):
    """Materials of which less is fit to use than is to be kept."""

    AREA = "buy"
    HELP = """
Of what there is less than you said is to be kept. Enter books a delivery of it in, or makes
it where it is made here. R books any delivery in.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "receive", "Receive a delivery"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._ways: dict[str, Way] = {}

    def read(self, store: Store) -> Sequence[Entry]:
        items = due_materials(materials_with_a_least(store), shelf(store), self.app.local)
        self._ways = {item.code: way_on(store, item) for item in items}
        return [_entry(item, self._ways[item.code].does) for item in items]

    def heading(self) -> str:
        count = len(self.entries)
        return f"{count} material{'s' if count != 1 else ''} low" if count else "Nothing is low."

    def go_on(self, key: str) -> None:
        self.app.open_form(self._ways[key].form, **self._ways[key].known)

    def action_receive(self) -> None:
        self.app.open_form("receive")


def _entry(item: Due, does: str) -> Entry:
    words = Content.assemble((f"{DUE[item.kind]:<14}{one_line(item.name)}", "bold"))
    return Entry(key=item.code, words=words, below=(Content(one_line(item.why)),), does=does)
