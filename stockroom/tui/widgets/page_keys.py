"""The keys at the foot of a page, and beside them what takes long."""

from __future__ import annotations

from textual import getters
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.app import StockroomApp
from stockroom.tui.widgets.keys import Keys


class PageKeys(Keys):
    """Says at its right end what is at work and how far it has come."""

    app = getters.app(StockroomApp)

    def compose(self) -> ComposeResult:
        yield from super().compose()
        yield Static(Content(self.app.at_work), id="at-work")

    def on_mount(self) -> None:
        self.watch(self.app, "at_work", self._tell, init=False)

    def _tell(self) -> None:
        for line in self.query("#at-work").results(Static):
            line.update(Content(self.app.at_work))
