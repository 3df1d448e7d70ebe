"""Booked treatments: those to come with what each needs, and those that have passed."""

from __future__ import annotations

from datetime import datetime

from stockroom.actions.recipe_book import load_book
from stockroom.domain.jobs import Job
from stockroom.planning.booked_needs import Booked, Worked, booked_needs
from stockroom.planning.due import Due, Passed, due_passed
from stockroom.store.jobs import job_by_id, open_bookings
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


def load_booked(store: Store, local: datetime) -> list[Worked]:
    """Return the treatments booked from today on, each with what it needs."""
    today = local.date().isoformat()
    bookings = [one for one in open_bookings(store) if one.for_day >= today]
    recipes = {key: find_recipe(store, key) for key in {one.recipe_key for one in bookings}}
    jobs: dict[int, Job] = {key: job_by_id(store, key) for key in {one.job_id for one in bookings}}
    booked = [Booked(booking=one, job=jobs[one.job_id], recipe=recipes[one.recipe_key]) for one in bookings]
    book = load_book(store, *recipes.values())
    return [(one, booked_needs(one, book)) for one in booked]


def passed_due(store: Store, local: datetime) -> list[Due]:
    """Return the bookings that were neither done nor cancelled by their day."""
    passed = [
        Passed(
            booking=one.code,
            job=one.job_code,
            treatment=find_recipe(store, one.recipe_key).name,
            for_day=one.for_day,
        )
        for one in open_bookings(store)
        if one.for_day < local.date().isoformat()
    ]
    return due_passed(passed)
