"""Minutes at which lots on the shelf change by themselves: the last of use, the first, and the next check."""

from __future__ import annotations

from stockroom.store.open import Store


def limits_reached(store: Store, minute: str) -> tuple[str, str]:
    """Return the last such minute that has come, and the last that has passed, at a local minute; else nothing.

    Both stay the same until another one comes or passes. Whole days are left out: they turn with the day.
    """
    rows = store.rows(
        "SELECT use_by, ready_on, check_by FROM lot WHERE state IN ('on the shelf', 'solid only') "
        "AND (length(use_by) > 10 OR length(ready_on) > 10 OR length(check_by) > 10)"
    )
    minutes = [text for row in rows for text in row if text and len(text) > 10]
    come = max((each for each in minutes if each <= minute), default="")
    return come, max((each for each in minutes if each < minute), default="")
