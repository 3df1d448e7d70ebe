"""Derive anew what is kept beside entries, facts and actions. Those themselves are never repaired."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from stockroom.store.ledger import LOT_FACTS
from stockroom.store.open import Store
from stockroom.store.verification import undone_by_actions

_BALANCE = ("quantity", "value", "base_quantity", "base_value")


def derive_anew(store: Store) -> Iterator[str]:
    """Put right every balance, every lot's standing and the list of what is undone; say each thing that was mended.

    Inside `write()`. What the entries themselves get wrong, such as less than nothing, stays as it is.
    """
    yield from _balances(store)
    yield from _lots(store)
    yield from _undone(store)


def _balances(store: Store) -> Iterator[str]:
    held = {row["id"]: (row["code"], [0, 0, 0, 0]) for row in store.rows("SELECT id, code FROM lot")}
    sql = "SELECT lot_id, quantity, value, effect FROM entry ORDER BY action_number, position"
    for row in store.rows(sql):
        if row["lot_id"] in held:
            balance = held[row["lot_id"]][1]
            balance[0] += row["quantity"]
            balance[1] += row["value"]
            if row["effect"] == "base":
                balance[2:] = balance[:2]
    kept = {row["lot_id"]: [row[name] for name in _BALANCE] for row in store.rows("SELECT * FROM balance")}
    for lot, (code, balance) in held.items():
        if kept.get(lot) == balance:
            continue
        if min(balance[:2]) < 0:
            continue
        store.run("DELETE FROM balance WHERE lot_id = :lot", lot=lot)
        store.run(
            "INSERT INTO balance (lot_id, quantity, value, base_quantity, base_value) "
            "VALUES (:lot, :quantity, :value, :base_quantity, :base_value)",
            lot=lot,
            **dict(zip(_BALANCE, balance, strict=True)),
        )
        yield f"{code}: the kept balance was {kept.get(lot)}, and is {balance} again, as its entries say."


def _lots(store: Store) -> Iterator[str]:
    facts = store.rows("SELECT lot_id, field, became FROM fact ORDER BY action_number, position")
    said = {(row["lot_id"], row["field"]): row["became"] for row in facts}
    for lot in store.rows("SELECT * FROM lot"):
        for field in LOT_FACTS:
            should = said.get((lot["id"], field), "on the shelf" if field == "state" else None)
            now = None if lot[field] is None else str(lot[field])
            if now == should:
                continue
            try:
                store.update("lot", lot["id"], **{field: should})
            except sqlite3.IntegrityError:
                continue
            yield f"{lot['code']}: its {field} was {now!r}, and is {should!r} again, as the actions say."


def _undone(store: Store) -> Iterator[str]:
    wanted = undone_by_actions(store)
    kept = {row["action_number"] for row in store.rows("SELECT action_number FROM undone")}
    codes = {row["number"]: row["code"] for row in store.rows("SELECT number, code FROM action")}
    for number in sorted(kept - wanted):
        store.run("DELETE FROM undone WHERE action_number = :number", number=number)
        yield f"{codes.get(number, number)} was kept as undone, and is in effect again."
    for number in sorted((wanted - kept) & codes.keys()):
        store.insert("undone", action_number=number)
        yield f"{codes[number]} is kept as undone again."
