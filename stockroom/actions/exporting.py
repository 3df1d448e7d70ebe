"""Write tables to files: what can be taken in again, and what the books say line by line."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from zoneinfo import ZoneInfo

from stockroom.actions import exchange_rows as written
from stockroom.domain.lots import Lot
from stockroom.exchange.files import form_of, laid_out
from stockroom.exchange.layouts import LAYOUTS
from stockroom.exchange.sheet import Column, Table
from stockroom.files import write_file
from stockroom.science.money import minor_digits
from stockroom.store.exchange import begun_at, every_count
from stockroom.store.lots import shelf
from stockroom.store.materials import all_materials
from stockroom.store.offers import all_offers
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import all_people, all_places
from stockroom.store.suppliers import all_suppliers

_MONEY = ("cost", "price", "value", "minimum_order", "estimate", "total")


def exported(store: Store, name: str) -> Table:
    """Return one of the tables that can be taken in again. Raises BadInput for another name."""
    layout, zone, currency = LAYOUTS[name], ZoneInfo(setting(store, "time_zone")), setting(store, "currency")
    rows: Sequence[Mapping[str, str | None]] = _ROWS[name](store, currency, zone)
    return Table(
        name=name,
        columns=tuple(typed_column(column, currency) for column in layout.columns),
        rows=tuple(tuple(row[column] for column in layout.names) for row in rows),
    )


def lots_left_out(store: Store) -> list[str]:
    """Return the codes of the lots on the shelf that no table brings anew: see TAKEN_IN_KINDS; jars of solid only."""
    return [lot.code for lot in shelf(store) if not _is_taken_in(lot)]


def _is_taken_in(lot: Lot) -> bool:
    return lot.kind in written.TAKEN_IN_KINDS and lot.balance.quantity > 0


def typed_column(column: Column, currency: str) -> Column:
    """Give a column of money its currency's decimals."""
    if column.name not in _MONEY:
        return column
    return replace(column, number=True, decimals=minor_digits(currency))


Rows = Callable[[Store, str, ZoneInfo], list[dict[str, str | None]]]


def _lots(store: Store, currency: str, zone: ZoneInfo) -> list[dict[str, str | None]]:
    begun = begun_at(store)
    names = {supplier.id: supplier.name for supplier in all_suppliers(store)}
    return [
        written.lot_cells(
            lot,
            supplier=names.get(lot.supplier_id) if lot.supplier_id else None,
            begun=begun[lot.id],
            currency=currency,
            zone=zone,
        )
        for lot in sorted(shelf(store), key=lambda one: one.id)
        if _is_taken_in(lot)
    ]


_ROWS: dict[str, Rows] = {
    "materials": lambda store, currency, zone: [
        written.material_cells(one) for one in all_materials(store, retired=True)
    ],
    "suppliers": lambda store, currency, zone: [written.supplier_cells(one, currency) for one in all_suppliers(store)],
    "places": lambda store, currency, zone: [written.place_cells(one) for one in all_places(store, retired=True)],
    "people": lambda store, currency, zone: [written.person_cells(one) for one in all_people(store)],
    # in the order in which they were kept, so that each finds what it was kept after
    "offers": lambda store, currency, zone: [
        written.offer_cells(one) for one in sorted(all_offers(store), key=lambda one: one.id)
    ],
    "lots": _lots,
    "counts": lambda store, currency, zone: [
        written.count_cells(row, zone) for row in every_count(store) if row["stands"] == "yes"
    ],
}


def write_table(
    table: Table, path: Path, *, replacing: bool = False, mark: bool = False, explained: bool = False
) -> None:
    """Write a table to a file, whole or not at all, in the form that its name's ending says.

    Raises AlreadyExists for a file that is there, unless it is to be replaced; BadInput for a folder that is not.
    """
    form = form_of(path)
    write_file(path, laid_out(table, form, mark=mark, explained=explained), replace=replacing)
