"""The line at the top: the areas of work with their keys, and who books."""

from __future__ import annotations

from textual import getters
from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from stockroom.tui.app import StockroomApp

AREAS = (("due", "F2 Due"), ("shelf", "F3 Shelf"), ("make", "F4 Make up"), ("use", "F5 Use"))


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
        parts = [
            Content.styled(f"[{words}]", f"bold @click=app.area('{area}')")
            if area == self._area
            else Content.styled(f" {words} ", f"@click=app.area('{area}')")
            for area, words in AREAS
        ]
        parts.append(Content.styled(" F6 Code ", "@click=app.code"))
        left = Content(" ").join(parts)
        right = Content(f"booking as {self.app.by}" if self.app.by else "nobody named yet")
        gap = max(1, self.size.width - left.cell_length - right.cell_length)
        return Content.assemble(left, " " * gap, right)
