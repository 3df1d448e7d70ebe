"""Waits that are running: the steps of a procedure that need their time, wherever one is meanwhile."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

_MINUTES = r"(?i)\s*([0-9]{1,4})\s*min(?:ute)?s?\s*"
_HOURS = {"hours": 1, "days": 24, "weeks": 168, "months": 730, "years": 8760}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """One wait: until when, for what, and what comes after it."""

    until: datetime
    words: str
    next_words: str


@dataclass(frozen=True, slots=True)
class Step:
    """A step of a form that was begun: of which, what it was opened with, and its number from 0."""

    form: str
    known: frozenset[tuple[str, str]]
    number: int


class Waiting:
    """The waits that are running or over, by the steps they belong to, until the work goes on.

    They run by the real clock, whatever day is taken as now.
    """

    def __init__(self, clock: Callable[[], datetime] = lambda: datetime.now(UTC)) -> None:
        self.clock = clock
        self._waits: dict[Step, Wait] = {}
        self._told: set[Step] = set()

    def begin(self, step: Step, wait: Wait) -> None:
        """Let a wait run; one that is known goes on, under other words where they changed."""
        self._waits[step] = wait

    def stop(self, step: Step) -> None:
        self._waits.pop(step, None)
        self._told.discard(step)

    def stop_all(self, form: str, known: Mapping[str, str]) -> None:
        """Stop every wait of a form: it was booked, or dropped."""
        for step in [step for step in self._waits if (step.form, step.known) == (form, frozenset(known.items()))]:
            self.stop(step)

    def take_up(self, found: Mapping[Step, Wait]) -> None:
        """Know just these waits: what another window began or ended counts here too."""
        for step in [step for step in self._waits if step not in found]:
            self.stop(step)
        self._waits.update(found)

    def over(self) -> list[Wait]:
        """Return the waits that have ended, each once."""
        ended = [step for step, wait in self._waits.items() if wait.until <= self.clock() and step not in self._told]
        self._told.update(ended)
        return [self._waits[step] for step in ended]

    def all(self) -> list[Wait]:
        """Return the waits after which the work has not gone on, the first to end first."""
        return sorted(self._waits.values(), key=lambda wait: wait.until)


def waits_in(progress: Mapping[str, Any]) -> dict[int, Wait]:
    """Read the waits that were kept with the steps of a form; what cannot be read is no wait."""
    from stockroom.domain.occasion import from_utc_text

    try:
        return {
            int(number): Wait(
                until=from_utc_text(kept["until"]), words=str(kept["words"]), next_words=str(kept["next"])
            )
            for number, kept in progress.get("waits", {}).items()
        }
    except (AttributeError, KeyError, TypeError, ValueError):
        return {}


def waits_kept(waits: Mapping[int, Wait]) -> dict[str, dict[str, str]]:
    """Write waits as they are kept with the steps of a form."""
    from stockroom.domain.occasion import utc_text

    return {
        str(number): {"until": utc_text(wait.until), "words": wait.words, "next": wait.next_words}
        for number, wait in waits.items()
    }


def wait_words(wait: Wait, now: datetime, zone: ZoneInfo) -> str:
    """Say how long a wait still takes, or when it was over: `wait 12:34 more, until 15:10`."""
    local = wait.until.astimezone(zone)
    clock = f"{local:%H:%M}" if local.date() == now.astimezone(zone).date() else f"{local:%Y-%m-%d, %H:%M}"
    if wait.until > now:
        return f"wait {clock_words(wait.until - now)} more, until {clock}"
    return f"the wait was over at {clock}"


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
