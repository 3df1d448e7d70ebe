"""How long things keep."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput, Unreadable
from stockroom.science.lives import Life, Until, earliest, life_end, read_life

BERLIN = ZoneInfo("Europe/Berlin")
moments = st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1), timezones=st.just(BERLIN), allow_imaginary=False)
lives = st.builds(
    lambda number, unit, day_1: Life(number=number, unit=unit, day_of_making_is_day_1=day_1 and unit != "hours"),
    st.integers(1, 100),
    st.sampled_from(["hours", "days", "weeks", "months", "years"]),
    st.booleans(),
)


def at(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=BERLIN)


def until(start: str, life: str) -> str:
    return life_end(at(start), read_life(life)).text()


@given(lives)
def test_a_life_that_is_shown_reads_back(life: Life) -> None:
    assert read_life(life.show()) == life


@pytest.mark.parametrize(
    ("life", "ends"),
    [
        ("1 day", "2026-02-01"),
        ("14 days", "2026-02-14"),
        ("2 weeks", "2026-02-14"),
        ("1 month", "2026-02-28"),
        ("13 months", "2027-02-28"),
        ("2 years", "2028-01-31"),
        ("24 h", "2026-02-01T14:10"),
    ],
)
def test_whole_days_end_with_a_day_and_hours_with_a_minute(life: str, ends: str) -> None:
    """A month after 31 January is 28 February (python-dateutil, documentation of relativedelta, from memory)."""
    assert until("2026-01-31T14:10:59", life) == ends


def test_the_day_of_making_is_day_1_where_that_is_said() -> None:
    """US pharmacy compounding: 14 days from the 1st end on the 14th (University of Illinois, answer 130886, read)."""
    assert until("2026-11-01T09:00", "14 days counting the day of making") == "2026-11-14"
    assert until("2026-11-01T09:00", "14 days") == "2026-11-15"


def test_hours_are_real_hours_when_the_clocks_change() -> None:
    """Central European time goes back from 3:00 to 2:00 on 25 October 2026 and ahead on 29 March (tz database)."""
    assert until("2026-10-24T14:10", "24 h") == "2026-10-25T13:10"
    assert until("2026-03-28T14:10", "24 h") == "2026-03-29T15:10"


@given(moments, st.integers(1, 200))
def test_a_life_in_hours_holds_to_its_very_minute(start: datetime, hours: int) -> None:
    ends = life_end(start, Life(number=hours, unit="hours"))
    last = start.astimezone(UTC).replace(second=0, microsecond=0) + timedelta(hours=hours)
    assert ends.moment and ends.day == ends.moment.date()
    assert not ends.passed((last + timedelta(seconds=59)).astimezone(BERLIN))
    assert ends.passed((last + timedelta(minutes=1)).astimezone(BERLIN))


@given(moments, lives)
def test_a_life_in_days_holds_through_the_end_of_its_last_day(start: datetime, life: Life) -> None:
    ends = life_end(start, life)
    assert not ends.passed(start)
    if ends.moment is None:
        assert not ends.passed(datetime(ends.day.year, ends.day.month, ends.day.day, 23, 59, 59, tzinfo=BERLIN))
        next_day = ends.day + timedelta(days=1)
        assert ends.passed(datetime(next_day.year, next_day.month, next_day.day, tzinfo=BERLIN))


@given(moments, lives)
def test_an_end_that_is_written_reads_back(start: datetime, life: Life) -> None:
    ends = life_end(start, life)
    again = Until.from_text(ends.text(), BERLIN)
    assert (again.day, again.text()) == (ends.day, ends.text())


def test_an_end_in_hours_cannot_be_placed_without_its_zone() -> None:
    assert Until.from_text("2026-11-25") == Until(day=date(2026, 11, 25))
    with pytest.raises(ValueError, match="time zone"):
        Until.from_text("2026-11-25T14:10")


def test_ends_are_shown_with_the_month_in_letters() -> None:
    assert Until(day=date(2026, 11, 5)).show() == "5 Nov 2026"
    assert Until(day=date(2026, 11, 5), moment=at("2026-11-05T09:05")).show() == "5 Nov 2026, 09:05"


def test_the_earliest_end_wins_and_a_minute_ends_before_its_day() -> None:
    """The earliest date of a thing and of what it was made from binds (common practice, no source)."""
    day, later = Until(day=date(2026, 11, 25)), Until(day=date(2026, 11, 26))
    minute = Until(day=date(2026, 11, 25), moment=at("2026-11-25T14:10"))
    assert earliest(later, None, day) == day
    assert earliest(day, minute, later) == minute
    assert earliest(None) is None and earliest() is None


@given(st.lists(st.builds(life_end, moments, lives), min_size=1))
def test_once_the_earliest_end_has_passed_something_has_passed_and_before_it_nothing(ends: list[Until]) -> None:
    first = earliest(*ends)
    assert first
    for now in (datetime(first.day.year, first.day.month, first.day.day, hour, tzinfo=BERLIN) for hour in (0, 12, 23)):
        assert first.passed(now) == any(end.passed(now) for end in ends)


@pytest.mark.parametrize("text", ["", "14", "0 days", "1.5 years", "5 m", "-1 day", "101 years", "9" * 50 + " days"])
def test_what_is_no_keeping_time_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_life(text)


def test_a_life_beyond_the_calendar_is_refused() -> None:
    with pytest.raises(BadInput, match="after any calendar"):
        life_end(datetime(9990, 1, 1, tzinfo=UTC), Life(number=100, unit="years"))
