"""Days and moments as people type them."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import Unreadable
from stockroom.science.days import read_day, read_expiry, read_moment

TODAY = date(2026, 11, 25)
BERLIN = ZoneInfo("Europe/Berlin")


def day(text: str) -> str:
    return read_day(text, today=TODAY).isoformat()


@given(st.dates(date(1900, 1, 1), date(2200, 12, 31)))
def test_a_day_in_iso_form_or_with_the_month_in_letters_is_read(any_day: date) -> None:
    assert read_day(any_day.isoformat(), today=TODAY) == any_day
    named = f"{any_day.day} {any_day:%B} {any_day.year}"
    assert read_day(named, today=TODAY) == read_day(named.upper(), today=TODAY) == any_day


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("today", "2026-11-25"),
        ("Yesterday", "2026-11-24"),
        ("tomorrow", "2026-11-26"),
        ("in 3 days", "2026-11-28"),
        ("in 1 day", "2026-11-26"),
        ("30 days ago", "2026-10-26"),
        ("25. Nov. 2026", "2026-11-25"),
        ("2026-1-5", "2026-01-05"),
    ],
)
def test_days_are_read_as_people_say_them(text: str, read: str) -> None:
    assert day(text) == read


@given(st.dates(date(1900, 1, 1), date(2200, 12, 31)))
def test_numbers_with_points_and_the_year_at_the_end_are_day_month_year(any_day: date) -> None:
    """Unicode CLDR, date formats (counted in Babel 2.18): `d.M.y` in all locales with points but one, jgo."""
    for typed in (f"{any_day:%d.%m.%Y}", f"{any_day.day}.{any_day.month}.{any_day.year}"):
        assert read_day(typed, today=TODAY) == read_expiry(typed) == any_day
    noon = read_moment(f"{any_day:%d.%m.%Y} 12:00", zone=BERLIN, today=TODAY)
    assert (noon.date(), noon.hour) == (any_day, 12)


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("03/04/2026", ["2026-04-03", "2026-03-04"]),
        ("3-4-2026", ["2026-04-03", "2026-03-04"]),
        ("3.4.26", ["2026-04-03", "2026-03-04", "2003-04-26"]),
        ("25/12/2026", ["2026-12-25"]),
        ("01-02-03", ["2003-02-01", "2003-01-02", "2001-02-03"]),
    ],
)
def test_numbers_alone_are_refused_with_every_day_they_could_be(text: str, readings: list[str]) -> None:
    """ISO 8601-1:2019 writes year, month, day; all-numeric orders differ by country (common practice, no source)."""
    with pytest.raises(Unreadable) as refused:
        day(text)
    assert refused.value.details["readings"] == readings


@pytest.mark.parametrize(
    "text", ["", "2026-02-30", "2026-08", "08/2026", "20261125", "2026-W48-3", "1850-01-01", "in 99999 days", "soon"]
)
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        day(text)


@pytest.mark.parametrize(
    ("text", "last"),
    [
        ("2026-08", "2026-08-31"),
        ("08/2026", "2026-08-31"),
        ("8.2026", "2026-08-31"),
        ("Aug 2026", "2026-08-31"),
        ("2026-02", "2026-02-28"),
        ("2028-02", "2028-02-29"),
        ("2026-08-15", "2026-08-15"),
        ("15 Aug 2026", "2026-08-15"),
    ],
)
def test_a_month_alone_on_a_makers_label_means_its_last_day(text: str, last: str) -> None:
    """USP <7>, Labeling: an expiry given as month and year is the last day of the month (secondary)."""
    assert read_expiry(text).isoformat() == last


@pytest.mark.parametrize("text", ["08/26", "2026-13", "today", "in 3 days", "03/04/2026", "1 month", ""])
def test_a_makers_date_that_could_be_another_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_expiry(text)


def moment(text: str) -> datetime:
    return read_moment(text, zone=BERLIN, today=TODAY)


def test_a_day_alone_is_its_noon_and_a_clock_time_is_local() -> None:
    assert moment("2026-11-25") == datetime(2026, 11, 25, 11, tzinfo=UTC)
    assert moment("2026-11-25T14:10") == moment("today 14:10") == datetime(2026, 11, 25, 13, 10, tzinfo=UTC)


def test_when_summer_time_ends_the_earlier_hour_is_taken_and_a_skipped_one_is_refused() -> None:
    """Central European time goes back from 3:00 to 2:00 on 25 October 2026 and ahead on 29 March (tz database)."""
    assert moment("2026-10-25T02:30").astimezone(UTC) == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    with pytest.raises(Unreadable, match="skipped"):
        moment("2026-03-29T02:30")


@pytest.mark.parametrize(
    "text", ["2026-11-25T24:00", "2026-11-25T14:60", "2026-11-25T14:10Z", "14:10", "03/04/26 9:00"]
)
def test_what_is_no_moment_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        moment(text)
