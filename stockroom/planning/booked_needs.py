"""What each booked treatment needs itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from stockroom.domain.jobs import Booking, Job
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.requirements import Book, Need, Scale, needs_of
from stockroom.planning.sheets import in_sheets
from stockroom.science.quantities import Dimension, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A booking with its job and recipe."""

    booking: Booking
    job: Job
    recipe: Recipe


Worked: TypeAlias = tuple[Booked, list[tuple[Need, Quantity]]]
"""A booking and what it needs."""


def scaled_needs(one: Booked, book: Book) -> list[Need]:
    """Work a booking out. Raises BadInput where that cannot be done yet, such as for an object without a size."""
    booking = one.booking
    fill = Quantity(Dimension.VOLUME, booking.fill_quanta) if booking.fill_quanta else None
    scale = Scale(total=fill, fills=booking.fills or one.recipe.version.fills, objects=one.job.objects)
    return needs_of(one.recipe, scale, book)


def booked_needs(one: Booked, book: Book) -> list[tuple[Need, Quantity]]:
    """Return what a booking needs of what is metered; nothing where it cannot be worked out yet.

    What is cut counts with what its sheets lose by the cutting.
    """
    try:
        needs = scaled_needs(one, book)
    except BadInput:
        return []
    totals = [(need, need.total) for need in needs if need.material.metered and need.total and need.total.quanta]
    return [(need, in_sheets(need.material, need.pieces) or total) for need, total in totals]
