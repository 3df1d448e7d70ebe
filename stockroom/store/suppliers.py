"""Suppliers, as stored."""

from __future__ import annotations

from stockroom.domain.studio import Supplier
from stockroom.errors import BadInput
from stockroom.store.fold import fold
from stockroom.store.open import Store


def all_suppliers(store: Store) -> list[Supplier]:
    rows = store.rows("SELECT * FROM supplier ORDER BY name")
    return [Supplier(**{name: row[name] for name in Supplier.__dataclass_fields__}) for row in rows]


def supplier_named(store: Store, name: str) -> int:
    """Return the id of the supplier of that name, adding it where it is new; inside `write()`. Raises BadInput."""
    wanted = fold(name)
    if not wanted:
        raise BadInput("A supplier needs a name.")
    for supplier in all_suppliers(store):
        if fold(supplier.name) == wanted or supplier.key == wanted:
            return supplier.id
    return store.run("INSERT INTO supplier (key, name) VALUES (:key, :name)", key=wanted, name=name.strip())
