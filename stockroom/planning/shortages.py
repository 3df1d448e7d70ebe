"""Whether booked treatments will find what they need: each need met from what will be fit on its day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, time, tzinfo
from typing import TypeAlias

from stockroom.domain.jobs import Booking, Job
from stockroom.domain.lots import Lot
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.due import Shortage
from stockroom.planning.picking import Held, pick
from stockroom.planning.requirements import Book, Need, Scale, needs_of
from stockroom.science.quantities import Dimension, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A booking with its job and recipe."""

    booking: Booking
    job: Job
    recipe: Recipe


Worked: TypeAlias = tuple[Booked, list[tuple[Need, Quantity]]]
"""A booking and what it needs."""


def booked_needs(one: Booked, book: Book) -> list[tuple[Need, Quantity]]:
    """Return what a booking needs of what is metered; nothing where it cannot be worked out yet."""
    booking = one.booking
    fill = Quantity(Dimension.VOLUME, booking.fill_quanta) if booking.fill_quanta else None
    scale = Scale(total=fill, fills=booking.fills or one.recipe.version.fills, objects=one.job.objects)
    try:
        needs = needs_of(one.recipe, scale, book)
    except BadInput:
        return []
    return [(need, need.total) for need in needs if need.material.metered and need.total and need.total.quanta]


def shortages(worked: Sequence[Worked], lots: Sequence[Lot], zone: tzinfo | None) -> list[Shortage]:
    """Meet the bookings in order of day, oldest dates first, and tell what is missing for each.

    What one booking takes is not there for the next. A booking that cannot be worked out yet (an object without a
    size) is passed over: booking it said so.
    """
    left = {lot.id: lot.balance.quantity for lot in lots}
    by_material: dict[int, list[Lot]] = {}
    for lot in lots:
        by_material.setdefault(lot.material.id, []).append(lot)
    found: list[Shortage] = []
    for one, needs in worked:
        booking = one.booking
        noon = datetime.combine(datetime.fromisoformat(booking.for_day).date(), time(12), zone)
        for need, total in needs:
            held = [Held(lot=lot, available=left[lot.id]) for lot in by_material.get(need.material.id, [])]
            picked = pick(held, total.quanta, noon)
            for draw in picked.draws:
                left[draw.lot.id] -= draw.quantity
            if picked.missing:
                found.append(
                    Shortage(
                        booking=booking.code,
                        job=one.job.code,
                        treatment=one.recipe.name,
                        for_day=booking.for_day,
                        material=need.material.name,
                        needed=total,
                        available=need.material.quantity(total.quanta - picked.missing),
                    )
                )
    return found
