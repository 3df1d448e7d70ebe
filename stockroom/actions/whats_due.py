"""What has to be done: gathered from the shelf, the least amounts, loans and bookings."""

from __future__ import annotations

from datetime import datetime

from stockroom.planning.due import Due, due_loans, due_lots, due_materials, in_urgency
from stockroom.store.left_open import has_open_bookings, loans_out
from stockroom.store.lots import shelf
from stockroom.store.materials import materials_with_a_least
from stockroom.store.open import Store


def due_items(store: Store, local: datetime, within: int = 14) -> list[Due]:
    """Return what has to be done, most urgent first; `within` days ahead for what is to be used first.

    `local` is the moment taken as now, in the stockroom's zone.
    """
    lots = shelf(store)
    items = due_lots(lots, local, within)
    items += due_materials(materials_with_a_least(store), lots, local)
    items += due_loans(loans_out(store))
    if has_open_bookings(store):
        # recipes and their sums are loaded only where something is booked
        from stockroom.actions.booked import bookings_due

        items += bookings_due(store, lots, local)
    return in_urgency(items, local.date())
