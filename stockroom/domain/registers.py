"""The register of a material: every gain and loss of it with what was left; plain values."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.materials import Material
from stockroom.science.quantities import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterLine:
    """What one action did to one lot of the material."""

    day: str
    what: str
    """receive, use, count …"""
    lot: str
    moved: Quantity
    """In (positive) or out."""
    left: Quantity
    """Of the material in all lots, after it."""
    by: str
    words: str
    """For what: job, jar, place of waste, reason."""
    action: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UnexplainedLoss:
    """A count that found less of a lot under a register, without a reason."""

    action: str
    day: str
    lot: str
    material: str
    """Its key."""
    name: str
    missing: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """Why a count found less of a lot, as it was said later."""

    action: str
    lot: str
    reason: str
    by: str
    on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """The running page of a material from one day through another."""

    material: Material
    since: str | None
    until: str
    brought_forward: Quantity
    lines: tuple[RegisterLine, ...]
    left: Quantity
    unexplained: tuple[UnexplainedLoss, ...]
    explained: tuple[Explained, ...]
