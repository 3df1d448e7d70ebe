"""Booked treatments against the shelf: what they will lack, and which have passed."""

from __future__ import annotations

from datetime import datetime

from stockroom.actions.recipe_book import load_book
from stockroom.domain.lots import Lot
from stockroom.planning.due import Due, Passed, due_bookings
from stockroom.planning.shortages import Booked, shortages
from stockroom.store.jobs import job_by_id, open_bookings
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe


def bookings_due(store: Store, lots: list[Lot], local: datetime) -> list[Due]:
    """Return what booked treatments lack, and which were neither done nor cancelled by their day."""
    bookings = open_bookings(store)
    today = local.date().isoformat()
    recipes = {key: find_recipe(store, key) for key in {one.recipe_key for one in bookings}}
    passed = [
        Passed(booking=one.code, job=one.job_code, treatment=recipes[one.recipe_key].name, for_day=one.for_day)
        for one in bookings
        if one.for_day < today
    ]
    booked = [
        Booked(booking=one, job=job_by_id(store, one.job_id), recipe=recipes[one.recipe_key])
        for one in bookings
        if one.for_day >= today
    ]
    book = load_book(store, *recipes.values())
    return due_bookings(shortages(booked, lots, book, local.tzinfo), passed)
