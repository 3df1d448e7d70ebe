"""The coming days on one page: what is booked, what to make and order, and what else is due."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.actions.whats_due import due_items
from stockroom.domain.codes import prefix_of
from stockroom.domain.jobs import Booking
from stockroom.domain.papers import Block, Column, Heading, Paper, Rows, Words
from stockroom.planning.due import STOPS_WORK, WORDS
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import job_by_id, open_bookings
from stockroom.store.open import Store
from stockroom.store.open_days import calendars
from stockroom.store.recipes import find_recipe

BOOKED = "booked"
"""The kind of a booking among what is due."""

_NOT_THIS_WEEK = ("not-used",)
"""What is due on no day in particular and can wait; `due` tells it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDo:
    """One thing on the page."""

    kind: str
    """`booked`, or a kind of due."""
    code: str
    name: str
    clock: str | None
    """HH:MM, where it has a time of day."""
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallDay:
    """What belongs to one day."""

    day: date
    closed: bool
    items: tuple[ToDo, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """What belongs to the coming days, what should have been done before, and what has no day."""

    first: date
    last: date
    waiting: tuple[ToDo, ...]
    days: tuple[WallDay, ...]


def wall(store: Store, local: datetime, days: int = 7) -> Wall:
    """Return what belongs to so many days from the local moment's day on; what has no day waits as of today."""
    first = local.date()
    last = first + timedelta(days=days - 1)
    by_day: dict[date, list[ToDo]] = defaultdict(list)
    for booking in open_bookings(store):
        by_day[date.fromisoformat(booking.for_day)].append(_booked(store, booking))
    waiting = []
    for due in due_items(store, local, days - 1):
        if due.kind in _NOT_THIS_WEEK:
            continue
        clock = due.by[11:16] if due.by and "T" in due.by else None
        one = ToDo(kind=due.kind, code=due.code, name=due.name, clock=clock, why=due.why)
        day = date.fromisoformat(due.by[:10]) if due.by else None
        if day is None or day < first:
            waiting.append(one)
        else:
            by_day[day].append(one)
    studio = calendars(store)[None]
    coming = [first + timedelta(days=number) for number in range(days)]
    return Wall(
        first=first,
        last=last,
        waiting=tuple(waiting),
        days=tuple(WallDay(day=day, closed=not studio.is_open(day), items=tuple(by_day[day])) for day in coming),
    )


def _booked(store: Store, booking: Booking) -> ToDo:
    job = job_by_id(store, booking.job_id)
    bath = show(Quantity(Dimension.VOLUME, booking.fill_quanta)) if booking.fill_quanta else None
    fills = f"{booking.fills} x " if booking.fills and booking.fills > 1 and bath else ""
    said = [f"for {job.code} {job.title}", f"{fills}{bath}" if bath else None, booking.note]
    return ToDo(
        kind=BOOKED,
        code=booking.code,
        name=find_recipe(store, booking.recipe_key).name,
        clock=None,
        why="; ".join(filter(None, said)),
    )


def wall_paper(page: Wall) -> Paper:
    """Lay the page out: the coming days in one table, then what waits already."""
    return Paper(title=f"{page.first:%A} {page.first} to {page.last:%A} {page.last}", blocks=tuple(_blocks(page)))


def _blocks(page: Wall) -> Iterator[Block]:
    busy = [one for one in page.days if one.items]
    if busy:
        yield Rows(
            columns=(Column(title="Day", share=1.2), *_COLUMNS),
            rows=tuple(
                (_day_words(one) if number == 0 else "", *_row(item))
                for one in busy
                for number, item in enumerate(one.items)
            ),
        )
    free = [_day_words(one) for one in page.days if not one.items]
    if free:
        yield Words(text=f"Nothing on: {', '.join(free)}")
    if page.waiting:
        yield Heading(text="Waiting already")
        yield Rows(columns=_COLUMNS, rows=tuple(_row(item) for item in page.waiting))


_COLUMNS = (Column(title="What", share=1.3), Column(title="Which", share=2.6), Column(title="Why", share=4))


def _row(item: ToDo) -> tuple[str, str, str]:
    sign = "! " if item.kind in STOPS_WORK else ""
    code = f" ({item.code})" if prefix_of(item.code) else ""
    return f"{sign}{WORDS.get(item.kind, item.kind)}", f"{item.name}{code}", item.why


def _day_words(one: WallDay) -> str:
    return f"{one.day:%a} {one.day.day} {one.day:%b}{', closed' if one.closed else ''}"
