"""On which days work or deliveries are possible: closed weekdays and closed times of the studio or of a supplier."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosedTime:
    """Closed from the first to the last day, both included."""

    first: date
    last: date
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenDays:
    """A calendar of closed days. At least one weekday is open."""

    weekdays: frozenset[int] = frozenset()
    """Closed weekdays, Monday 0 to Sunday 6."""
    times: Sequence[ClosedTime] = ()

    def closed_time(self, day: date) -> ClosedTime | None:
        """Return the closed time that a day lies in."""
        return next((one for one in self.times if one.first <= day <= one.last), None)

    def is_open(self, day: date) -> bool:
        return day.weekday() not in self.weekdays and self.closed_time(day) is None

    def last_open(self, day: date) -> date:
        """Return the day itself where it is open, else the last open day before it."""
        while not self.is_open(day):
            closed = self.closed_time(day)
            day = (closed.first if closed else day) - _DAY
        return day

    def first_open(self, day: date) -> date:
        """Return the day itself where it is open, else the first open day after it."""
        while not self.is_open(day):
            closed = self.closed_time(day)
            day = (closed.last if closed else day) + _DAY
        return day

    def back(self, day: date, days: int) -> date:
        """Go so many days back. Days of a closed time do not count: a delivery stands still in them."""
        for _ in range(days):
            day -= _DAY
            while closed := self.closed_time(day):
                day = closed.first - _DAY
        return day

    def ahead(self, day: date, days: int) -> date:
        """Go so many days ahead, as `back` goes back."""
        for _ in range(days):
            day += _DAY
            while closed := self.closed_time(day):
                day = closed.last + _DAY
        return day


ALWAYS_OPEN = OpenDays()
