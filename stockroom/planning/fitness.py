"""Whether a lot may be used at a moment, and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stockroom.domain.lots import Lot

WITHDRAWN = "withdrawn: "
"""How the mark of a lot begins that was withdrawn itself; its reason follows."""
HOLDS_WITHDRAWN = "holds some of "
"""How the mark of a lot begins that was made from such a lot; its code and mark follow."""


def is_withdrawn(lot: Lot) -> bool:
    """Say whether a lot was withdrawn, itself or with one that it was made from."""
    return (lot.unfit or "").startswith((WITHDRAWN, HOLDS_WITHDRAWN))


def mark_of_withdrawn(lots: Iterable[Lot]) -> str | None:
    """Return the mark of what holds some of these lots: that of the first one that is withdrawn, None without one."""
    for lot in lots:
        if is_withdrawn(lot):
            itself = (lot.unfit or "").startswith(WITHDRAWN)
            return f"{HOLDS_WITHDRAWN}{lot.code}, {lot.unfit}" if itself else lot.unfit
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitness:
    """The answer and its reason in words."""

    fit: bool
    why: str
    kind: str = "fit"
    """fit, past-use-by, not-ready, unfit, used-bath, solid-only, ended, empty."""


def has_passed(last: str, local: datetime) -> bool:
    """Say whether a last day (usable to its end) or last minute lies before a local moment."""
    if len(last) == 10:
        return local.date().isoformat() > last
    return local.strftime("%Y-%m-%dT%H:%M") > last


def fitness(lot: Lot, local: datetime) -> Fitness:
    """Judge a lot at a local moment. The first reason against it is given; a fit lot's reason is its date."""
    if lot.ended:
        return Fitness(fit=False, why=f"{lot.ended_why or 'ended'} on {lot.ended_on}", kind="ended")
    if lot.unfit:
        return Fitness(fit=False, why=lot.unfit, kind="unfit")
    if lot.kind == "used bath":
        return Fitness(fit=False, why="a used bath: discard it", kind="used-bath")
    if lot.kind == "waste can":
        return Fitness(fit=False, why="a waste can", kind="used-bath")
    if lot.state == "solid only":
        return Fitness(fit=False, why="only solid left: top up", kind="solid-only")
    if lot.use_by and has_passed(lot.use_by, local):
        rule = f" ({lot.use_by_rule})" if lot.use_by_rule else ""
        return Fitness(fit=False, why=f"past use-by {spoken(lot.use_by)}{rule}", kind="past-use-by")
    if lot.ready_on and not reached(lot.ready_on, local):
        return Fitness(fit=False, why=f"not ready until {spoken(lot.ready_on)}", kind="not-ready")
    if lot.balance.quantity == 0:
        return Fitness(fit=False, why="nothing left", kind="empty")
    if lot.use_by:
        return Fitness(fit=True, why=f"use by {spoken(lot.use_by)}")
    return Fitness(fit=True, why="no date limits it")


def reached(ready: str, local: datetime) -> bool:
    """Say whether the day or minute on which something is ready has come at a local moment."""
    if len(ready) == 10:
        return local.date().isoformat() >= ready
    return local.strftime("%Y-%m-%dT%H:%M") >= ready


def spoken(until: str) -> str:
    """Write a stored day or minute for people: `2026-11-25` or `2026-11-25, 14:10`."""
    return until.replace("T", ", ")
