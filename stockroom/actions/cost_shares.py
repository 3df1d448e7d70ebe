"""Where a cost lies further down: in what a solution was made of, and in what of a jar was wasted. No entries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from stockroom.domain.lots import Lot
from stockroom.science.quantities import Quantity
from stockroom.science.sharing import share_out
from stockroom.store import ledger
from stockroom.store.cost_sums import value_into, wasted_by_lot
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """A share of cost that lies in one lot that was bought or found."""

    lot: Lot
    value: int
    """Minor units."""


def ingredients_of(store: Store, lot_id: int, value: int) -> list[Ingredient]:
    """Trace a share of a lot's value down to what it was made of, to any depth; the shares add up to it."""
    shares: dict[int, int] = defaultdict(int)
    _trace(store, lot_id, value, shares, frozenset())
    found = [Ingredient(lot=lot_by_id(store, lot), value=share) for lot, share in shares.items() if share]
    return sorted(found, key=lambda one: (-one.value, one.lot.id))


def _trace(store: Store, lot_id: int, value: int, shares: dict[int, int], inside: frozenset[int]) -> None:
    # what was poured out of a lot and back is followed once
    into = {source: given for source, given in value_into(store, lot_id).items() if source not in inside}
    if not into or not value:
        shares[lot_id] += value
        return
    for source, share in zip(into, share_out(value, list(into.values())), strict=True):
        _trace(store, source, share, shares, inside | {lot_id})


@dataclass(frozen=True, slots=True, kw_only=True)
class WasteShare:
    """A job's share of what was wasted of a jar it used."""

    lot: Lot
    quantity: Quantity
    """What was wasted of the jar in all."""
    value: int
    """The job's share, in minor units."""


def waste_shares(store: Store) -> dict[int, list[WasteShare]]:
    """Share what was wasted of each jar over the jobs that drew from it, by quantity; by the job's id.

    The shares of a jar add up to what was wasted of it. Of a jar that no job used, and of all that is no jar, what
    was wasted stays with the studio.
    """
    found: dict[int, list[WasteShare]] = defaultdict(list)
    for lot_id, (quantity, value) in wasted_by_lot(store).items():
        lot = lot_by_id(store, lot_id)
        drawn = _drawn_by_job(store, lot_id)
        if value <= 0 or not lot.is_jar or not drawn:
            continue
        for job_id, share in zip(drawn, share_out(value, list(drawn.values())), strict=True):
            found[job_id].append(WasteShare(lot=lot, quantity=lot.material.quantity(quantity), value=share))
    return found


def _drawn_by_job(store: Store, lot_id: int) -> Mapping[int, int]:
    drawn: dict[int, int] = defaultdict(int)
    for entry in ledger.entries_of_lot(store, lot_id):
        if entry.job_id is not None:
            drawn[entry.job_id] -= entry.quantity
    return {job_id: quantity for job_id, quantity in sorted(drawn.items()) if quantity > 0}
