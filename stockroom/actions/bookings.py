"""Treatments booked for a day: plans, never entries of the ledger."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time

from stockroom.actions.editing import changes, keep_changes
from stockroom.actions.estimating import keep_estimate_of
from stockroom.actions.jobs import refuse_closed
from stockroom.actions.naming import check_text
from stockroom.actions.recipes import trial
from stockroom.domain.jobs import Booking
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_files import MOST_FILLS
from stockroom.errors import BadInput, Refused
from stockroom.planning.requirements import Scale, refuse_no_bath
from stockroom.science.quantities import Dimension
from stockroom.science.reading import read_quantity
from stockroom.store import jobs
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A treatment that was booked."""

    booking: Booking
    warnings: tuple[str, ...] = ()
    """Why what it needs cannot be worked out yet, where it cannot."""


def book(
    store: Store,
    recipe_words: str,
    job_words: str,
    day: date,
    *,
    today: date,
    fill: str | None = None,
    fills: int | None = None,
    note: str | None = None,
) -> Booked:
    """Book a bath or treatment for a job. `fill` is one fill of the bath, as typed; else the recipe's own.

    Raises BadInput for a day that has passed, Refused for a stock, a retired recipe or a closed job.
    """
    _refuse_passed(day, today)
    if fills is not None and not 1 <= fills <= MOST_FILLS:
        raise BadInput(f"{fills} fills cannot be booked: write 1 to {MOST_FILLS}.")
    if note is not None:
        check_text(note, "note")
    quantity = read_quantity(fill, expect=Dimension.VOLUME).quantity if fill is not None else None
    with store.write():
        recipe, job = find_recipe(store, recipe_words), jobs.find_job(store, job_words)
        refuse_closed(job)
        if recipe.kind == "stock":
            raise Refused(f"{recipe.key} is a stock that is kept in jars. Book the bath or treatment that uses it.")
        if recipe.retired_on:
            raise Refused(f"{recipe.key} was retired on {recipe.retired_on}. Book another recipe.")
        if fill is not None or fills is not None:
            refuse_no_bath(recipe)
        code = jobs.add_booking(store, job, recipe, day.isoformat(), quantity.quanta if quantity else None, fills, note)
        keep_estimate_of(store, jobs.find_booking(store, code), datetime.combine(today, time(12)))
    scale = Scale(total=quantity, fills=fills or recipe.version.fills, objects=job.objects)
    return Booked(booking=jobs.find_booking(store, code), warnings=trial(store, recipe, scale))


def move_booking(store: Store, occasion: Occasion, code: str, day: date) -> Booking:
    """Put a booking on another day. Raises Refused where it is done or cancelled."""
    _refuse_passed(day, occasion.today)
    return _change(store, occasion, code, "booked", day)


def cancel_booking(store: Store, occasion: Occasion, code: str) -> Booking:
    """Cancel a booking. Raises Refused where it is done or cancelled."""
    return _change(store, occasion, code, "cancelled", None)


def _change(store: Store, occasion: Occasion, code: str, state: str, day: date | None) -> Booking:
    with store.write() as booked_at:
        before = jobs.find_booking(store, code)
        if before.state != "booked":
            raise Refused(f"Booking {before.code} is {before.state}; it stays as it is. Book the treatment anew.")
        for_day = day.isoformat() if day else before.for_day
        jobs.set_booking(store, before.id, state=state, for_day=for_day)
        made = changes({"state": before.state, "for_day": before.for_day}, {"state": state, "for_day": for_day})
        keep_changes(store, "booking", before.code, made, occasion, booked_at)
        if state == "booked":
            keep_estimate_of(store, jobs.find_booking(store, code), occasion.local)
    return jobs.find_booking(store, before.code)


def _refuse_passed(day: date, today: date) -> None:
    if day < today:
        raise BadInput(f"{day.isoformat()} has passed. Book a treatment for today or later.")
