"""A label on screen: its symbol in half blocks, its words beside or beneath it."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content

from stockroom.domain.codes import show
from stockroom.labels.content import LabelContent
from stockroom.tui.widgets.as_it_stands import Printed


class LabelPreview(Container):
    """Drawn dark on light whatever the theme, because scanners need it so."""

    def __init__(self, content: LabelContent) -> None:
        super().__init__()
        self._content = content

    def compose(self) -> ComposeResult:
        from stockroom.labels.pictograms import NAMES
        from stockroom.labels.symbol import make_symbol
        from stockroom.labels.terminal import draw_half_blocks
        from stockroom.labels.wording import say

        symbol = "\n".join(draw_half_blocks(make_symbol(self._content.code)))
        said = (paragraph.text for paragraph in say(self._content) if not paragraph.boxes)
        words = [show(self._content.code), *said]
        if self._content.pictograms:
            names = (NAMES.get(code, code) for code in self._content.pictograms)
            words.append(f"pictograms: {', '.join(names)}")
        yield Printed(Content(symbol), classes="symbol")
        yield Printed(Content("\n".join(words)), classes="words")
