"""Fold text for finding: no accents, no case, one space between words."""

from __future__ import annotations

import re
from collections.abc import Iterable


def fold(text: str) -> str:
    """Return the text as it is searched: case and accents folded."""
    if text.isascii():
        return " ".join(text.lower().split())
    from unicodedata import combining, normalize

    plain = "".join(char for char in normalize("NFKD", text.casefold()) if not combining(char))
    return " ".join(plain.split())


def words_to_find(text: str) -> list[tuple[str, str]]:
    """Return each word folded, as it was typed and as days and numbers are kept: `25.11.2026` is `2026-11-25` too."""
    return [(word, _as_kept(word)) for word in fold(text).split()]


def holds(folded: str, words: Iterable[tuple[str, str]]) -> bool:
    """Say whether a folded text holds every word, in one form or the other."""
    return all(typed in folded or kept in folded for typed, kept in words)


def _as_kept(word: str) -> str:
    days = re.sub(r"([0-9]{2})\.([0-9]{2})\.([0-9]{4})", r"\3-\2-\1", word)
    return re.sub(r"(?<=[0-9]),(?=[0-9])", ".", days)
