"""From whom each material last came, as a plan reads it where no offer is kept."""

from __future__ import annotations

from stockroom.domain.studio import Supplier
from stockroom.store.open import Store
from stockroom.store.suppliers import all_suppliers


def last_suppliers(store: Store) -> dict[int, Supplier]:
    """Return by material the supplier of its newest lot, without those retired."""
    suppliers = {supplier.id: supplier for supplier in all_suppliers(store, retired=False)}
    rows = store.rows("SELECT material_id, supplier_id FROM lot WHERE supplier_id IS NOT NULL ORDER BY id")
    return {row["material_id"]: suppliers[row["supplier_id"]] for row in rows if row["supplier_id"] in suppliers}
