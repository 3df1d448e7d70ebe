"""What is due by reckoning with recipes: booked treatments and what must be made for them, jars, and orders."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from stockroom.actions.booked import load_booked, passed_due
from stockroom.actions.forecast import due_remakes, needed_by_material
from stockroom.actions.orders_due import due_orders
from stockroom.actions.planned import due_planned
from stockroom.actions.studio_choices import refills_allowed
from stockroom.domain.lots import Lot
from stockroom.planning.due import FAILED_CHECK, Due
from stockroom.planning.due_jars import JarState, due_jars
from stockroom.planning.fitness import fitness
from stockroom.store.forecasts import kept_forecasts
from stockroom.store.open import Store
from stockroom.store.orders import any_order_or_offer


def reckon(
    store: Store, lots: Sequence[Lot], local: datetime, within: int, away_until: date | None = None
) -> list[Due]:
    """Return what bookings and measured jars make due within so many days; see `due_items`."""
    worked = load_booked(store, local)
    items = due_orders(store, local, within) if any_order_or_offer(store) else []
    items += passed_due(store, local) + due_planned(store, local, within, worked, lots, away_until)
    # a jar past its date is discarded: what bookings lack then is begun as a making
    current = [lot for lot in lots if fitness(lot, local).kind != "past-use-by"]
    horizon = (local.date() + timedelta(days=within)).isoformat()
    kept = kept_forecasts(store)
    states = {lot: JarState(refills=one.refills, proved=one.proved, unsure=one.unsure) for lot, one in kept.items()}
    items += due_jars(lots, states, refills_allowed(store)) if kept else []
    remakes = due_remakes(store, current, needed_by_material(worked), kept, local, horizon)
    by_code = {lot.code: lot for lot in lots}
    # a jar that failed its check is told with the lots
    failed = {lot.code for lot in lots if (lot.unfit or "").startswith(FAILED_CHECK)}
    remakes = [item for item in remakes if item.code not in failed]
    # one jar is made afresh once, whether its date or a booking asks for it
    told = {by_code[item.code].material.key for item in remakes}
    return [item for item in items if item.kind != "make-by" or item.code not in told] + remakes
