"""Open and closed days, counted by hand in November and December 2026."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.open_days import ClosedTime, OpenDays

WEEKEND = frozenset({5, 6})
BREAK = ClosedTime(first=date(2026, 12, 24), last=date(2027, 1, 3))
STUDIO = OpenDays(weekdays=WEEKEND, times=(BREAK,))


def test_the_last_open_day_before_a_break_is_found_through_weekends_too() -> None:
    """Monday 28 December lies in the break, which begins on a Thursday: Wednesday the 23rd. The 29th of November is a
    Sunday: Friday the 27th.
    """
    assert STUDIO.last_open(date(2026, 12, 28)) == date(2026, 12, 23)
    assert STUDIO.last_open(date(2026, 11, 29)) == date(2026, 11, 27)
    assert STUDIO.last_open(date(2026, 11, 27)) == date(2026, 11, 27)


def test_the_first_open_day_after_a_break_is_a_working_day() -> None:
    """The break ends on Sunday 3 January: Monday the 4th."""
    assert STUDIO.first_open(date(2026, 12, 24)) == date(2027, 1, 4)


def test_a_delivery_stands_still_in_a_closed_time_and_not_over_a_weekend() -> None:
    """Two days back from 5 January: the 4th, then the 23rd, since the break lies between."""
    assert STUDIO.back(date(2027, 1, 5), 2) == date(2026, 12, 23)
    assert STUDIO.back(date(2026, 11, 30), 2) == date(2026, 11, 28)
    assert STUDIO.ahead(date(2026, 12, 23), 2) == date(2027, 1, 5)


DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))


@st.composite
def calendars(draw: st.DrawFn) -> OpenDays:
    weekdays = draw(st.frozensets(st.integers(0, 6), max_size=6))
    times = draw(st.lists(st.tuples(DAYS, st.integers(0, 40)), max_size=4))
    closed = [ClosedTime(first=first, last=first + timedelta(days=days)) for first, days in times]
    return OpenDays(weekdays=weekdays, times=closed)


@given(calendars(), DAYS)
def test_what_is_found_is_open_and_nothing_open_lies_between(days: OpenDays, day: date) -> None:
    before, after = days.last_open(day), days.first_open(day)
    assert before <= day <= after
    assert days.is_open(before)
    assert days.is_open(after)
    between = (before + timedelta(days=number) for number in range(1, (after - before).days))
    assert not any(days.is_open(each) for each in between)


@given(calendars(), DAYS, st.integers(0, 30))
def test_going_ahead_as_far_as_one_went_back_never_ends_before_the_start(
    days: OpenDays, day: date, number: int
) -> None:
    """From a day of a closed time it ends after it: the goods come when work begins again."""
    there = days.ahead(days.back(day, number), number)
    assert there == day or days.closed_time(day) is not None
