"""Every edit of a noun: who, when, and what it said before."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stockroom.store.open import Row, Store


def keep_edits(
    store: Store,
    noun: str,
    named: str,
    fields: Mapping[str, tuple[Any, Any]],
    initials: str,
    booked_at: str,
    reason: str | None,
) -> None:
    """Keep each changed field with its old and new value; inside `write()`."""
    for field, (was, became) in fields.items():
        store.insert(
            "edit",
            noun=noun,
            named=named,
            field=field,
            was=None if was is None else str(was),
            became=None if became is None else str(became),
            initials=initials,
            booked_at=booked_at,
            reason=reason,
        )


def edits_of(store: Store, noun: str, named: str) -> list[Row]:
    """Return the edits of one thing, oldest first."""
    return store.rows("SELECT * FROM edit WHERE noun = :noun AND named = :named ORDER BY id", noun=noun, named=named)
