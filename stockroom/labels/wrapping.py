"""Breaking text into lines that fit, for letters in mm and for terminal cells alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator

ELLIPSIS = "…"
Width = Callable[[str], float]
Room = Callable[[int], float]


def wrap(text: str, room: Room, width: Width) -> list[str]:
    """Break a text at its spaces, so that line number n is no wider than `room(n)`.

    Widths add up: letters stand side by side without kerning. A word wider than its line is broken anywhere. Raises
    ValueError where not even one character fits.
    """
    space = width(" ")
    lines: list[str] = []
    line, taken, left = "", 0.0, room(0)
    for word in text.split():
        wide = width(word)
        if line and taken + space + wide <= left:
            line, taken = f"{line} {word}", taken + space + wide
            continue
        if line:
            lines.append(line)
            left = room(len(lines))
        if wide > left:
            *full, word = _break_word(word, lambda ahead: room(len(lines) + ahead), width)
            lines.extend(full)
            wide, left = width(word), room(len(lines))
        line, taken = word, wide
    return [*lines, line] if line else lines


def shorten(text: str, room: float, width: Width) -> str:
    """Cut a text at the end until it and an ellipsis fit."""
    return text[: _count_fitting(text, room, lambda part: width(part + ELLIPSIS))].rstrip() + ELLIPSIS


def _break_word(word: str, room: Room, width: Width) -> Iterator[str]:
    ahead = 0
    while width(word) > room(ahead):
        take = _count_fitting(word, room(ahead), width)
        if not take:
            raise ValueError("no room for one character")
        yield word[:take]
        word = word[take:]
        ahead += 1
    yield word


def _count_fitting(text: str, room: float, width: Width) -> int:
    """Count from the start, so that the cost is that of a line however long the text is."""
    count = 0
    while count < len(text) and width(text[: count + 1]) <= room:
        count += 1
    return count
