"""What lots are to cautions: their own name, and what they were made from."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.domain.lots import Lot
from stockroom.science.cautions import Thing
from stockroom.science.substance_groups import groups_of
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store
from stockroom.store.tracing import lots_behind


def thing_of(store: Store, lot: Lot) -> Thing:
    """Return a lot as cautions see it: by its own name, and by what it was made from, to any depth."""
    material = lot.material
    return Thing(
        key=material.key,
        name=material.name,
        statements=material.hazards,
        vented=material.vented,
        holds=groups_behind(store, lot),
    )


def groups_behind(store: Store, *lots: Lot) -> frozenset[str]:
    """Return the groups of all that some lots were made from."""
    behind = {lot_by_id(store, number).material for lot in lots for number in lots_behind(store, lot.id)}
    return frozenset[str]().union(*(groups_of(one.key, one.name, one.hazards) for one in behind))


def groups_by_material(store: Store, lots: Iterable[Lot]) -> dict[str, frozenset[str]]:
    """Return what the lots of each material were made from, by the material's key."""
    found: dict[str, frozenset[str]] = {}
    for lot in lots:
        found[lot.material.key] = found.get(lot.material.key, frozenset()) | groups_behind(store, lot)
    return found
