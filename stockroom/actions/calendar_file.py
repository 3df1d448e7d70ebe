"""Write the dates of what is due as a calendar file (RFC 5545) that a calendar program updates and never doubles."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from stockroom.errors import AlreadyExists, BadInput
from stockroom.files import refuse_taken, write_whole
from stockroom.planning.calendar_dates import CalendarDate, calendar_dates
from stockroom.planning.due import Due
from stockroom.store.open import Store
from stockroom.store.seals import first_seal, number_sealed

if TYPE_CHECKING:
    from icalendar import Event

PRODUCT = "-//stockroom//what is due//EN"
_KEEP_CANCELLED = timedelta(days=90)


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarFile:
    """What was written."""

    path: Path
    entries: int
    cancelled: int
    """Entries of the file before that are no longer due, kept as cancelled so that calendar programs drop them."""


def write_calendar(
    store: Store, items: Sequence[Due], path: Path, local: datetime, *, replace: bool = False
) -> CalendarFile:
    """Write what is due as a calendar file, whole or not at all.

    A file that an earlier run wrote for this stockroom is brought up to date: an entry keeps its UID; its SEQUENCE
    rises when its day or title changes (RFC 5545, 3.8.7.4), its DTSTAMP when anything does (3.8.7.2). Raises
    AlreadyExists for any other file unless it is to be replaced, BadInput for a folder that is not there, Refused where
    the place cannot be written.
    """
    refuse_taken(path, replace=True)
    there = os.path.exists(path)
    if there and path.samefile(store.path):
        raise BadInput(f"{path} is the stockroom itself. Choose another name for the calendar.")
    home = f"{first_seal(store)[:16]}.stockroom"
    before = _read_ours(path, home)
    if before is None and there and not replace:
        raise AlreadyExists(
            f"{path} is there and is not a calendar of this stockroom. Nothing was written. Choose another name, or "
            "say --replace to put the calendar in its place."
        )
    stamp, first = local.astimezone(UTC).replace(microsecond=0), number_sealed(store)
    old = before or {}
    events = [_event(one, home, old.get(f"{one.name}@{home}"), local, stamp, first) for one in calendar_dates(items)]
    here = {event.uid for event in events}
    gone = [_cancelled(event, stamp) for uid, event in old.items() if uid not in here]
    gone = [event for event in gone if _day(event) > local.date() - _KEEP_CANCELLED]
    write_whole(path, _calendar([*events, *gone]))
    return CalendarFile(path=path, entries=len(events), cancelled=len(gone))


def _calendar(events: Sequence[Event]) -> bytes:
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("PRODID", PRODUCT)
    calendar.add("VERSION", "2.0")
    calendar.add("X-WR-CALNAME", "stockroom")
    for event in events:
        calendar.add_component(event)
    content: bytes = calendar.to_ical()
    return content


def _event(one: CalendarDate, home: str, old: Event | None, local: datetime, stamp: datetime, first: int) -> Event:
    """Build an event; of the one before it keeps what has not changed."""
    from icalendar import Event

    event = Event()
    event.add("UID", f"{one.name}@{home}")
    if "T" in one.by:
        at = datetime.fromisoformat(one.by).replace(tzinfo=local.tzinfo).astimezone(UTC)
        event.add("DTSTART", at)
    else:
        event.add("DTSTART", date.fromisoformat(one.by))
        event.add("TRANSP", "TRANSPARENT")
    event.add("SUMMARY", _plain(one.title))
    event.add("DESCRIPTION", _plain(one.words))
    sequence = first
    if old is not None:
        moved = any(_text(old, name) != _text(event, name) for name in ("DTSTART", "SUMMARY"))
        moved = moved or "STATUS" in old
        sequence = max(old.sequence + 1, first) if moved else old.sequence
        if not moved and _text(old, "DESCRIPTION") == _text(event, "DESCRIPTION"):
            stamp = old.DTSTAMP or stamp
    event.add("SEQUENCE", sequence)
    event.add("DTSTAMP", stamp)
    return event


def _cancelled(event: Event, stamp: datetime) -> Event:
    """Mark an entry of the file before as cancelled, once."""
    if "STATUS" not in event:
        event.sequence += 1
        event.DTSTAMP = stamp
        event.add("STATUS", "CANCELLED")
    return event


def _day(event: Event) -> date:
    return event.start.date() if isinstance(event.start, datetime) else event.start


def _text(event: Event, name: str) -> object:
    return event[name].to_ical()


def _plain(text: str) -> str:
    """Leave out what a calendar's text must not hold (RFC 5545, 3.1: control characters)."""
    return "".join(char if char.isprintable() or char == "\n" else " " for char in text)


def _read_ours(path: Path, home: str) -> dict[str, Event] | None:
    """Read the entries of a calendar that an earlier run wrote; None for any other file, and where there is none."""
    from icalendar import Calendar

    try:
        calendar = Calendar.from_ical(path.read_bytes())
        if calendar["PRODID"] != PRODUCT:
            return None
        events = {event.uid: event for event in calendar.events}
        known = all(
            event.DTSTAMP and event.start and event.sequence >= 0 and {"SUMMARY", "DESCRIPTION"} <= set(event)
            for event in events.values()
        )
    except (OSError, ValueError, KeyError, IndexError):
        return None
    return events if known and all(uid.endswith(f"@{home}") for uid in events) else None
