"""Waits that are running: the steps of a procedure that need their time, wherever one is meanwhile."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

_MINUTES = r"(?i)\s*([0-9]{1,4})\s*min(?:ute)?s?\s*"
_HOURS = {"hours": 1, "days": 24, "weeks": 168, "months": 730, "years": 8760}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """One wait: until when, for what, and what comes after it."""

    until: datetime
    words: str
    next_words: str


class Waiting:
    """The waits that are running, by what they belong to. They run by the real clock, whatever day is taken as now."""

    def __init__(self, clock: Callable[[], datetime] = lambda: datetime.now(UTC)) -> None:
        self.clock = clock
        self._running: dict[str, Wait] = {}

    def begin(self, key: str, wait: Wait) -> None:
        self._running[key] = wait

    def stop(self, key: str) -> None:
        self._running.pop(key, None)

    def left(self, key: str) -> timedelta | None:
        """Return how long a wait still takes; None where none is running."""
        wait = self._running.get(key)
        return max(wait.until - self.clock(), timedelta(0)) if wait else None

    def over(self) -> list[Wait]:
        """Return the waits that have ended, each once."""
        ended = [key for key, wait in self._running.items() if wait.until <= self.clock()]
        return [self._running.pop(key) for key in ended]


def length_of(wait: str) -> timedelta:
    """Read how long a recipe says to wait: `20 min`, `24 h`, `2 days`. Raises Unreadable."""
    if match := re.fullmatch(_MINUTES, wait):
        return timedelta(minutes=int(match[1]))
    from stockroom.science.lives import read_life

    life = read_life(wait)
    return timedelta(hours=life.number * _HOURS[life.unit])


def clock_words(left: timedelta) -> str:
    """Write what is left of a wait: `12:34`, from an hour on `1 h 20 min`."""
    seconds = int(left.total_seconds())
    if seconds < 3600:
        return f"{seconds // 60}:{seconds % 60:02}"
    return f"{seconds // 3600} h {seconds % 3600 // 60} min"
