"""Days and moments as people type them; what can be read as two days is refused.

Numbers with points between them and the year in full at the end are day, month and year: of the locales of Unicode
CLDR (as in Babel 2.18) that write a date so, all but one put the day first. With strokes or dashes the orders differ.
"""

from __future__ import annotations

import calendar
import re
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from stockroom.errors import BadInput, Unreadable
from stockroom.science.numerals import quoted, tidy

if TYPE_CHECKING:
    from zoneinfo import ZoneInfo

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
YEARS = range(1900, 2201)

_MONTH_NUMBERS = {name.lower()[:length]: i for i, name in enumerate(MONTHS, 1) for length in (3, len(name))}
_MONTH_NUMBERS["sept"] = 9
_ISO = r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})"
_NAMED = r"(?i)([0-9]{1,2})\.? ([a-z]{3,9})\.? ([0-9]{4})"
_POINTED = r"([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4})"
_NUMBERS = r"([0-9]{1,4})[/. -]([0-9]{1,2})[/. -]([0-9]{1,4})"
_AWAY = r"(?i)in ([0-9]{1,5}) days?|([0-9]{1,5}) days? ago"
_YEAR_MONTH = r"([0-9]{4})[-/.]([0-9]{1,2})"
_MONTH_YEAR = r"([0-9]{1,2})[-/.]([0-9]{4})"
_NAMED_MONTH = r"(?i)([a-z]{3,9})\.? ([0-9]{4})"
_MOMENT = r"(.+?)(?:T| |, )([0-9]{1,2}):([0-9]{2})"


def read_day(text: str, *, today: date) -> date:
    """Read a day: `2026-11-25`, `25.11.2026`, `25 Nov 2026`, `today`, `yesterday`, `tomorrow`, `in 3 days`,
    `3 days ago`.

    Raises Unreadable; for `03/04/2026`, `details["readings"]` holds both days it could be.
    """
    plain = tidy(text)
    word = plain.lower()
    if word in ("yesterday", "today", "tomorrow"):
        return today + timedelta(days=("yesterday", "today", "tomorrow").index(word) - 1)
    if match := re.fullmatch(_AWAY, plain):
        days = int(match[1]) if match[1] else -int(match[2])
        shifted = date.fromordinal(max(1, min(today.toordinal() + days, date.max.toordinal())))
        return _day(shifted.year, shifted.month, shifted.day, text)
    if match := re.fullmatch(_ISO, plain):
        return _day(int(match[1]), int(match[2]), int(match[3]), text)
    if match := re.fullmatch(_POINTED, plain):
        return _day(int(match[3]), int(match[2]), int(match[1]), text)
    if (match := re.fullmatch(_NAMED, plain)) and (month := _MONTH_NUMBERS.get(match[2].lower())):
        return _day(int(match[3]), month, int(match[1]), text)
    if re.fullmatch(_YEAR_MONTH, plain) or re.fullmatch(_MONTH_YEAR, plain):
        raise Unreadable(f"{quoted(text)} is a month; a day is wanted here, such as 2026-11-25.", read=text)
    if match := re.fullmatch(_NUMBERS, plain):
        _refuse_numbers(match, text)
    raise Unreadable(
        f"{quoted(text)} is not a day that can be read. Write it like 2026-11-25, today, or in 3 days.",
        read=text,
    )


def _refuse_numbers(match: re.Match[str], text: str) -> None:
    first, second, last = map(int, match.groups())
    orders = [(last, second, first), (last, first, second), (first, second, last)]
    readings = []
    for year, month, day in orders:
        full_year = year + 2000 if year < 100 else year
        if full_year in YEARS and 1 <= month <= 12 and 1 <= day <= calendar.monthrange(full_year, month)[1]:
            readings.append(date(full_year, month, day).isoformat())
    readings = list(dict.fromkeys(readings))
    if readings:
        raise Unreadable(
            f"{quoted(text)} can be read as {' or as '.join(readings)}. Write it in that form.",
            read=text,
            readings=readings,
        )


def refuse_reversed(since: date | None, until: date) -> None:
    """Raise BadInput where the first day of what is told comes after its last."""
    if since and since > until:
        raise BadInput(f"{since} comes after {until}, the last day that is told: begin with an earlier day.")


def read_expiry(text: str) -> date:
    """Read a maker's date: `2026-08`, `08/2026` or `Aug 2026` is that month's last day.

    `2026-08-15` is that day. Raises Unreadable.
    """
    plain = tidy(text)
    year = month = 0
    if match := re.fullmatch(_YEAR_MONTH, plain):
        year, month = int(match[1]), int(match[2])
    elif match := re.fullmatch(_MONTH_YEAR, plain):
        year, month = int(match[2]), int(match[1])
    elif (match := re.fullmatch(_NAMED_MONTH, plain)) and (named := _MONTH_NUMBERS.get(match[1].lower())):
        year, month = int(match[2]), named
    if year:
        first = _day(year, month, 1, text)
        return first.replace(day=calendar.monthrange(first.year, first.month)[1])
    if re.fullmatch(r"[0-9]{1,2}[-/.][0-9]{1,2}", plain):
        raise Unreadable(
            f"{quoted(text)} can be a month with its year or a day without one. Write it like 2026-08.",
            read=text,
        )
    if re.search("[a-z]", plain, re.IGNORECASE) and not re.fullmatch(_NAMED, plain):
        raise Unreadable(f"{quoted(text)} is not a maker's date. Write it like 2026-08 or 2026-08-15.", read=text)
    return read_day(text, today=date.min)


def read_moment(text: str, *, zone: ZoneInfo, today: date) -> datetime:
    """Read a moment in a zone: a day (its noon), or a day with its clock time, `2026-11-25T14:10`.

    Of the hour that comes twice when summer time ends, the earlier one is taken. Raises Unreadable, also for
    a clock time that is skipped when summer time begins.
    """
    match = re.fullmatch(_MOMENT, tidy(text))
    if not match:
        return datetime.combine(read_day(text, today=today), time(12), tzinfo=zone)
    hour, minute = int(match[2]), int(match[3])
    if hour > 23 or minute > 59:
        raise Unreadable(f"{quoted(text)} has no such time of day. Write it like 2026-11-25T14:10.", read=text)
    moment = datetime.combine(read_day(match[1], today=today), time(hour, minute), tzinfo=zone)
    if moment.astimezone(UTC).astimezone(zone).replace(tzinfo=None) != moment.replace(tzinfo=None):
        raise Unreadable(
            f"{quoted(text)} is skipped by the clocks in {zone.key} as summer time begins. Write another.",
            read=text,
        )
    return moment


def _day(year: int, month: int, day: int, text: str) -> date:
    if year not in YEARS:
        raise Unreadable(f"{quoted(text)}: the year must be {YEARS[0]} to {YEARS[-1]}.", read=text)
    try:
        return date(year, month, day)
    except ValueError:
        raise Unreadable(f"{quoted(text)} is not in the calendar. Write it like 2026-11-25.", read=text) from None
