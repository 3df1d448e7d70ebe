"""How goods come: on what terms each material is sold, and what is on order, as a plan reads it."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """On what terms a material is sold."""

    supplier_id: int
    supplier: str
    delivery_days: int | None
    pack: int | None = None
    """Quanta; None where no offer is kept."""
    least_packs: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class OnOrder:
    """What is still to come of one material."""

    material_id: int
    quantity: int
    expected_on: str | None


def terms(store: Store) -> dict[int, Terms]:
    """Return by material the terms of its newest offer; without one, from whom it last came."""
    found: dict[int, Terms] = {}
    for row in store.rows(
        "SELECT lot.material_id AS material_id, supplier.id AS supplier_id, supplier.name AS supplier, lead_days "
        "FROM lot JOIN supplier ON supplier.id = lot.supplier_id WHERE supplier.retired_on IS NULL ORDER BY lot.id"
    ):
        found[row["material_id"]] = Terms(
            supplier_id=row["supplier_id"], supplier=row["supplier"], delivery_days=row["lead_days"]
        )
    for row in store.rows(
        "SELECT offer.material_id AS material_id, supplier.id AS supplier_id, supplier.name AS supplier, lead_days, "
        "pack_quanta, minimum_packs FROM offer JOIN supplier ON supplier.id = offer.supplier_id "
        "WHERE supplier.retired_on IS NULL ORDER BY seen_on, offer.id"
    ):
        found[row["material_id"]] = Terms(
            supplier_id=row["supplier_id"],
            supplier=row["supplier"],
            delivery_days=row["lead_days"],
            pack=row["pack_quanta"],
            least_packs=row["minimum_packs"],
        )
    return found


def on_order(store: Store) -> list[OnOrder]:
    """Return what was ordered and has not come, by material and day expected, the earliest first."""
    came = {
        (row["order_id"], row["material_id"]): row["quantity"]
        for row in store.rows(
            "SELECT action.order_id AS order_id, lot.material_id AS material_id, sum(entry.quantity) AS quantity "
            "FROM action JOIN entry ON entry.action_number = action.number JOIN lot ON lot.id = entry.lot_id "
            "WHERE action.order_id IS NOT NULL AND action.undoes IS NULL "
            "AND action.number NOT IN (SELECT action_number FROM undone) "
            "GROUP BY action.order_id, lot.material_id"
        )
    }
    rows = store.rows(
        "SELECT purchase_order.id AS order_id, expected_on, offer.material_id AS material_id, "
        "sum(packs * pack_quanta) AS quantity FROM order_line "
        "JOIN purchase_order ON purchase_order.id = order_line.order_id JOIN offer ON offer.id = order_line.offer_id "
        "WHERE purchase_order.state IN ('placed', 'partly delivered') "
        "GROUP BY purchase_order.id, expected_on, offer.material_id ORDER BY coalesce(expected_on, '9999'), order_id"
    )
    found = [
        OnOrder(
            material_id=row["material_id"],
            quantity=row["quantity"] - came.get((row["order_id"], row["material_id"]), 0),
            expected_on=row["expected_on"],
        )
        for row in rows
    ]
    return [one for one in found if one.quantity > 0]
