"""Text whose lines go on beneath their own beginning where they do not fit."""

from __future__ import annotations

import re

from textual.content import Content
from textual.widgets import Static

_BEGINNING = re.compile(r"! |\s*[0-9]+\. +|\s+or |\S.{0,20}?\s{2,}|\s+[0-9.,]+ [A-Z]{3}  |\s{2,}")
"""What a line begins with that its rest is aligned to: a sign, a number, a name in a column of its own, white space."""


class Told(Static):
    """Names and values, numbered steps and cautions, hanging from their first column."""

    def __init__(self, text: Content | str = "", *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(text, id=id, classes=classes)
        self._text = text if isinstance(text, Content) else Content(text)

    def tell(self, text: Content) -> None:
        """Show another text."""
        self._text = text
        self.update(hung(text, self.content_size.width))

    def on_resize(self) -> None:
        self.update(hung(self._text, self.content_size.width))


def hung(text: Content, width: int) -> Content:
    """Wrap every line to a width in cells, what goes on indented to where its text began."""
    if width < 20:
        return text
    lines: list[Content] = []
    for line in text.split("\n", allow_blank=True):
        match = _BEGINNING.match(line.plain)
        indent = match.end() if match and match.end() <= width // 2 else 0
        lines += hanging(line, width, indent)
    return Content("\n").join(lines)


def hanging(line: Content, width: int, indent: int) -> list[Content]:
    """Wrap one line to a width in cells; what goes on stands so many columns in."""
    first, *rest = line.wrap(width)
    if not rest:
        return [first]
    left = line[len(first.plain) :]
    left = left[len(left.plain) - len(left.plain.lstrip()) :]
    return [first, *(Content(" " * indent) + part for part in left.wrap(width - indent))]
