"""From when to when a lot counts in a plan, and how much of it."""

from __future__ import annotations

import math
from datetime import date, datetime
from fractions import Fraction
from functools import partial

from stockroom.domain.lots import Lot
from stockroom.planning.covering import Supply
from stockroom.planning.fitness import fitness
from stockroom.planning.ways import counts_from, life_day
from stockroom.science.strengths import read_strength


def supply_of(lot: Lot, local: datetime, left_behind: int = 0) -> Supply | None:
    """Return from when to when a lot counts, and how much of it; None where nothing of it can be used.

    What is ready in the afternoon of a day to come counts from the next one, since a treatment is taken to begin at
    noon; what is ready later today counts today. A life in hours counts for today alone, never for tomorrow's booking.
    `left_behind` cannot be drawn from a jar.
    """
    verdict = fitness(lot, local)
    quantity = _worth(lot) - (left_behind if lot.kind == "jar" else 0)
    if verdict.kind not in ("fit", "not-ready") or quantity <= 0:
        return None
    today, ready = local.date(), lot.ready_on or ""
    until = date.fromisoformat(lot.use_by[:10]) if lot.use_by else None
    if lot.use_by and len(lot.use_by) > len("2026-11-25"):
        until = today
    closed_life = lot.life_opened if lot.opened_on is None else None
    return Supply(
        quantity=quantity,
        start=today if verdict.fit or ready[:10] == today.isoformat() else counts_from(ready),
        until=until,
        source=lot.code,
        order=(lot.opened_on is None, lot.received_on or lot.made_at or "", lot.id),
        once_opened=partial(life_day, life=closed_life) if closed_life else None,
    )


def _worth(lot: Lot) -> int:
    """Return how much a lot counts for: less where it is weaker than its material usually is, never more."""
    if lot.purity is None or lot.purity == lot.material.purity:
        return lot.balance.quantity
    own = read_strength(lot.purity)
    usual = read_strength(lot.material.purity or f"100 {own.unit}")
    if own.unit != usual.unit or own.number >= usual.number:
        return lot.balance.quantity
    return math.floor(lot.balance.quantity * Fraction(own.number) / Fraction(usual.number))
