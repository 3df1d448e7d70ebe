"""The line that shows the first wait on whatever screen one is, until the work goes on."""

from __future__ import annotations

from textual import getters
from textual.content import Content
from textual.widgets import Static

from stockroom.labels.plain_text import make_visible as one_line
from stockroom.tui.app import StockroomApp
from stockroom.tui.waiting import wait_words


class WaitLine(Static):
    """Mounted where something waits, and gone when nothing does any more."""

    app = getters.app(StockroomApp)

    def on_mount(self) -> None:
        self.tell()

    def tell(self) -> None:
        """Say how the first wait stands, and how many others there are."""
        waiting = self.app.waiting
        if not waiting.all():
            self.remove()
            return
        (first, *others), now = waiting.all(), waiting.clock()
        sign = "" if first.until > now else "! "
        more = f" (and {len(others)} more)" if others else ""
        told = wait_words(first, now, self.app.studio.zone)
        self.update(Content(one_line(f"{sign}{told[0].upper()}{told[1:]}{more}. {first.next_words}")))
