"""A lot's code as a page of its own, to be scanned from the screen, with what its label says."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.page import Page
from stockroom.tui.questions.label import How, LabelQuestion, read_labels
from stockroom.tui.widgets.label_preview import LabelPreview


class LabelScreen(Page):
    """The symbol as it prints, dark on light whatever the look, and beside it the words."""

    HELP = """
The symbol of this lot as it prints: hold a scanner or a telephone before the screen. Beside it
stands what the label says. L shows the label as it is laid out, and prints it.
"""
    CSS_PATH = "label.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("l", "label", "Print or save")]

    def __init__(self, code: str) -> None:
        super().__init__()
        self._code = code

    def body(self) -> ComposeResult:
        yield Static(Content(f"The label of {self._code}"), classes="heading")
        yield VerticalScroll(id="label")

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        found = await self.fetch(lambda store: read_labels(store, [self._code], How()))
        if found is not None:
            label = self.query_one("#label", VerticalScroll)
            await label.remove_children()
            await label.mount(LabelPreview(found[0]))

    @work
    async def action_label(self) -> None:
        await self.app.push_screen_wait(LabelQuestion([self._code]))
