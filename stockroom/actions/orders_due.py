"""Orders that are late, and what is to be ordered, as things due."""

from __future__ import annotations

from datetime import date, datetime

from stockroom.actions.buying import what_to_buy
from stockroom.domain.orders import Order, goods
from stockroom.planning.buying import BuyLine
from stockroom.planning.due import Due
from stockroom.science.numerals import counted
from stockroom.store.open import Store
from stockroom.store.orders import late_orders


def due_orders(store: Store, local: datetime, within: int) -> list[Due]:
    """Return the placed orders that did not come when expected, and what must be ordered within so many days."""
    today = local.date()
    items = [_late(order, today) for order in late_orders(store, today.isoformat())]
    wanted = what_to_buy(store, local, within=within)
    return items + [_to_order(line) for group in wanted.groups for line in group.lines]


def _late(order: Order, today: date) -> Due:
    days = (today - date.fromisoformat(order.expected_on or "")).days
    lacking = [line for line in order.lines if line.open]
    what = ", ".join(f"{goods(line.offer.material, line.open)} of {line.offer.material.name}" for line in lacking)
    return Due(
        kind="order-late",
        code=order.code,
        name=order.supplier.name,
        by=order.expected_on,
        why=f"expected {counted(days, 'day')} ago and not here: {what}",
    )


def _to_order(line: BuyLine) -> Due:
    supplier, pack = (line.offer.supplier.name, line.offer.pack_words) if line.offer else ("", "")
    return Due(
        kind="reorder",
        code=line.material.key,
        name=line.material.name,
        by=line.order_by.isoformat(),
        why=f"{line.packs} x {pack} from {supplier}: {'; '.join(line.why)}",
    )
