"""Take one row in: what was counted in a lot."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from functools import partial

from stockroom.actions.counting import EMPTY_REASONS, METHODS, count
from stockroom.actions.naming import check_text
from stockroom.actions.taken_in import TakenIn, at_moment
from stockroom.actions.taking import read_amount_of
from stockroom.domain.occasion import Occasion
from stockroom.exchange.cells import Cells
from stockroom.science.quantities import show
from stockroom.store.exchange import counts_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.materials import find_material
from stockroom.store.open import Store


def take_count(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Book what was counted, as `count` does; a lot of which nothing is left needs its reason."""
    lot = cells.read("code", partial(find_lot, store))
    if lot is None:
        return None
    material = cells.read("material", partial(find_material, store))
    if material is not None and material.id != lot.material.id:
        cells.refuse("material", f"{lot.code} is {lot.material.name}, not {material.name}. Look at the label.")
    method = cells.choice("method", METHODS, METHODS[0])
    when = cells.read("counted_at", partial(at_moment, occasion)) or occasion
    amount = cells.read_amount(partial(read_amount_of, lot, allow_zero=True))
    reason = cells.read("reason", partial(check_text, what="reason"))
    if amount is None or not cells.fine:
        return None
    told = replace(when, reason=reason or occasion.reason)
    if not amount.quantity.quanta and told.reason not in EMPTY_REASONS:
        cells.refuse("reason", f"nothing is left: why? Write one of {', '.join(EMPTY_REASONS)}.")
        return None
    if _counted_before(store, lot.id, told.at_text, amount.quantity.quanta, method):
        return TakenIn(words=lot.code, here=True)
    found = (
        count(store, told, lot.code, amount.typed, method=method)
        if amount.quantity.quanta
        else count(store, told, lot.code, empty=True)
    )
    words = f"{found.name}, {show(found.counted)}"
    return TakenIn(words=words, codes=(found.code,), action=found.action, day=told.day.isoformat())


def _counted_before(store: Store, lot_id: int, at: str, quantity: int, method: str) -> bool:
    """Say whether that very count is in the books and in effect."""
    return any(
        (row["at"], row["quantity"], row["method"], row["in_effect"]) == (at, quantity, method, "yes")
        for row in counts_of_lot(store, lot_id)
    )
