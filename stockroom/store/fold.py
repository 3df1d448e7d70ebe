"""Fold text for finding: no accents, no case, one space between words."""

from __future__ import annotations


def fold(text: str) -> str:
    """Return the text as it is searched: case and accents folded."""
    if text.isascii():
        return " ".join(text.lower().split())
    from unicodedata import combining, normalize

    plain = "".join(char for char in normalize("NFKD", text.casefold()) if not combining(char))
    return " ".join(plain.split())
