"""How long a supplier takes from order to delivery, as promised and as experienced."""

from __future__ import annotations

from statistics import median_low

from stockroom.domain.orders import DeliveryTime
from stockroom.domain.studio import Supplier
from stockroom.store.open import Store
from stockroom.store.orders import delivery_days


def delivery_time(store: Store, supplier: Supplier) -> DeliveryTime:
    """Return how long a supplier takes: as promised, and as its orders that came whole did."""
    days = delivery_days(store, supplier.id)
    if not days:
        return DeliveryTime(promised=supplier.lead_days)
    return DeliveryTime(
        promised=supplier.lead_days,
        orders=len(days),
        shortest=min(days),
        usual=median_low(days),
        longest=max(days),
    )
