"""Whether booked treatments will find what they need: each need met from what will be fit on its day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, time, tzinfo

from stockroom.domain.jobs import Booking, Job
from stockroom.domain.lots import Lot
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.due import Shortage
from stockroom.planning.picking import Held, pick
from stockroom.planning.requirements import Book, Scale, needs_of
from stockroom.science.quantities import Dimension, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A booking with its job and recipe."""

    booking: Booking
    job: Job
    recipe: Recipe


def shortages(booked: Sequence[Booked], lots: Sequence[Lot], book: Book, zone: tzinfo | None) -> list[Shortage]:
    """Meet the bookings in order of day, oldest dates first, and tell what is missing for each.

    What one booking takes is not there for the next. A booking that cannot be worked out yet (an object without a
    size) is passed over: booking it said so.
    """
    left = {lot.id: lot.balance.quantity for lot in lots}
    by_material: dict[int, list[Lot]] = {}
    for lot in lots:
        by_material.setdefault(lot.material.id, []).append(lot)
    found: list[Shortage] = []
    for one in booked:
        booking = one.booking
        fill = Quantity(Dimension.VOLUME, booking.fill_quanta) if booking.fill_quanta else None
        scale = Scale(total=fill, fills=booking.fills or one.recipe.version.fills, objects=one.job.objects)
        try:
            needs = needs_of(one.recipe, scale, book)
        except BadInput:
            continue
        noon = datetime.combine(datetime.fromisoformat(booking.for_day).date(), time(12), zone)
        for need in needs:
            if need.total is None or not need.material.metered or not need.total.quanta:
                continue
            held = [Held(lot=lot, available=left[lot.id]) for lot in by_material.get(need.material.id, [])]
            picked = pick(held, need.total.quanta, noon)
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
                        needed=need.total,
                        available=need.material.quantity(need.total.quanta - picked.missing),
                    )
                )
    return found
