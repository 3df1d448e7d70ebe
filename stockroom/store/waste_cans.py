"""Waste cans, as stored."""

from __future__ import annotations

from stockroom.domain.waste import Poured, WasteCan
from stockroom.errors import BadInput, NotFound, Unreadable
from stockroom.science.quantities import Dimension, Quantity
from stockroom.store.fold import fold
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.open import Store


def add_waste_can(store: Store, lot_id: int, title: str, capacity: Quantity, *, vented: bool) -> None:
    """Keep what a can is, beside its lot; inside `write()`."""
    store.insert(
        "waste_can", lot_id=lot_id, title=title, capacity_ul=capacity.quanta, vented="vented" if vented else "closed"
    )


def waste_cans(store: Store, *, ended: bool = False) -> list[WasteCan]:
    """Return the cans in use, oldest first; those that have ended too where asked for."""
    rows = store.rows("SELECT lot_id, capacity_ul FROM waste_can ORDER BY lot_id")
    cans = [_can(store, row["lot_id"], row["capacity_ul"]) for row in rows]
    return [can for can in cans if ended or not can.lot.ended]


def _can(store: Store, lot_id: int, capacity_ul: int) -> WasteCan:
    return WasteCan(lot=lot_by_id(store, lot_id), capacity=Quantity(Dimension.VOLUME, capacity_ul))


def find_waste_can(store: Store, typed: str) -> WasteCan:
    """Find a can by its code, or one in use by an unambiguous part of what is written on it.

    Raises NotFound naming the cans in use, BadInput for words that fit several or a lot that is no can.
    """
    wanted = fold(typed)
    cans = waste_cans(store)
    exact = [can for can in cans if wanted == fold(can.lot.material.name)]
    named = exact or [can for can in cans if wanted and wanted in fold(can.lot.material.name)]
    if len(named) == 1:
        return named[0]
    there = ", ".join(f"{can.lot.code} {can.lot.material.name}" for can in cans) or "none yet"
    if named:
        raise BadInput(f"'{typed}' fits several waste cans. Say the code: {there}.")
    try:
        lot = find_lot(store, typed)
    except (NotFound, Unreadable) as trouble:
        raise NotFound(
            f"'{typed}' is not a waste can. In use: {there}. Begin one with "
            '\'stockroom waste-can new "Alcohol waste" --capacity "5 L"\'.'
        ) from trouble
    row = store.row("SELECT capacity_ul FROM waste_can WHERE lot_id = :lot", lot=lot.id)
    if row is None:
        raise BadInput(f"{lot.code} ({lot.material.name}) is not a waste can. In use: {there}.")
    return _can(store, lot.id, row["capacity_ul"])


def poured_into(store: Store, can: WasteCan) -> list[Poured]:
    """Return what was poured into a can and stands, in order of booking."""
    rows = store.rows(
        "SELECT action.code, action.day, action.initials, action.reason, drawn.lot_id, "
        "-drawn.quantity AS quantity, entry.quantity AS takes_up FROM entry "
        "JOIN action ON action.number = entry.action_number AND action.kind = 'discard' "
        "JOIN entry AS drawn ON drawn.action_number = entry.action_number AND drawn.effect = 'draw' "
        "AND drawn.count_action IS NULL AND drawn.lot_id <> entry.lot_id "
        "WHERE entry.lot_id = :lot AND entry.quantity > 0 AND entry.count_action IS NULL "
        "AND entry.quantity + coalesce((SELECT sum(back.quantity) FROM entry AS back "
        "WHERE back.refers_action = entry.action_number AND back.refers_position = entry.position), 0) > 0 "
        "ORDER BY entry.action_number",
        lot=can.lot.id,
    )
    found = []
    for row in rows:
        lot = lot_by_id(store, row["lot_id"])
        found.append(
            Poured(
                action=row["code"],
                day=row["day"],
                by=row["initials"],
                why=row["reason"],
                lot=lot,
                quantity=lot.material.quantity(row["quantity"]),
                takes_up=Quantity(Dimension.VOLUME, row["takes_up"]),
            )
        )
    return found
