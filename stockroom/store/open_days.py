"""Closed days of the studio and of suppliers, as stored."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from stockroom.domain.open_days import ClosedTime, OpenDays
from stockroom.store.open import Store


def calendars(store: Store) -> dict[int | None, OpenDays]:
    """Return the open days of the studio (None) and of each supplier that has closed ones, by its id."""
    times: dict[int | None, list[ClosedTime]] = {None: []}
    weekdays: dict[int | None, set[int]] = {None: set()}
    for row in store.rows("SELECT * FROM closed_time ORDER BY first_day, id"):
        first, last = date.fromisoformat(row["first_day"]), date.fromisoformat(row["last_day"])
        times.setdefault(row["supplier_id"], []).append(ClosedTime(first=first, last=last, note=row["note"]))
    for row in store.rows("SELECT supplier_id, weekday FROM closed_weekday"):
        weekdays.setdefault(row["supplier_id"], set()).add(row["weekday"])
    return {
        key: OpenDays(weekdays=frozenset(weekdays.get(key, ())), times=tuple(times.get(key, ())))
        for key in (*times, *weekdays)
    }


def add_closed_time(store: Store, supplier_id: int | None, closed: ClosedTime) -> None:
    """Insert a closed time; inside `write()`."""
    store.insert(
        "closed_time",
        supplier_id=supplier_id,
        first_day=closed.first.isoformat(),
        last_day=closed.last.isoformat(),
        note=closed.note,
    )


def drop_closed_time(store: Store, supplier_id: int | None, closed: ClosedTime) -> None:
    """Take a closed time away; inside `write()`."""
    store.run(
        "DELETE FROM closed_time WHERE coalesce(supplier_id, 0) = coalesce(:supplier, 0) "
        "AND first_day = :first AND last_day = :last",
        supplier=supplier_id,
        first=closed.first.isoformat(),
        last=closed.last.isoformat(),
    )


def set_closed_weekdays(store: Store, supplier_id: int | None, weekdays: Iterable[int]) -> None:
    """Put the closed weekdays, Monday 0 to Sunday 6, in the place of those there were; inside `write()`."""
    store.run(
        "DELETE FROM closed_weekday WHERE coalesce(supplier_id, 0) = coalesce(:supplier, 0)", supplier=supplier_id
    )
    for weekday in weekdays:
        store.insert("closed_weekday", supplier_id=supplier_id, weekday=weekday)
