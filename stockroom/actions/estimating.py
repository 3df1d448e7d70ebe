"""What booked treatments are expected to cost, at the prices of the shelf and of the offers as they are now."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time

from stockroom.actions.recipe_book import load_book
from stockroom.actions.ways import makings
from stockroom.domain.jobs import Booking, Job
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.booked_needs import Booked, scaled_needs
from stockroom.planning.estimating import Estimator, Expected
from stockroom.planning.requirements import Need
from stockroom.store.estimates import KeptEstimate, keep_estimate
from stockroom.store.jobs import job_by_id
from stockroom.store.lots import shelf
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


def estimator(store: Store, needs: Sequence[Need]) -> Estimator:
    """Return an estimator over all that is on the shelf, offered, or made of it."""
    made, book = makings(store, {need.material.id: need.material for need in needs})
    return Estimator(shelf(store), current_offers(store), {key: how.recipe for key, how in made.items()}, book)


def needs_of_booking(store: Store, booking: Booking, job: Job, recipe: Recipe) -> list[Need] | None:
    """Work a booking out; None where that cannot be done yet, such as for an object without a size."""
    try:
        return scaled_needs(Booked(booking=booking, job=job, recipe=recipe), load_book(store, recipe))
    except BadInput:
        return None


def estimate(store: Store, bookings: Sequence[Booking], local: datetime) -> dict[int, list[Expected]]:
    """Return what each booking would take and cost, drawn one after the other by day; by the booking's id.

    What is planned for a day is judged at that day's noon; what has passed, at the local moment. A booking that
    cannot be worked out yet is left out.
    """
    worked = [
        (one, needs_of_booking(store, one, job_by_id(store, one.job_id), find_recipe(store, one.recipe_key)))
        for one in sorted(bookings, key=lambda one: (one.for_day, one.id))
    ]
    known = {one: needs for one, needs in worked if needs is not None}
    expected = estimator(store, [need for needs in known.values() for need in needs])
    return {one.id: expected.expect(needs, moment_of(one, local)) for one, needs in known.items()}


def moment_of(booking: Booking, local: datetime) -> datetime:
    """Return when a booked treatment is taken to be done: its day's noon, or now where that has passed."""
    noon = datetime.combine(datetime.fromisoformat(booking.for_day), time(12), local.tzinfo)
    return max(noon, local)


def keep_estimate_of(store: Store, booking: Booking, local: datetime) -> None:
    """Keep what a booking is expected to cost, as it looks now; inside `write()`."""
    lines = estimate(store, [booking], local).get(booking.id, [])
    kept = [
        KeptEstimate(
            material_id=line.material.id,
            lot_id=line.lot,
            quantity=line.quantity,
            value=line.value,
            complete=line.complete,
            priced_by=line.priced_by,
        )
        for line in lines
    ]
    keep_estimate(store, booking.id, kept)
