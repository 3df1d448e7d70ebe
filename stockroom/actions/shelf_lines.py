"""What is on the shelf and whether it may be used; quick to load, as it is asked for all day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from stockroom.domain.lots import Lot
from stockroom.planning.fitness import Fitness, fitness
from stockroom.store.lots import ShelfSearch, lots_in_order
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfLine:
    """One lot on the shelf and whether it may be used."""

    lot: Lot
    fit: Fitness


def shelf_lines(
    store: Store, words: str, local: datetime, limit: int | None = 500, *, search: ShelfSearch | None = None
) -> tuple[list[ShelfLine], int]:
    """Return the lots that hold every word, and how many there are in all.

    `search` is one that is kept from one asking to the next, while words are typed.
    """
    found = (search or ShelfSearch(store)).find(words)
    return [ShelfLine(lot=lot, fit=fitness(lot, local)) for lot in lots_in_order(store, found[:limit])], len(found)
