"""What was changed of a thing, and what stands beneath each other on its page."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content

from stockroom.store.edits import edits_of
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import local_day
from stockroom.tui.texts import one_line


def edits_part(store: Store, noun: str, named: str) -> tuple[str, Content]:
    """Write every edit there was, newest first: when, by whom, what it said before, and why."""
    lines = [
        f"{local_day(store, row['booked_at'])} {row['initials']}: {row['field'].replace('_', ' ')} "
        f"{row['was'] or 'nothing'} → {row['became'] or 'nothing'}" + (f" ({row['reason']})" if row["reason"] else "")
        for row in reversed(edits_of(store, noun, named))
    ]
    return "What was changed", listed(lines)


def listed(lines: Iterable[str]) -> Content:
    """Write lines beneath each other, each as far in as it begins."""
    return Content("\n").join(Content(" " * (len(line) - len(line.lstrip(" "))) + one_line(line)) for line in lines)
