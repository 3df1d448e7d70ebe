"""Closed days of the studio and of its suppliers: keeping, changing and dropping them. A plan, never an entry."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

from stockroom.actions.editing import changes, keep_changes
from stockroom.actions.naming import check_text
from stockroom.domain.occasion import Occasion
from stockroom.domain.open_days import ALWAYS_OPEN, WEEKDAYS, ClosedTime
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.science.days import read_day
from stockroom.science.numerals import quoted
from stockroom.store.open import Store
from stockroom.store.open_days import add_closed_time, calendars, drop_closed_time, set_closed_weekdays
from stockroom.store.suppliers import all_suppliers, find_supplier

LONGEST_DAYS = 366
"""A closed time of more than a year is a mistyped date."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """When the studio or a supplier is closed."""

    whose: str
    """`the studio`, or the supplier's name."""
    weekdays: tuple[str, ...]
    times: tuple[ClosedTime, ...]


def close(
    store: Store,
    occasion: Occasion,
    first_typed: str,
    last_typed: str | None = None,
    *,
    note: str | None = None,
    supplier: str | None = None,
) -> Closed:
    """Keep a closed time, from its first to its last day as typed.

    Raises BadInput for days that have passed, stand the wrong way round or span more than a year; Refused where part
    of it is kept as closed already.
    """
    first = read_day(first_typed, today=occasion.today)
    last = read_day(last_typed, today=occasion.today) if last_typed is not None else first
    if last < first:
        raise BadInput(
            f"It would end on {last}, before it begins on {first}. Give the first day, then --until the last."
        )
    if last < occasion.today:
        raise BadInput(f"{last} has passed. Closed days are kept for what is still to come.")
    if last - first >= timedelta(days=LONGEST_DAYS):
        raise BadInput(f"{first} to {last} is more than a year. Look at the years.")
    closed = ClosedTime(first=first, last=last, note=None if note is None else check_text(note, "note"))
    with store.write() as booked_at:
        key, whose = _whose(store, supplier)
        times = calendars(store).get(key, ALWAYS_OPEN).times
        known = next((each for each in times if each.first <= last and first <= each.last), None)
        if known is not None:
            raise Refused(
                f"{whose[0].upper()}{whose[1:]} is closed from {known.first} to {known.last} already. Drop that first: "
                f"stockroom closed drop {known.first}."
            )
        add_closed_time(store, key, closed)
        keep_changes(store, "closed days", whose, changes({}, {"closed": _words(closed)}), occasion, booked_at)
    return closed_of(store, supplier)


def drop_closed(store: Store, occasion: Occasion, typed: str, *, supplier: str | None = None) -> Closed:
    """Take away the closed time that a day lies in. Raises NotFound where there is none."""
    day = read_day(typed, today=occasion.today)
    with store.write() as booked_at:
        key, whose = _whose(store, supplier)
        closed = calendars(store).get(key, ALWAYS_OPEN).closed_time(day)
        if closed is None:
            raise NotFound(f"No closed days of {whose} hold {day}. 'stockroom closed list' shows those kept.")
        drop_closed_time(store, key, closed)
        dropped = changes({"closed": _words(closed)}, {"closed": None})
        keep_changes(store, "closed days", whose, dropped, occasion, booked_at)
    return closed_of(store, supplier)


def close_weekdays(store: Store, occasion: Occasion, typed: str, *, supplier: str | None = None) -> Closed:
    """Say which weekdays are closed, in the place of those kept so far: `Sat, Sun`, or `none`.

    Raises BadInput for what is no weekday, and for all seven.
    """
    weekdays = _read_weekdays(typed)
    with store.write() as booked_at:
        key, whose = _whose(store, supplier)
        before = calendars(store).get(key, ALWAYS_OPEN).weekdays
        set_closed_weekdays(store, key, weekdays)
        made = changes({"weekdays": _names(before)}, {"weekdays": _names(weekdays)})
        keep_changes(store, "closed days", whose, made, occasion, booked_at)
    return closed_of(store, supplier)


def closed_of(store: Store, supplier: str | None = None) -> Closed:
    """Return when the studio, or a supplier, is closed."""
    key, whose = _whose(store, supplier)
    days = calendars(store).get(key, ALWAYS_OPEN)
    names = tuple(WEEKDAYS[each] for each in sorted(days.weekdays))
    return Closed(whose=whose, weekdays=names, times=tuple(days.times))


def all_closed(store: Store, since: date | None = None) -> list[Closed]:
    """Return all closed days that are kept, the studio's first; without what ended before `since`."""
    names: dict[int | None, str] = {each.id: each.name for each in all_suppliers(store)}
    names[None] = "the studio"
    found = [
        Closed(
            whose=names[key],
            weekdays=tuple(WEEKDAYS[each] for each in sorted(days.weekdays)),
            times=tuple(each for each in days.times if since is None or each.last >= since),
        )
        for key, days in sorted(calendars(store).items(), key=lambda one: names[one[0]] if one[0] else "")
    ]
    return [one for one in found if one.weekdays or one.times]


def _whose(store: Store, supplier: str | None) -> tuple[int | None, str]:
    if supplier is None:
        return None, "the studio"
    found = find_supplier(store, supplier)
    return found.id, found.name


def _read_weekdays(typed: str) -> frozenset[int]:
    words = [word for word in re.split(r"[\s,;]+", typed.strip().lower()) if word]
    if words in (["none"], ["no"]):
        return frozenset()
    found = set()
    for word in words:
        matches = [number for number, name in enumerate(WEEKDAYS) if len(word) >= 2 and name.lower().startswith(word)]
        if len(matches) != 1:
            raise BadInput(f"{quoted(word)} is not a weekday. Write them like 'Sat, Sun', or 'none'.")
        found.add(matches[0])
    if not found:
        raise BadInput("Which weekdays are closed? Write them like 'Sat, Sun', or 'none'.")
    if len(found) == len(WEEKDAYS):
        raise BadInput("All seven weekdays cannot be closed: nothing could ever be begun.")
    return frozenset(found)


def _names(weekdays: frozenset[int]) -> str | None:
    return ", ".join(WEEKDAYS[each] for each in sorted(weekdays)) or None


def _words(closed: ClosedTime) -> str:
    return f"{closed.first} to {closed.last}" + (f" ({closed.note})" if closed.note else "")
