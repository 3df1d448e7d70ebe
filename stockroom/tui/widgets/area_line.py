"""The line at the top: the areas of work with their keys, and who books."""

from __future__ import annotations

from textual import getters
from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from stockroom.tui.app import StockroomApp

AREAS = {
    "due": "F2 Due",
    "shelf": "F3 Shelf",
    "make": "F4 Make",
    "use": "F5 Use",
    "check": "F6 Check",
    "jobs": "F7 Jobs",
    "plan": "F8 Plan",
    "buy": "F9 Buy",
    "count": "F10 Count",
    "bench-book": "F12 Bench book",
}
_WHERE_THERE_IS_ROOM = "bench-book"
"""Left out where the line has no room for it; its key works all the same."""


class AreaLine(Widget):
    """Says where one is: the area in use stands between brackets."""

    app = getters.app(StockroomApp)

    def __init__(self, area: str) -> None:
        super().__init__()
        self._area = area

    def on_mount(self) -> None:
        self.watch(self.app, "by", self._name_another, init=False)

    def _name_another(self) -> None:
        self.refresh()

    def render(self) -> RenderResult:
        line = Content("")
        before = ""
        for area, words in AREAS.items():
            if area == _WHERE_THERE_IS_ROOM and self.size.width < 110:
                continue
            here = area == self._area
            line += Content("]" if before == self._area else "[" if here else " ")
            line += Content.styled(words, f"{'bold ' if here else ''}@click=app.area('{area}')")
            before = area
        left = line + Content("]" if before == self._area else " ")
        by = self.app.by or "–"
        right = Content.styled(f"booking as {by}" if self.size.width >= 92 else by, "@click=app.who")
        gap = max(1, self.size.width - left.cell_length - right.cell_length)
        return Content.assemble(left, " " * gap, right)
