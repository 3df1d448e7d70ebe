"""The materials statement of a job or object: what was used on it, as it was used; plain values."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.jobs import Job, JobObject
from stockroom.domain.trace import LastCheck
from stockroom.science.quantities import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """So much of one lot in one treatment."""

    code: str
    name: str
    amount: Quantity
    per_fill: Quantity | None = None
    """Where each fill took the same."""
    strength: str | None = None
    """Of the lot, as it was stated then; its purity for what was bought."""
    share: str | None = None
    """How much of the bath it was, by volume: `1 in 4`."""
    in_bath: str | None = None
    """What that made the bath: `about 0.41 g/L`, where it can be told."""
    check: LastCheck | None = None
    """The newest before that moment."""
    override: str | None = None
    """What spoke against it, with the reason why it was used all the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Treated:
    """One thing done for the job."""

    action: str
    day: str
    clock: str | None
    """HH:MM; None where only the day was said."""
    by: str
    what: str
    """Name of the recipe, or what else was done in words."""
    recipe: str | None = None
    version: int | None = None
    objects: tuple[str, ...] = ()
    """Those it names; none where the object was not stated."""
    fill: Quantity | None = None
    fills: int = 1
    tray: str | None = None
    strength: str | None = None
    """Of the bath, as it was mixed or measured."""
    used: tuple[Used, ...] = ()
    not_metered: tuple[tuple[str, Quantity], ...] = ()
    """Water and the like: name and amount in all."""
    waits: tuple[tuple[str, str], ...] = ()
    """The times that its recipe names, each with the step before it."""
    notes: tuple[str, ...] = ()
    """What was seen on the way."""
    media: str | None = None
    reason: str | None = None
    put_right: tuple[str, ...] = ()
    """Codes of the actions that put it right later; the amounts are as put right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """A jar behind the treatments: what it was made of."""

    code: str
    name: str
    kind: str
    """jar, remainder, used bath."""
    amount: Quantity
    """How much of it was made."""
    made: str
    by: str
    recipe: str | None
    version: int | None
    parts: tuple[str, ...]
    """What went into it, each as a person reads it: `3 g of Calcium hydroxide (L001W)`."""
    withdrawn: str | None = None
    """That it was withdrawn since, or holds something that was, with the reason."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """A lot behind the treatments that was not made here."""

    code: str
    name: str
    identity: str
    """What it is in generic terms: kind, grade, purity."""
    maker_lot: str | None
    supplier: str | None
    withdrawn: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """Everything that was used on an object, or on a job's objects."""

    job: Job
    thing: JobObject | None
    """The object it is for; None for the whole job."""
    on: str
    """The day it was drawn up."""
    treatments: tuple[Treated, ...]
    solutions: tuple[Solution, ...]
    materials: tuple[Bought, ...]
    people: tuple[tuple[str, str], ...]
    """Initials and name of everyone it names."""
