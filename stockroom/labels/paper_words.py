"""A paper as plain text and as Markdown.

The Markdown is CommonMark (spec 0.31) with the table of GitHub Flavored Markdown (4.10). Whatever could act as a mark
is escaped, so that typed text reads as it was typed.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Iterator, Sequence

from stockroom.domain.papers import Block, Column, Heading, Lines, Paper, Pictograms, Points, Rows, Words
from stockroom.labels.pictograms import NAMES
from stockroom.labels.plain_text import count_cells, make_visible
from stockroom.labels.wrapping import wrap

WIDE = 100
"""Characters to a line of plain text."""
_GAP = 2
_ACTS = re.compile(r"([\\`*_\[\]<>|#~&])")
_BEGINS_LIST = re.compile(r"^(\d{1,9})([.)])(?=\s|$)|^([-+=])")


def write_text(paper: Paper, wide: int = WIDE) -> str:
    """Write a paper as plain text, so many characters wide."""
    title = make_visible(paper.title)
    lines = [*_wrapped(title, wide), "=" * min(wide, count_cells(title)), ""]
    for block in paper.blocks:
        lines += [*lines_of(block, wide), ""]
    return "\n".join(lines)


def lines_of(block: Block, wide: int) -> Iterator[str]:
    """Give the lines of one block; the last of a heading underlines it, as the rule of a table does its titles."""
    match block:
        case Heading(text=text, level=level):
            shown = make_visible(text)
            yield from _wrapped(shown, wide)
            yield ("-" if level == 1 else ".") * min(wide, count_cells(shown))
        case Words(text=text):
            yield from _wrapped(make_visible(text), wide)
        case Lines(items=items):
            for item in items:
                yield from _wrapped(make_visible(item), wide)
        case Points(items=items):
            for item in items:
                first, *rest = _wrapped(make_visible(item), wide - 2)
                yield f"- {first}"
                yield from (f"  {line}" for line in rest)
        case Pictograms(codes=codes):
            yield from _wrapped(_named(codes), wide)
        case Rows():
            yield from _table(block, wide)


def _named(codes: Sequence[str]) -> str:
    return "Pictograms: " + ", ".join(f"{code} {NAMES[code]}" for code in codes)


def _wrapped(text: str, room: int) -> list[str]:
    return wrap(text, lambda _: room, count_cells) or [""]


def _table(table: Rows, wide: int) -> Iterator[str]:
    columns = table.columns
    cells = [[make_visible(cell) for cell in row] for row in table.rows]
    widths = _widths(columns, cells, wide)
    yield from _row([column.title for column in columns], widths, columns)
    yield (" " * _GAP).join("-" * width for width in widths)
    for row in cells:
        yield from _row(row, widths, columns)
    figures = max((number for number, column in enumerate(columns, start=1) if column.right), default=len(columns))
    end = sum(widths[:figures]) + _GAP * (figures - 1)
    for what, value in table.sums:
        line = make_visible(f"{what}: {value}")
        yield " " * (end - count_cells(line)) + line


def _widths(columns: Sequence[Column], cells: Sequence[Sequence[str]], wide: int) -> list[int]:
    """Give each column what it needs; where not all have room, its share, but where it can be no word broken."""
    told = [[column.title, *(row[number] for row in cells)] for number, column in enumerate(columns)]
    needed = [max(count_cells(text) for text in texts) for texts in told]
    room = wide - _GAP * (len(columns) - 1)
    if sum(needed) <= room:
        return needed
    longest = max(room // 4, 1)
    least = [min(longest, max(count_cells(word) for text in texts for word in text.split() or [""])) for texts in told]
    if sum(least) > room:
        least = [1] * len(columns)
    widths = [0] * len(columns)
    waiting = set(range(len(columns)))

    def share(number: int) -> float:
        return room * columns[number].share / sum(columns[one].share for one in waiting)

    # those with long words first, so that what is left is enough for the rest; then those that need less than a share
    for given, is_due in ((least, operator.gt), (needed, operator.le)):
        while fitting := {number for number in waiting if is_due(given[number], share(number))}:
            for number in fitting:
                widths[number] = given[number]
            waiting -= fitting
            room -= sum(given[number] for number in fitting)
    return [int(share(number)) or 1 if number in waiting else width for number, width in enumerate(widths)]


def _row(cells: Sequence[str], widths: Sequence[int], columns: Sequence[Column]) -> Iterator[str]:
    parts = [_wrapped(cell, width) for cell, width in zip(cells, widths, strict=True)]
    for number in range(max(len(part) for part in parts)):
        line = []
        for part, width, column in zip(parts, widths, columns, strict=True):
            text = part[number] if number < len(part) else ""
            blank = " " * (width - count_cells(text))
            line.append(blank + text if column.right else text + blank)
        yield (" " * _GAP).join(line).rstrip()


def write_markdown(paper: Paper) -> str:
    """Write a paper as Markdown."""
    lines = [f"# {_escaped(paper.title)}", ""]
    for block in paper.blocks:
        lines += [*_as_markdown(block), ""]
    return "\n".join(lines)


def _as_markdown(block: Block) -> Iterator[str]:
    match block:
        case Heading(text=text, level=level):
            yield f"{'#' * (level + 1)} {_escaped(text)}"
        case Words(text=text, strong=strong):
            yield f"**{_escaped(text)}**" if strong else _escaped(text)
        case Lines(items=items):
            yield "\\\n".join(map(_escaped, items))
        case Points(items=items):
            yield from (f"- {_escaped(item)}" for item in items)
        case Pictograms(codes=codes):
            yield _escaped(_named(codes))
        case Rows(columns=columns, rows=rows, sums=sums):
            yield _markdown_row([column.title for column in columns])
            yield _markdown_row(["---:" if column.right else "---" for column in columns], escape=False)
            yield from (_markdown_row(row) for row in rows)
            yield from ["", *(f"- {_escaped(what)}: {_escaped(value)}" for what, value in sums)] if sums else ()


def _markdown_row(cells: Sequence[str], *, escape: bool = True) -> str:
    return f"| {' | '.join(_escaped(cell) if escape else cell for cell in cells)} |"


def _escaped(text: str) -> str:
    """Make typed text read as it was typed: marks escaped, and what would begin a list or a rule."""
    shown = _ACTS.sub(r"\\\1", make_visible(text))
    return _BEGINS_LIST.sub(lambda found: f"{found[1]}\\{found[2]}" if found[1] else f"\\{found[3]}", shown)
