"""Quotes: an estimate as it was given to a client or department, frozen with its prices."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from stockroom.domain.jobs import Job
from stockroom.domain.materials import Material
from stockroom.science.handling import handling_on, percent_of

SHOWS = ("total", "treatments", "materials", "prices")
"""What the client sees, from least to most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A least, a best and a greatest figure."""

    low: int
    best: int
    high: int

    def __add__(self, other: Range) -> Range:
        return Range(low=self.low + other.low, best=self.best + other.best, high=self.high + other.high)

    @property
    def certain(self) -> bool:
        return self.low == self.high


NOTHING = Range(low=0, best=0, high=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteLine:
    """One material of one booked treatment."""

    booking: str
    recipe: str
    """Its key."""
    recipe_name: str
    version_id: int
    version: int
    """Number of the recipe's version."""
    fills: Range
    material: Material
    quantity: Range
    """Quanta."""
    value: Range
    """Minor units; what has no known price counts nothing."""
    complete: bool
    """False where some price is not known, so that the value is "at least"."""
    priced_by: str
    """The lots and offers that the price is from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What a job's materials are expected to cost, as it was given."""

    id: int = 0
    code: str = ""
    job: Job
    day: str
    valid_until: str
    """The last day on which it holds."""
    state: str = "given"
    """given, accepted, replaced by another that was accepted, or withdrawn."""
    shows: str = "treatments"
    waste: str | None = None
    """Allowance for waste: percent of the materials, as typed."""
    handling: str | None = None
    """Percent of materials and waste, or a sum, as typed."""
    note: str | None = None
    initials: str
    accepted_on: str | None = None
    lines: tuple[QuoteLine, ...] = ()

    def as_plan(self) -> Quote:
        """Return the same without what only giving it gives."""
        return replace(self, id=0, code="")

    @property
    def materials(self) -> Range:
        return sum((line.value for line in self.lines), NOTHING)

    @property
    def complete(self) -> bool:
        return all(line.complete for line in self.lines)

    @property
    def for_waste(self) -> Range:
        """What the allowance for waste adds."""
        return NOTHING if self.waste is None else _each(self.materials, lambda of: percent_of(self.waste or "", of))

    def for_handling(self, currency: str) -> Range:
        """What handling adds; a line of its own, never in the prices."""
        if self.handling is None:
            return NOTHING
        return _each(self.materials + self.for_waste, lambda of: handling_on(self.handling or "", of, currency))

    def whole(self, currency: str) -> Range:
        return self.materials + self.for_waste + self.for_handling(currency)


def _each(of: Range, work_out: Callable[[int], int]) -> Range:
    return Range(low=work_out(of.low), best=work_out(of.best), high=work_out(of.high))
