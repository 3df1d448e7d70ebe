"""How long a thing keeps, and until when: whole days to the end of the day, hours to the minute."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import Literal

from stockroom.errors import BadInput, Unreadable
from stockroom.science.days import MONTHS, read_day, read_expiry, read_moment
from stockroom.science.numerals import quoted, tidy

LifeUnit = Literal["hours", "days", "weeks", "months", "years"]

__all__ = ["Life", "Until", "earliest", "life_end", "read_day", "read_expiry", "read_life", "read_moment"]

_WORDS: dict[LifeUnit, str] = {
    "hours": "h hr hour",
    "days": "d day",
    "weeks": "wk week",
    "months": "mo month",
    "years": "y yr year",
}
_UNITS = {word: unit for unit, words in _WORDS.items() for word in words.split()}
_MOST: dict[LifeUnit, int] = {"hours": 8_760, "days": 36_500, "weeks": 5_200, "months": 1_200, "years": 100}
_FROM_DAY_1 = " counting the day of making"
_LIFE = rf"(?i)(?P<number>[0-9]{{1,6}}) ?(?P<unit>[a-z]+)(?P<day_1>{_FROM_DAY_1})?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Life:
    """A keeping time."""

    number: int
    unit: LifeUnit
    day_of_making_is_day_1: bool = False
    """Whether the day of making counts, so that 14 days end on the 13th day after it."""

    def show(self) -> str:
        """Write it so that it reads back as the same: `14 days`, `1 month`."""
        unit = self.unit[:-1] if self.number == 1 else self.unit
        return f"{self.number} {unit}{_FROM_DAY_1 if self.day_of_making_is_day_1 else ''}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Until:
    """The last moment of use: the end of a local day, or a minute of it."""

    day: date
    moment: datetime | None = None
    """The minute itself, with its zone, where hours count; it lies on `day`."""

    def passed(self, now: datetime) -> bool:
        """Say whether a local moment with its zone is later; the day and the minute named still count."""
        if self.moment is None:
            return now.date() > self.day
        # Moments of one zone compare by the clock on the wall, which shows an hour twice in autumn.
        return now.replace(second=0, microsecond=0).astimezone(UTC) > self.moment.astimezone(UTC)

    def show(self) -> str:
        """Write it for people: `25 Nov 2026` or `25 Nov 2026, 14:10`."""
        day = f"{self.day.day} {MONTHS[self.day.month - 1][:3]} {self.day.year}"
        return f"{day}, {self.moment:%H:%M}" if self.moment else day

    def text(self) -> str:
        """Write it in ISO 8601 as local time: `2026-11-25` or `2026-11-25T14:10`."""
        return self.moment.strftime("%Y-%m-%dT%H:%M") if self.moment else self.day.isoformat()

    @classmethod
    def from_text(cls, text: str, zone: tzinfo | None = None) -> Until:
        """Read what `text` wrote; a minute needs its zone. Raises ValueError.

        Of the hour that comes twice when summer time ends, the earlier one is taken.
        """
        if "T" not in text:
            return cls(day=date.fromisoformat(text))
        if zone is None:
            raise ValueError(f"{text} cannot be placed without its time zone")
        moment = datetime.fromisoformat(text).replace(tzinfo=zone)
        return cls(day=moment.date(), moment=moment)


def read_life(text: str) -> Life:
    """Read a keeping time: `24 h`, `14 days`, `1 month`, `2 years`. Raises Unreadable."""
    match = re.fullmatch(_LIFE, tidy(text))
    word = match["unit"].lower() if match else ""
    unit = _UNITS.get(word) or _UNITS.get(word.removesuffix("s"))
    if not match or not unit:
        meanings = " A lone m could be minutes or months." if word == "m" else ""
        raise Unreadable(
            f"{quoted(text)} is not a keeping time. Write whole hours, days, weeks, months or years,"
            f" such as 24 h or 14 days.{meanings}",
            read=text,
        )
    number, from_day_1 = int(match["number"]), bool(match["day_1"])
    if not 1 <= number <= _MOST[unit]:
        raise Unreadable(f"{quoted(text)} is out of range: write 1 to {_MOST[unit]} {unit}.", read=text)
    if from_day_1 and unit == "hours":
        raise Unreadable(f"{quoted(text)}: a life in hours is kept to the minute; no day is counted.", read=text)
    return Life(number=number, unit=unit, day_of_making_is_day_1=from_day_1)


def life_end(start: datetime, life: Life) -> Until:
    """Say until when something made or opened at a local moment, with its zone, may be used. Raises BadInput.

    Months end on the same day of the month, or its last one. Hours are real ones, also where summer time
    begins or ends.
    """
    try:
        if life.unit == "hours":
            end = (start.astimezone(UTC) + timedelta(hours=life.number)).astimezone(start.tzinfo)
            end = end.replace(second=0, microsecond=0)
            return Until(day=end.date(), moment=end)
        return Until(day=_last_day(start.date(), life))
    except (OverflowError, ValueError):
        raise BadInput(f"{life.show()} from {start:%Y-%m-%d} ends after any calendar.") from None


def _last_day(first: date, life: Life) -> date:
    if life.unit in ("days", "weeks"):
        end = first + timedelta(days=life.number * (7 if life.unit == "weeks" else 1))
    else:
        from dateutil.relativedelta import relativedelta

        months = life.number * (12 if life.unit == "years" else 1)
        end = first + relativedelta(months=months)
    return end - timedelta(days=1) if life.day_of_making_is_day_1 else end


def earliest(*untils: Until | None) -> Until | None:
    """Give the one that ends first, passing over those that are None; a minute ends before its day does."""
    known = [until for until in untils if until]
    return min(known, key=_order, default=None)


def _order(until: Until) -> tuple[date, bool, float]:
    return until.day, until.moment is None, until.moment.timestamp() if until.moment else 0.0
