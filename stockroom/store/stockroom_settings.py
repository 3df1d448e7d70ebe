"""The stockroom's own settings: those fixed when it is begun, and what the studio has chosen since."""

from __future__ import annotations

from dataclasses import dataclass
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


DATES_ON_SCREEN, DECIMAL_SIGN = "dates_on_screen", "decimal_sign"
YEAR_FIRST, DAY_FIRST = "year-first", "day-first"
"""How dates stand on the screens: 2026-11-25, which serves until the studio chooses, or 25.11.2026."""
POINT, COMMA = "point", "comma"
"""The decimal sign on the screens; the point serves until the studio chooses."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnForm:
    """How dates and numbers stand on the screens."""

    day_first: bool = False
    comma: bool = False


def own_form(store: Store) -> OwnForm:
    """Return how the studio wants dates and numbers on the screens."""
    return OwnForm(day_first=choice(store, DATES_ON_SCREEN) == DAY_FIRST, comma=choice(store, DECIMAL_SIGN) == COMMA)


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
