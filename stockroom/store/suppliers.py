"""Suppliers, as stored."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.lots import Lot
from stockroom.domain.studio import Supplier
from stockroom.errors import BadInput
from stockroom.store.finding import columns_of, find_named, names_of, refuse_taken_name
from stockroom.store.fold import fold
from stockroom.store.open import Row, Store


def supplier_of(row: Row, prefix: str = "") -> Supplier:
    """Build a supplier from its row; `prefix` stands before the column names of a join."""
    return Supplier(**{name: row[prefix + name] for name in Supplier.__dataclass_fields__})


def all_suppliers(store: Store, *, retired: bool = True) -> list[Supplier]:
    rows = store.rows("SELECT * FROM supplier ORDER BY name")
    return [supplier_of(row) for row in rows if retired or row["retired_on"] is None]


def find_supplier(store: Store, words: str, *, retired: bool = False) -> Supplier:
    """Find a supplier by name or an unambiguous part. Raises NotFound listing those there are."""
    return find_named(words, all_suppliers(store, retired=retired), "supplier", "stockroom supplier new NAME")


def supplier_named(store: Store, name: str) -> int:
    """Return the id of the supplier of that name, adding it where it is new; inside `write()`. Raises BadInput."""
    wanted = fold(name)
    if not wanted:
        raise BadInput("A supplier needs a name.")
    for supplier in all_suppliers(store):
        if wanted in names_of(supplier):
            return supplier.id
    return store.insert("supplier", key=wanted, name=name.strip())


def add_supplier(store: Store, supplier: Supplier) -> int:
    """Insert a supplier; inside `write()`. Raises AlreadyExists when its name is taken."""
    refuse_taken_name(supplier.name, supplier.id, all_suppliers(store), "supplier")
    return store.insert("supplier", **{**columns_of(supplier), "key": fold(supplier.name)})


def change_supplier(store: Store, supplier: Supplier) -> None:
    """Store a changed supplier; its key stays. Raises AlreadyExists when another has its name."""
    refuse_taken_name(supplier.name, supplier.id, all_suppliers(store), "supplier")
    store.update("supplier", supplier.id, **columns_of(supplier))


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtFrom:
    """From whom a lot came: a supplier's name, and the code of the order; None where not known."""

    supplier: str | None = None
    order: str | None = None

    @property
    def words(self) -> str | None:
        return f"{self.supplier} (order {self.order})" if self.order else self.supplier


NOT_BOUGHT = BoughtFrom()


def bought_from(store: Store, lot: Lot) -> BoughtFrom:
    """Return from whom a lot came."""
    row = store.row(
        "SELECT supplier.name AS supplier, purchase_order.code AS code FROM supplier, action "
        "LEFT JOIN purchase_order ON purchase_order.id = action.order_id "
        "WHERE supplier.id = :supplier AND action.number = :action",
        supplier=lot.supplier_id,
        action=lot.begun_by,
    )
    return BoughtFrom(supplier=row["supplier"], order=row["code"]) if row else NOT_BOUGHT
