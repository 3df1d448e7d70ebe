"""Which daily copies are kept: seven days, four weeks, twelve months, counted among those that are there."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from stockroom.planning.kept_copies import copies_to_keep


def test_a_year_of_daily_copies_leaves_seven_days_four_weeks_and_twelve_months() -> None:
    """Counted by hand on a calendar: 31 December 2026 is a Thursday; its week began on 28 December."""
    first = datetime(2026, 1, 1, 9, tzinfo=UTC)
    kept = sorted(copies_to_keep(first + timedelta(days=day) for day in range(365)))
    days = [f"12-{day}" for day in range(25, 32)]
    weeks = ["12-13", "12-20", "12-27"]
    months = ["01-31", "02-28", "03-31", "04-30", "05-31", "06-30", "07-31", "08-31", "09-30", "10-31", "11-30"]
    assert [f"{moment:%m-%d}" for moment in kept] == sorted({*days, *weeks, *months})


def test_thinning_each_day_comes_to_the_same_as_thinning_once() -> None:
    first = datetime(2025, 6, 1, 9, tzinfo=UTC)
    every = [first + timedelta(days=day) for day in range(500)]
    there: set[datetime] = set()
    for moment in every:
        there = copies_to_keep({*there, moment})
    assert there == copies_to_keep(every)


@given(st.lists(st.datetimes(timezones=st.just(UTC)), max_size=60))
def test_the_newest_copy_and_one_of_every_recent_month_always_stay(moments: list[datetime]) -> None:
    """Whatever the clock said when they were taken."""
    kept = copies_to_keep(moments)
    assert kept <= set(moments)
    assert len(kept) <= 7 + 4 + 12
    if moments:
        assert max(moments) in kept
        assert len({(m.year, m.month) for m in kept}) >= min(12, len({(m.year, m.month) for m in moments}))
