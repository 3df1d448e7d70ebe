"""A paper as it is read on screen: broken like its text, its titles told by weight and not by lines of signs."""

from __future__ import annotations

from textual.content import Content

from stockroom.domain.papers import Block, Heading, Paper, Rows, Words
from stockroom.labels.paper_words import lines_of

_RULE = str.maketrans("-", "─")


def draw_paper(paper: Paper, wide: int) -> Content:
    """Draw a paper so many columns wide; what people typed is text, never markup."""
    title = _lines(Heading(text=paper.title), wide)
    parts = [one.stylize("$primary") for one in title]
    for block in paper.blocks:
        parts += [Content(""), *_lines(block, wide)]
    return Content("\n").join(parts)


def _lines(block: Block, wide: int) -> list[Content]:
    lines = list(lines_of(block, wide))
    match block:
        case Heading():
            return [Content.styled(line, "bold") for line in lines[:-1]]
        case Words(strong=True):
            return [Content.styled(line, "bold") for line in lines]
        case Rows():
            rule = next(number for number, line in enumerate(lines) if not line.strip("- "))
            heads = [Content.styled(line, "bold") for line in lines[:rule]]
            return [*heads, Content(lines[rule].translate(_RULE)), *map(Content, lines[rule + 1 :])]
    return [Content(line) for line in lines]
