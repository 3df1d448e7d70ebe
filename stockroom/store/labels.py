"""Label stocks, measured printers, labels that were made, and bench cards, as stored."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from stockroom.domain.labels import Card, LabelMade, LabelStock, Printer
from stockroom.errors import NotFound
from stockroom.store.finding import columns_of, find_named, refuse_taken_name
from stockroom.store.open import Row, Store

_PRINTER = tuple(Printer.__dataclass_fields__)


def add_label_stock(store: Store, stock: LabelStock) -> None:
    """Insert a label stock. Raises AlreadyExists when its name is taken."""
    refuse_taken_name(stock.name, stock.id, all_label_stocks(store, retired=True), "label stock")
    store.insert("label_stock", **columns_of(stock))


def all_label_stocks(store: Store, *, retired: bool = False) -> list[LabelStock]:
    rows = store.rows("SELECT * FROM label_stock ORDER BY name")
    return [LabelStock(**dict(row)) for row in rows if retired or row["retired_on"] is None]


def find_label_stock(store: Store, words: str, *, retired: bool = False) -> LabelStock:
    """Find a label stock by name or an unambiguous part. Raises NotFound listing what there is."""
    stocks = all_label_stocks(store, retired=retired)
    return find_named(words, stocks, "label stock", "stockroom label-stock new NAME --label SIZE")


def change_label_stock(store: Store, stock: LabelStock) -> None:
    """Store a changed label stock. Raises AlreadyExists when another has its name."""
    refuse_taken_name(stock.name, stock.id, all_label_stocks(store, retired=True), "label stock")
    store.update("label_stock", stock.id, **columns_of(stock))


def keep_printer(store: Store, printer: Printer) -> None:
    """Keep what was measured of a printer, in place of what was measured before."""
    store.run(
        f"INSERT INTO printer ({', '.join(_PRINTER)}) VALUES ({', '.join(f':{name}' for name in _PRINTER)}) "
        f"ON CONFLICT (name) DO UPDATE SET {', '.join(f'{name} = excluded.{name}' for name in _PRINTER[1:])}",
        **asdict(printer),
    )


def all_printers(store: Store) -> list[Printer]:
    return [Printer(**dict(row)) for row in store.rows("SELECT * FROM printer ORDER BY name")]


def forget_printer(store: Store, name: str) -> None:
    store.run("DELETE FROM printer WHERE name = :name", name=name)


def add_label_made(store: Store, lot_id: int, fields: Mapping[str, Any], said: Mapping[str, Any]) -> None:
    """Keep that a label was made: when, by whom, how many, and what it said; inside `write()`."""
    store.run(
        "INSERT INTO label_made (lot_id, at, day, booked_at, initials, after_action, copies, way, said) "
        "VALUES (:lot, :at, :day, :booked_at, :initials, (SELECT coalesce(max(number), 0) FROM action), :copies, :way, "
        ":said)",
        lot=lot_id,
        said=json.dumps(said, ensure_ascii=False),
        **fields,
    )


def labels_made(store: Store, lot_id: int) -> list[LabelMade]:
    """Return the labels made of a lot, the newest first."""
    rows = store.rows("SELECT * FROM label_made WHERE lot_id = :lot ORDER BY id DESC", lot=lot_id)
    return [_label_made_of(row) for row in rows]


def lots_with_labels(store: Store) -> list[int]:
    """Return the lots not ended of which a label was made."""
    rows = store.rows(
        "SELECT DISTINCT lot.id AS id FROM lot JOIN label_made ON label_made.lot_id = lot.id "
        "WHERE lot.state <> 'ended' ORDER BY lot.id"
    )
    return [int(row["id"]) for row in rows]


def _label_made_of(row: Row) -> LabelMade:
    names = ("lot_id", "at", "day", "initials", "after_action", "copies", "way")
    return LabelMade(**{name: row[name] for name in names}, said=json.loads(row["said"]))


def solvent_of_lot(store: Store, lot_id: int) -> str | None:
    """Return what a solution was made up with, by the recipe it was made by, where that is not water."""
    row = store.row(
        "SELECT material.name AS name FROM lot JOIN action ON action.number = lot.begun_by "
        "JOIN recipe_line ON recipe_line.version_id = action.version_id AND recipe_line.kind = 'make up' "
        "JOIN material ON material.id = recipe_line.material_id WHERE lot.id = :lot AND material.kind <> 'water'",
        lot=lot_id,
    )
    return str(row["name"]) if row else None


def add_card(store: Store, code: str, version_id: int, quantity: str | None, made_at: str, by: str | None) -> None:
    store.insert("card", code=code, version_id=version_id, quantity=quantity, made_at=made_at, initials=by)


def find_card(store: Store, code: str) -> Card:
    """Find a bench card by its code as it is stored. Raises NotFound."""
    row = store.row(
        "SELECT card.code, card.quantity, card.made_at, card.initials, recipe.key AS recipe_key, "
        "recipe.name AS recipe_name, recipe.kind AS recipe_kind, version.number AS version, "
        "(SELECT max(number) FROM recipe_version WHERE recipe_id = recipe.id) AS version_now FROM card "
        "JOIN recipe_version AS version ON version.id = card.version_id "
        "JOIN recipe ON recipe.id = version.recipe_id WHERE card.code = :code",
        code=code,
    )
    if row is None:
        raise NotFound(f"There is no bench card {code} in this stockroom.", code=code)
    return Card(**dict(row))
