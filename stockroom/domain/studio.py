"""The people, places, measures and suppliers of the studio."""

from __future__ import annotations

from dataclasses import dataclass

MEASURE_KINDS = ("spoon", "beaker", "cylinder", "pipette", "tray", "balance")


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Initials belong to one person for ever."""

    id: int
    initials: str
    name: str
    retired_on: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A shelf, cupboard, refrigerator or drawer."""

    id: int
    name: str
    note: str | None = None
    retired_on: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A spoon, beaker, cylinder, pipette, tray or balance of the studio's own."""

    id: int
    name: str
    kind: str
    capacity_ul: int | None = None
    graduation_ul: int | None = None
    length_um: int | None = None
    width_um: int | None = None
    resolution_ug: int | None = None
    tolerance_ul: int | None = None
    """How far off its marks may be, as printed on it or of its class."""
    retired_on: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoonWeighing:
    """What one of the studio's spoons was found to hold of a powder."""

    spoon: str
    material: str
    """Key of the material."""
    material_name: str
    masses_ug: tuple[int, ...]
    """Each levelled spoonful that was weighed."""
    day: str
    initials: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tare:
    """What an empty container weighs, with its lid."""

    mass_ug: int
    day: str
    initials: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplier:
    """Where goods are bought."""

    id: int
    key: str
    name: str
    lead_days: int | None = None
    """Days from order to delivery, as promised."""
    minimum_order: int | None = None
    """Least an order must come to, in minor units of the stockroom's currency."""
    note: str | None = None
    retired_on: str | None = None
