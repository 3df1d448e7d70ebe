"""Who did something, when it happened, and what moment counts as now."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """One person doing one thing at one moment."""

    by: str
    """Initials."""
    now: datetime
    """The moment taken as now, with its zone."""
    at: datetime
    """When it happened, with its zone; the same as now unless it is booked late."""
    zone: ZoneInfo
    """The stockroom's zone: local days are told in it."""
    reason: str | None = None

    @property
    def day(self) -> date:
        """The local day on which it happened."""
        return self.local.date()

    @property
    def local(self) -> datetime:
        return self.at.astimezone(self.zone)

    @property
    def today(self) -> date:
        return self.now.astimezone(self.zone).date()

    @property
    def at_text(self) -> str:
        """The moment as the ledger stores it: UTC, ISO 8601, to the second."""
        return utc_text(self.at)

    @property
    def minute_text(self) -> str:
        """The local moment as a lot keeps when it was made: to the minute."""
        return self.local.strftime("%Y-%m-%dT%H:%M")


def utc_text(moment: datetime) -> str:
    """Write a moment as the stockroom stores it: UTC, ISO 8601, to the second, sortable as text."""
    return moment.astimezone(UTC).replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def from_utc_text(text: str) -> datetime:
    """Read a stored moment back, with its zone."""
    return datetime.fromisoformat(text.removesuffix("Z")).replace(tzinfo=UTC)
