"""What lies on the shelf and is not used any more."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from stockroom.domain.lots import Lot
from stockroom.planning.due import Due
from stockroom.planning.not_used import due_not_used, long_here, year_ago
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.use_history import last_used, used_since


def unused(store: Store, lots: Sequence[Lot], local: datetime) -> list[Due]:
    """Tell which of the materials whose lots have been here for a year were not used in that time."""
    since, currency = year_ago(local), setting(store, "currency")
    return [
        due_not_used(old, last_used(store, old[0].material.id), currency)
        for old in long_here(lots, local)
        if not used_since(store, old[0].material.id, since)
    ]
