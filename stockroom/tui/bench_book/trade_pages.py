"""The pages of suppliers, sheets and rolls of labels, and printers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from textual.content import Content

from stockroom.actions.delivery_times import delivery_time
from stockroom.actions.printers import say_off
from stockroom.domain.sizes import show_size
from stockroom.labels.printing import WHICH_PRINT_SURVIVES
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.orders import all_orders
from stockroom.tui.bench_book.history import edits_part, listed
from stockroom.tui.forms.own_labels import label_stock_of, label_stock_told, printer_of
from stockroom.tui.forms.own_offers import told_price
from stockroom.tui.forms.own_trade import supplier_of, supplier_told
from stockroom.tui.texts import rows

Part = tuple[str, Content]


def supplier_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a supplier: delivery time as promised and as experienced, what it offers, its orders."""
    found = supplier_of(store, key)
    yield "", rows((*supplier_told(store, found), ("so far", delivery_time(store, found).words)))
    offers = current_offers(store, supplier_id=found.id)
    yield (
        "Offers",
        listed(f"{one.material.name}: {told_price(one)}" for one in offers)
        if offers
        else Content("Nothing it asks is kept yet: O keeps a price."),
    )
    orders = all_orders(store, supplier_id=found.id)
    yield "Orders", listed(f"{order.code}  {order.state}" for order in orders)
    yield edits_part(store, "supplier", key)


def label_stock_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a sheet or roll of labels."""
    yield "", rows(label_stock_told(label_stock_of(store, key)))
    yield "Which print survives", listed(WHICH_PRINT_SURVIVES)
    yield edits_part(store, "label stock", key)


def printer_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write by how much a printer is off."""
    found = printer_of(store, key)
    facts = (
        ("off by", f"{say_off(found)}; labels printed there are put right"),
        ("rulers", show_size(found.ruler_across_um, found.ruler_down_um) or ""),
        ("measured", show_size(found.measured_across_um, found.measured_down_um) or ""),
        ("measured on", found.measured_at[:10]),
    )
    yield "", rows(facts)
    yield "Which print survives", listed(WHICH_PRINT_SURVIVES)
