"""What has to be done: gathered from the shelf, the least amounts, loans and bookings."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from stockroom.planning.due import Due, due_loans, due_lots, due_materials, in_urgency
from stockroom.store.forecasts import kept_forecasts
from stockroom.store.left_open import has_open_bookings, loans_out
from stockroom.store.lots import shelf
from stockroom.store.materials import materials_with_a_least
from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.planning.remake import Needed


def due_items(store: Store, local: datetime, within: int = 14) -> list[Due]:
    """Return what has to be done, most urgent first; `within` days ahead for what is to be used first.

    `local` is the moment taken as now, in the stockroom's zone.
    """
    lots = shelf(store)
    items = due_lots(lots, local, within)
    items += due_materials(materials_with_a_least(store), lots, local)
    items += due_loans(loans_out(store))
    year_ago = (local.date() - timedelta(days=365)).isoformat()
    if any((lot.received_on or lot.made_at or year_ago) < year_ago for lot in lots):
        from stockroom.actions.unused import unused

        items += unused(store, lots, local)
    kept = kept_forecasts(store) if any(lot.over_solid for lot in lots) else {}
    needed: dict[int, list[Needed]] = {}
    if has_open_bookings(store):
        # recipes and their sums are loaded only where something is booked
        from stockroom.actions.booked import bookings_due, load_booked
        from stockroom.actions.forecast import needed_by_material

        worked = load_booked(store, local)
        items += bookings_due(store, lots, worked, local)
        needed = needed_by_material(worked)
    if needed or kept:
        from stockroom.actions.forecast import due_remakes

        failed = {item.code for item in items if item.kind == "remake"}
        horizon = (local.date() + timedelta(days=within)).isoformat()
        found = due_remakes(store, lots, needed, kept, local, horizon)
        items += [item for item in found if item.code not in failed]
    return in_urgency(items, local.date())
