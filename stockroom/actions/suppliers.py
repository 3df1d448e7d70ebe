"""Suppliers: adding, editing and retiring them."""

from __future__ import annotations

from dataclasses import replace

from stockroom.actions.editing import changes, keep_changes, retired
from stockroom.actions.naming import check_text
from stockroom.domain.edits import Change
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import OPEN_STATES
from stockroom.domain.studio import Supplier
from stockroom.errors import BadInput, Refused
from stockroom.science.money import money_text
from stockroom.store import suppliers
from stockroom.store.open import Store
from stockroom.store.orders import all_orders
from stockroom.store.stockroom_settings import setting

MOST_DAYS = 730
"""Nobody waits longer for a delivery: anything above is a slip of the keyboard."""


def new_supplier(
    store: Store,
    name: str,
    *,
    delivery: int | None = None,
    minimum_order: int | None = None,
    note: str | None = None,
) -> Supplier:
    """Add a supplier. `delivery` is in days, `minimum_order` in minor units.

    Raises AlreadyExists when its name is taken, BadInput for a delivery time below nothing.
    """
    added = Supplier(
        id=0,
        key="",
        name=check_text(name, "name").strip(),
        lead_days=_checked_days(delivery),
        minimum_order=minimum_order or None,
        note=check_text(note, "note") if note is not None else None,
    )
    with store.write():
        suppliers.add_supplier(store, added)
    return suppliers.find_supplier(store, added.name)


def edit_supplier(
    store: Store,
    occasion: Occasion,
    words: str,
    *,
    name: str | None = None,
    delivery: int | None = None,
    minimum_order: int | None = None,
    note: str | None = None,
) -> tuple[Supplier, tuple[Change, ...]]:
    """Change a supplier; what is None stays. A least order of nothing and an empty note take them away."""
    if name is None and delivery is None and minimum_order is None and note is None:
        raise BadInput("Nothing to change: give --name, --delivery-days, --minimum-order or --note.")
    with store.write() as booked_at:
        before = suppliers.find_supplier(store, words)
        after = before
        if name is not None:
            after = replace(after, name=check_text(name, "name").strip())
        if delivery is not None:
            after = replace(after, lead_days=_checked_days(delivery))
        if minimum_order is not None:
            after = replace(after, minimum_order=minimum_order or None)
        if note is not None:
            after = replace(after, note=check_text(note, "note") if note.strip() else None)
        currency = setting(store, "currency")
        made = changes(_shown(before, currency), _shown(after, currency))
        suppliers.change_supplier(store, after)
        keep_changes(store, "supplier", str(before.id), made, occasion, booked_at)
    return after, made


def retire_supplier(store: Store, occasion: Occasion, words: str, *, undo: bool = False) -> Supplier:
    """Order from a supplier no more; its offers are no longer counted. Raises Refused while an order is open."""
    with store.write() as booked_at:
        before = suppliers.find_supplier(store, words, retired=undo)
        after, made = retired(before, occasion, before.name, undo=undo)
        orders = [order.code for order in all_orders(store, states=OPEN_STATES, supplier_id=before.id)]
        if orders and not undo:
            raise Refused(f"{before.name} has open orders: {', '.join(orders)}. Receive or cancel them first.")
        suppliers.change_supplier(store, after)
        keep_changes(store, "supplier", str(before.id), made, occasion, booked_at)
    return after


def _checked_days(days: int | None) -> int | None:
    if days is not None and not 0 <= days <= MOST_DAYS:
        raise BadInput(f"A delivery time of {days} days cannot be. Write whole days from 0 to {MOST_DAYS}.")
    return days


def _shown(supplier: Supplier, currency: str) -> dict[str, str | None]:
    return {
        "name": supplier.name,
        "delivery days": None if supplier.lead_days is None else str(supplier.lead_days),
        "minimum order": None if supplier.minimum_order is None else money_text(supplier.minimum_order, currency),
        "note": supplier.note,
    }
