"""`screens`: the moment that is taken as now while they are open."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from threading import Thread

from stockroom.cli.screens import clock_of
from stockroom.cli.session import Session
from stockroom.store.open import Store


def session_of(store: Store, on: str | None) -> Session:
    session = Session()
    session.on = on
    session.__dict__["store"] = store  # as if a command had opened it
    return session


def test_the_clock_goes_on_while_the_screens_are_open(store: Store) -> None:
    clock = clock_of(session_of(store, None))
    first = clock()
    while clock() == first:
        pass
    assert datetime.now(UTC) - clock() < timedelta(minutes=1)


def test_a_moment_that_is_held_is_told_in_every_thread(store: Store) -> None:
    """A connection serves one thread: what the zone is may not be asked of it from the thread of the screens."""
    clock, told = clock_of(session_of(store, "2026-11-25T14:10")), list[datetime]()
    thread = Thread(target=lambda: told.append(clock()))
    thread.start()
    thread.join()
    assert told == [datetime(2026, 11, 25, 13, 10, tzinfo=UTC)]
