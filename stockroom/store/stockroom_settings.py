"""The stockroom's own settings: those fixed when it is begun, and what the studio has chosen since."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from stockroom.store.open import Store


def setting(store: Store, name: str) -> str:
    """Return one of the stockroom's own settings: currency, time_zone, costs."""
    value = choice(store, name)
    if value is None:
        raise LookupError(name)
    return value


def choice(store: Store, name: str) -> str | None:
    """Return what the studio chose, or None where it has chosen nothing yet."""
    row = store.row("SELECT value FROM setting WHERE name = :name", name=name)
    return None if row is None else str(row["value"])


CLOSED_UNTIL = "books_closed_until"
"""The last closed day; beside it the actions close-books and open-books tell who and when."""


def closed_until(store: Store) -> str | None:
    """Return the last day for which nothing is booked any more, or None where every day is open."""
    return choice(store, CLOSED_UNTIL)


def set_setting(store: Store, name: str, value: str) -> None:
    store.run(
        "INSERT INTO setting (name, value) VALUES (:name, :value) "
        "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        name=name,
        value=value,
    )


def local_day(store: Store, at: str) -> str:
    """Return the stockroom's own day of a moment as stored, in UTC: late in the evening it is another one."""
    zone = ZoneInfo(setting(store, "time_zone"))
    return datetime.fromisoformat(at).astimezone(zone).date().isoformat()
