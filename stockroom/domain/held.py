"""What a place held on a day: containers with their hazards, safety sheets and worth; plain values."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.lots import Lot
from stockroom.science.quantities import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Container:
    """A lot as it stood at the end of a day; its hazards are those of its entry as it is now."""

    lot: Lot
    """A waste can goes by what was poured into it."""
    amount: Quantity
    solid_only: bool = False
    """A jar drawn dry over its solid."""
    strength: str | None = None
    place: str | None = None
    value: int = 0
    """By the books, in minor units."""
    replacement: int | None = None
    """What it would cost at the lowest of today's offers, in minor units; None where nobody offers it."""

    @property
    def codes(self) -> tuple[str, ...]:
        """The codes of its hazard statements."""
        return tuple(words.split()[0] for words in self.lot.material.hazards if words.strip())


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardTotal:
    """All containers in one place that carry one hazard statement."""

    code: str
    statement: str
    place: str | None
    containers: int
    amounts: tuple[Quantity, ...]
    """One for each dimension."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetySheet:
    """The safety sheet of a material held, or that it is missing."""

    key: str
    name: str
    file: str | None
    """Where it is kept; None where there is none."""
    dated: str | None
    """The day on the sheet; None where there is none, or none was said."""
    trouble: str | None
    """That it is missing or old; None where nothing is wrong with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What was held on a day, at a place or everywhere."""

    on: str
    place: str | None
    hazard: str | None
    containers: tuple[Container, ...]
    totals: tuple[HazardTotal, ...]
    sheets: tuple[SafetySheet, ...]
    signal_word: str | None
    pictograms: tuple[str, ...]
    value: int
    replacement: int
    """At today's offers, and by the books where there is none."""
    without_offer: int
    """Of `replacement`, what is by the books."""
    cost_known: bool
