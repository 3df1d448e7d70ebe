"""Find one thing by its key, its full name or an unambiguous part of either."""

from __future__ import annotations

from stockroom.errors import NotFound
from stockroom.store.fold import fold
from stockroom.store.open import Row, Store


def find_row(store: Store, noun: str, words: str) -> Row:
    """Return the one row of `material` or `recipe` that the words mean; one in use goes before a retired one.

    Raises NotFound where none or several fit, naming the nearest.
    """
    wanted = fold(words)
    rows = store.rows(f"SELECT * FROM {noun} ORDER BY key")
    for matches in (
        [row for row in rows if row["key"] == words.strip()],
        [row for row in rows if fold(row["name"]) == wanted or fold(row["key"]) == wanted],
        [row for row in rows if wanted and all(part in row["folded"] for part in wanted.split())],
    ):
        kept = [row for row in matches if row["retired_on"] is None] or matches
        if len(kept) == 1:
            return kept[0]
        if len(kept) > 1:
            names = ", ".join(row["key"] for row in kept[:8])
            raise NotFound(f"'{words}' fits several {noun}s: {names}. Say which.", fits=[row["key"] for row in kept])
    raise NotFound(f"There is no {noun} '{words}'. 'stockroom {noun} list' shows those there are.")
