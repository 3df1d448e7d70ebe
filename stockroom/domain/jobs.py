"""Jobs, their objects and their booked treatments."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class JobObject:
    """One named object; sides in micrometres where they are known."""

    id: int = 0
    position: int
    name: str
    length_um: int | None = None
    width_um: int | None = None

    @property
    def area_mm2(self) -> int | None:
        if self.length_um is None or self.width_um is None:
            return None
        return (self.length_um * self.width_um + 500_000) // 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One client's or department's work on named objects."""

    id: int
    code: str
    title: str
    client: str | None
    state: str
    opened_on: str
    closed_on: str | None
    objects: tuple[JobObject, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """A treatment planned for a day; a plan, never an entry."""

    id: int
    code: str
    job_id: int
    job_code: str
    recipe_key: str
    for_day: str
    fill_quanta: int | None
    fills: int | None
    state: str
    note: str | None = None
