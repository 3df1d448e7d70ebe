"""Text that people typed, made safe to print: nothing hidden, nothing that acts."""

from __future__ import annotations

import unicodedata

_WHITE_SPACE = frozenset("\t\n\v\f\r\x85\u2028\u2029")
_JOINERS = frozenset("\u200c\u200d")
_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


def make_visible(text: str) -> str:
    """Show control characters as `[U+001B]`, and white space of any kind as single spaces.

    Changes of writing direction, lone surrogates and private characters count as control characters too. The two
    joiners stay: Persian and Indic words and many emoji are spelt with them.
    """
    if text.isascii() and text.isprintable():
        return " ".join(text.split())  # nothing to make visible, as mostly
    shown = "".join(_show(character) for character in unicodedata.normalize("NFC", text))
    return " ".join(shown.split())


def _show(character: str) -> str:
    if character in _WHITE_SPACE or unicodedata.category(character) == "Zs":
        return " "
    if unicodedata.category(character) in _HIDDEN and character not in _JOINERS:
        return f"[U+{ord(character):04X}]"
    return character


def count_cells(text: str) -> int:
    """Count the terminal cells a text takes: two for wide characters and emoji, none for marks that combine."""
    return sum(_cells_of(character) for character in text)


def runs_right_to_left(text: str) -> bool:
    """Tell whether any letter of a text is written from right to left."""
    return any(unicodedata.bidirectional(character) in ("R", "AL") for character in text)


def _cells_of(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1
