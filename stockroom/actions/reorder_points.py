"""When to order a material, from what the ledger tells of its use."""

from __future__ import annotations

from datetime import date, timedelta

from stockroom.actions.studio_choices import running_out_chance
from stockroom.domain.materials import Material
from stockroom.planning.demand import LOOK_BACK_DAYS, OrderWhenBelow, Use, order_when_below
from stockroom.store.open import Store
from stockroom.store.use_history import first_here, used_without_booking


def order_point_of(store: Store, material: Material, today: date, delivery_days: int) -> OrderWhenBelow:
    """Say below which amount a material is to be ordered, from its use that was not booked ahead. Raises BadInput."""
    since = (today - timedelta(days=LOOK_BACK_DAYS)).isoformat()
    uses = [
        Use(day=date.fromisoformat(day), quanta=quanta)
        for day, quanta in used_without_booking(store, material.id, since)
    ]
    begun = date.fromisoformat(first_here(store, material.id, since) or today.isoformat())
    return order_when_below(material, uses, begun, today, delivery_days, running_out_chance(store))
