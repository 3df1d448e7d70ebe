"""Lots with their material, place and balance, as stored."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from stockroom.domain.lots import Balance, Lot
from stockroom.errors import BadInput, NotFound
from stockroom.store.fold import fold, holds, words_to_find
from stockroom.store.materials import COLUMNS, material_of
from stockroom.store.open import Row, Store

_PLAIN = (
    "id", "code", "kind", "begun_by", "supplier_id", "job_id", "maker_lot", "maker_use_by", "made_at", "received_on",
    "purity", "length_um", "width_um", "grain", "life_closed", "life_opened", "own_use_by", "initials", "place_id",
    "opened_on", "use_by", "use_by_rule", "check_by", "ready_on", "strength", "state", "ended_on", "ended_why", "unfit",
    "look_for",
)  # fmt: skip

_LOT = (
    "SELECT "
    + ", ".join(f"lot.{name}" for name in (*_PLAIN, "cost_known", "about", "over_solid"))
    + ", "
    + ", ".join(f"material.{name} AS m_{name}" for name in COLUMNS)
    + ", material.folded AS m_folded, place.name AS place, balance.quantity AS b_quantity, balance.value AS b_value, "
    "balance.base_quantity AS b_base_quantity, balance.base_value AS b_base_value, "
    "waste_can.title AS can_title, waste_can.vented AS can_vented "
    "FROM lot JOIN material ON material.id = lot.material_id JOIN balance ON balance.lot_id = lot.id "
    "LEFT JOIN place ON place.id = lot.place_id LEFT JOIN waste_can ON waste_can.lot_id = lot.id"
)

# the states are named so that their index serves: lots that have ended become many more than the others
_ON_SHELF = "WHERE lot.state IN ('on the shelf', 'solid only') ORDER BY material.name, lot.use_by, lot.id"


def lot_of(row: Row) -> Lot:
    """Build a lot from its row. A waste can is named by what is written on it."""
    material = material_of(row, "m_")
    if row["can_title"] is not None:
        material = replace(material, name=row["can_title"], vented=row["can_vented"] == "vented")
    return Lot(
        **{name: row[name] for name in _PLAIN},
        material=material,
        place=row["place"],
        cost_known=row["cost_known"] == "known",
        about=row["about"] == "about",
        over_solid=row["over_solid"] == "over solid",
        balance=Balance(
            quantity=row["b_quantity"],
            value=row["b_value"],
            base_quantity=row["b_base_quantity"],
            base_value=row["b_base_value"],
        ),
    )


def lot_by_id(store: Store, lot_id: int) -> Lot:
    row = store.row(f"{_LOT} WHERE lot.id = :id", id=lot_id)
    if row is None:
        raise LookupError(lot_id)
    return lot_of(row)


def lot_with_code(store: Store, code: str) -> Lot | None:
    """Return the lot of a code as it is stored, or None."""
    row = store.row(f"{_LOT} WHERE lot.code = :code", code=code)
    return lot_of(row) if row else None


def find_lot(store: Store, typed: str) -> Lot:
    """Find a lot by its typed code; case, spaces and look-alike letters are forgiven.

    Raises Unreadable for a mistyped code, NotFound for one that this stockroom never gave out.
    """
    from stockroom.domain.codes import read_code

    code = read_code(typed)
    found = lot_with_code(store, code.text)
    if found is not None:
        return found
    if code.prefix != "L":
        raise NotFound(f"{code.text} is not the code of a lot. Codes of lots begin with L.", code=code.text)
    from stockroom.store.codes import why_unknown

    why = why_unknown(store, code) or f"No lot has the code {code.text}."
    raise NotFound(why, code=code.text)


def lots_like(store: Store, typed: str) -> list[Lot]:
    """Return the lots whose code could be what was typed with `?`, by place; those that have ended come last."""
    from stockroom.domain.codes import could_be

    fitting = [row["id"] for row in store.rows("SELECT id, code FROM lot") if could_be(typed, row["code"])]
    return sorted((lot_by_id(store, lot) for lot in fitting), key=lambda one: (one.ended, one.place or "", one.code))


def all_lots(store: Store) -> list[Lot]:
    """Return every lot there ever was, ended ones too."""
    return [lot_of(row) for row in store.rows(f"{_LOT} ORDER BY lot.id")]


def lots_of_materials(store: Store, material_ids: Iterable[int]) -> list[Lot]:
    """Return the lots of some materials that have not ended."""
    found: list[Lot] = []
    for material_id in sorted(set(material_ids)):
        rows = store.rows(f"{_LOT} WHERE lot.material_id = :id AND lot.state <> 'ended'", id=material_id)
        found += [lot_of(row) for row in rows]
    return found


class ShelfSearch:
    """Finds what is on the shelf by words; kept, it reads what is searched once as long as nothing is changed."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._revision: object = None
        self._texts: list[tuple[int, str]] = []

    def find(self, words: str) -> list[int]:
        """Return the ids of the lots whose material, code, place, maker's lot or strength hold every word."""
        revision = None if self._store.connection.in_transaction else self._store.revision()
        if revision is None or revision != self._revision:
            self._texts, self._revision = _searched(self._store), revision
        wanted = words_to_find(words)
        return [lot_id for lot_id, text in self._texts if holds(text, wanted)]


def _searched(store: Store) -> list[tuple[int, str]]:
    """Return the lots on the shelf in order, each with its folded words."""
    rows = store.rows(
        "SELECT lot.id, material.folded, lot.code, lot.kind, lot.maker_lot, lot.strength, place.name, waste_can.title "
        "FROM lot JOIN material ON material.id = lot.material_id "
        "LEFT JOIN place ON place.id = lot.place_id LEFT JOIN waste_can ON waste_can.lot_id = lot.id "
        f"{_ON_SHELF}"
    )
    return [(lot_id, f"{folded} {fold(' '.join(filter(None, own)))}") for lot_id, folded, *own in rows]


def shelf(store: Store, words: str = "", *, limit: int | None = None) -> list[Lot]:
    """Return the lots on the shelf whose material, code, place, maker's lot or strength hold every word."""
    if words.strip():
        return lots_in_order(store, ShelfSearch(store).find(words)[:limit])
    return [lot_of(row) for row in store.rows(f"{_LOT} {_ON_SHELF}")[:limit]]


def any_lot(store: Store) -> bool:
    """Say whether there ever was a lot here."""
    return store.row("SELECT 1 FROM lot LIMIT 1") is not None


def lots_in_order(store: Store, ids: Sequence[int]) -> list[Lot]:
    """Return the lots of some ids in their order."""
    if not ids:
        return []
    place = {lot_id: index for index, lot_id in enumerate(ids)}
    rows = store.rows(f"{_LOT} WHERE lot.id IN ({', '.join(map(str, ids))})")
    return sorted(map(lot_of, rows), key=lambda lot: place[lot.id])


def lots_at(store: Store, place_id: int) -> list[Lot]:
    """Return the lots kept at a place that have not ended."""
    rows = store.rows(f"{_LOT} WHERE lot.place_id = :place AND lot.state <> 'ended' ORDER BY lot.id", place=place_id)
    return [lot_of(row) for row in rows]


def lots_begun_by(store: Store, action: int) -> list[Lot]:
    """Return the lots that an action began."""
    return [lot_of(row) for row in store.rows(f"{_LOT} WHERE lot.begun_by = :n ORDER BY lot.id", n=action)]


def lots_of_maker(store: Store, number: str, material: str | None = None) -> list[Lot]:
    """Return every lot, ended ones too, with a maker's lot number; case and spaces are forgiven.

    Raises NotFound where there is none, BadInput where several materials have it and none is named.
    """
    from stockroom.store.materials import find_material

    wanted = fold(number)
    rows = store.rows("SELECT id, maker_lot FROM lot WHERE maker_lot IS NOT NULL")
    found = [lot_by_id(store, row["id"]) for row in rows if fold(row["maker_lot"]) == wanted]
    found.sort(key=lambda lot: lot.id)
    if material is not None:
        only = find_material(store, material).id
        found = [lot for lot in found if lot.material.id == only]
    if not found:
        raise NotFound(f"No lot has the maker's lot number '{number}'. 'stockroom shelf WORDS' finds what is there.")
    materials = ", ".join(dict.fromkeys(lot.material.key for lot in found))
    if "," in materials:
        raise BadInput(f"Several materials have the maker's lot number '{number}'. Say --material: {materials}.")
    return found
