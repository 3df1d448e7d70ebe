"""Orders and what has come of them, as stored."""

from __future__ import annotations

import json
from collections import defaultdict
from datetime import date

from stockroom.domain.orders import ON_THE_WAY, Incoming, Order, OrderLine
from stockroom.errors import NotFound
from stockroom.store.codes import give_code
from stockroom.store.offers import offers_by_id
from stockroom.store.open import Row, Store
from stockroom.store.suppliers import all_suppliers

_DELIVERIES = (
    "SELECT action.order_id AS order_id, action.number AS number, action.code AS code, action.day AS day, "
    "action.details AS details FROM action WHERE action.order_id = :order AND action.kind = 'receive' "
    "AND action.number NOT IN (SELECT action_number FROM undone) ORDER BY action.number"
)


def insert_order(store: Store, supplier_id: int, note: str | None, day: str) -> str:
    """Begin a draft; inside `write()`. Return its code."""
    _, code = give_code(store, "P")
    store.insert("purchase_order", code=code, supplier_id=supplier_id, state="drafted", note=note, drafted_on=day)
    return code


def find_order(store: Store, typed: str) -> Order:
    """Find an order by its typed code. Raises Unreadable for a mistyped code, NotFound."""
    from stockroom.domain.codes import read_code

    code = read_code(typed)
    row = store.row("SELECT * FROM purchase_order WHERE code = :code", code=code.text)
    if row is None:
        raise NotFound(f"There is no order {code.text}. 'stockroom order list' shows those there are.", code=code.text)
    return _built(store, [row])[0]


def all_orders(store: Store, *, states: tuple[str, ...] = (), supplier_id: int | None = None) -> list[Order]:
    """Return the orders in some states (all where none is named), of one supplier or of all, newest first."""
    rows = store.rows("SELECT * FROM purchase_order ORDER BY id DESC")
    kept = [row for row in rows if not states or row["state"] in states]
    return _built(store, [row for row in kept if supplier_id is None or row["supplier_id"] == supplier_id])


def set_lines(store: Store, order_id: int, lines: list[OrderLine]) -> None:
    """Put the lines of a draft; inside `write()`."""
    store.run("DELETE FROM order_line WHERE order_id = :order", order=order_id)
    for position, line in enumerate(lines, 1):
        store.insert(
            "order_line",
            order_id=order_id,
            position=position,
            offer_id=line.offer.id,
            packs=line.packs,
            price=line.price,
        )


def set_placed(store: Store, order_id: int, day: str | None, expected_on: str | None) -> None:
    """Note when an order was placed and for when it is expected, or that it is a draft again; inside `write()`."""
    store.update("purchase_order", order_id, placed_on=day, expected_on=expected_on)
    follow_order(store, order_id)


def set_ended(store: Store, order_id: int, day: str | None, why: str | None) -> None:
    """Note that a person ended an order, or that it stands again; inside `write()`."""
    store.update("purchase_order", order_id, ended_on=day, ended_why=why)
    follow_order(store, order_id)


def follow_order(store: Store, order_id: int) -> None:
    """Set an order's state to what its placing, its deliveries in effect and its ending say; inside `write()`."""
    row = store.row("SELECT * FROM purchase_order WHERE id = :id", id=order_id)
    if row is None:
        raise LookupError(order_id)
    order = _built(store, [row])[0]
    if order.ended_on is not None:
        state = "closed"
    elif order.placed_on is None:
        state = "drafted"
    elif not any(line.came for line in order.lines):
        state = "placed"
    else:
        state = "partly delivered" if any(line.open for line in order.lines) else "closed"
    store.update("purchase_order", order_id, state=state)


def follow_order_of(store: Store, action: int) -> None:
    """Follow the order that an action received goods of, if any; inside `write()`."""
    row = store.row("SELECT order_id FROM action WHERE number = :n", n=action)
    if row is not None and row["order_id"] is not None:
        follow_order(store, row["order_id"])


def deliveries_of(store: Store, order_id: int) -> list[Row]:
    """Return the deliveries of an order that are in effect, oldest first: code, day, details."""
    return store.rows(_DELIVERIES, order=order_id)


def incoming(store: Store, states: tuple[str, ...] = ON_THE_WAY) -> list[Incoming]:
    """Return what is still to come of the orders in some states, by day expected."""
    found = [
        Incoming(
            order=order.code,
            supplier=order.supplier.name,
            state=order.state,
            material=line.offer.material,
            quantity=line.open,
            expected_on=order.expected_on,
        )
        for order in all_orders(store, states=states)
        for line in order.lines
        if line.open
    ]
    return sorted(found, key=lambda one: (one.expected_on or "9999", one.order))


def any_order_or_offer(store: Store) -> bool:
    """Say whether any order is open or any offer kept."""
    sql = "SELECT id FROM purchase_order WHERE state <> 'closed' UNION SELECT id FROM offer LIMIT 1"
    return store.row(sql) is not None


def late_orders(store: Store, today: str) -> list[Order]:
    """Return the placed orders that were expected before today and have not all come, the longest late first."""
    if store.row("SELECT id FROM purchase_order WHERE expected_on < :today LIMIT 1", today=today) is None:
        return []
    found = [one for one in all_orders(store, states=ON_THE_WAY) if one.expected_on]
    return sorted(
        (one for one in found if one.expected_on and one.expected_on < today), key=lambda one: one.expected_on or ""
    )


def delivery_days(store: Store, supplier_id: int) -> list[int]:
    """Return for each order of a supplier that came whole how many days it took, oldest first."""
    days: list[int] = []
    for order in reversed(all_orders(store, states=("closed",), supplier_id=supplier_id)):
        came = [row["day"] for row in deliveries_of(store, order.id)]
        if order.placed_on and came and not any(line.open for line in order.lines):
            days.append((date.fromisoformat(max(came)) - date.fromisoformat(order.placed_on)).days)
    return days


def _built(store: Store, rows: list[Row]) -> list[Order]:
    if not rows:
        return []
    suppliers = {supplier.id: supplier for supplier in all_suppliers(store)}
    offers = {one: offers_by_id(store, one) for one in {row["supplier_id"] for row in rows}}
    found: list[Order] = []
    for row in rows:
        came = _came(store, row["id"])
        lines = store.rows("SELECT * FROM order_line WHERE order_id = :id ORDER BY position", id=row["id"])
        found.append(
            Order(
                **{name: row[name] for name in ("id", "code", "state", "note")},
                **{name: row[name] for name in ("drafted_on", "placed_on", "expected_on", "ended_on", "ended_why")},
                supplier=suppliers[row["supplier_id"]],
                lines=tuple(
                    OrderLine(
                        position=line["position"],
                        offer=offers[row["supplier_id"]][line["offer_id"]],
                        packs=line["packs"],
                        price=line["price"],
                        came=came[line["position"]],
                    )
                    for line in lines
                ),
            )
        )
    return found


def _came(store: Store, order_id: int) -> dict[int, int]:
    """Return by line how much came in the deliveries in effect: each keeps it in its details."""
    came: dict[int, int] = defaultdict(int)
    for row in deliveries_of(store, order_id):
        for line in json.loads(row["details"])["came"]:
            came[line["line"]] += line["quanta"]
    return came
