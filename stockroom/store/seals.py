"""Seals: one row an action, each over the one before, so that a change behind the program's back shows.

Form 1 of the text that is sealed: one JSON object, keys sorted, no white space, UTF-8, with the stored columns of the
action (without its seal) under "action" and, in order of position or id, those of what belongs to it under "objects",
"lots" (only what never changes), "facts", "entries", "counted", "checks" and "loans". The hash is SHA-256 over the
previous hash (64 zeros at the start), a line feed and that text, in hexadecimal.

A later form that covers more columns gets its own number; seals are never made anew.
"""

from __future__ import annotations

import json

from stockroom.errors import DatabaseUnusable
from stockroom.store.open import Store

FORM = 1
FIRST = "0" * 64

_PARTS: dict[str, str] = {
    "objects": "SELECT object_id FROM action_object WHERE action_number = :n ORDER BY object_id",
    "lots": "SELECT id, code, material_id, kind, supplier_id, job_id, maker_lot, maker_use_by, made_at, received_on, "
    "purity, cost_known, about, over_solid, length_um, width_um, grain, life_closed, life_opened, own_use_by, "
    "initials FROM lot WHERE begun_by = :n ORDER BY id",
    "facts": "SELECT position, lot_id, field, was, became FROM fact WHERE action_number = :n ORDER BY position",
    "entries": "SELECT position, lot_id, quantity, value, other_end, other_lot_id, job_id, reason, effect, day, at, "
    "standing, reverses_action, reverses_position, refers_action, refers_position, count_action FROM entry "
    "WHERE action_number = :n ORDER BY position",
    "counted": "SELECT lot_id, at, day, quantity, books_said, method, other_end, reason FROM counted "
    "WHERE action_number = :n ORDER BY lot_id",
    "checks": "SELECT lot_id, method, readings, verdict, why FROM jar_check WHERE action_number = :n ORDER BY lot_id",
    "loans": "SELECT to_whom, back_on FROM loan WHERE action_number = :n",
}

_ACTION = (
    "SELECT number, code, kind, day, at, booked_at, initials, reason, job_id, version_id, booking_id, order_id, "
    "undoes, details FROM action WHERE number = :n"
)


def sealed_text(store: Store, number: int) -> str:
    """Return the text of an action that its seal covers."""
    action = store.row(_ACTION, n=number)
    if action is None:
        raise LookupError(number)
    form: dict[str, object] = {"action": dict(action)}
    for part, sql in _PARTS.items():
        form[part] = [dict(row) for row in store.rows(sql, n=number)]
    return json.dumps(form, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def hash_of(previous: str, text: str) -> str:
    """Return the seal over the previous seal and an action's text."""
    from hashlib import sha256

    # surrogates cannot be typed through a terminal, but a file may hold them; they must not stop the books
    return sha256(f"{previous}\n{text}".encode("utf-8", "surrogatepass")).hexdigest()


def last_seal(store: Store) -> str:
    """Return the newest seal; what a backup prints so that it is evidence."""
    row = store.row("SELECT hash FROM seal ORDER BY action_number DESC LIMIT 1")
    return str(row["hash"]) if row else FIRST


def first_seal(store: Store) -> str:
    """Return the oldest seal, by which a stockroom and its copies are known from any other one."""
    row = store.row("SELECT hash FROM seal ORDER BY action_number LIMIT 1")
    return str(row["hash"]) if row else FIRST


def number_sealed(store: Store) -> int:
    """Return the number of the newest sealed action; 0 before the first."""
    row = store.row("SELECT max(action_number) AS number FROM seal")
    return int(row["number"] or 0) if row else 0


def count_sealed(store: Store) -> int:
    """Return how many actions are sealed."""
    row = store.row("SELECT count(*) AS number FROM seal")
    return int(row["number"]) if row else 0


def action_of_seal(store: Store, sealed: str) -> str | None:
    """Return the code of the action that has a seal; an empty text for the seal of a stockroom without actions."""
    if sealed == FIRST:
        return ""
    row = store.row(
        "SELECT action.code FROM seal JOIN action ON action.number = seal.action_number WHERE seal.hash = :hash",
        hash=sealed,
    )
    return str(row["code"]) if row else None


def seal(store: Store, number: int) -> None:
    """Seal a complete action; nothing can be added to it afterwards.

    Raises DatabaseUnusable where the action before it was never sealed, as in a file whose journal was taken away.
    """
    before = store.row("SELECT max(number) AS number FROM action WHERE number < :number", number=number)
    if before is not None and (before["number"] or 0) != number_sealed(store):
        raise DatabaseUnusable(
            f"{store.path} is damaged: its last action is not whole. Nothing was changed; restore the latest copy.",
            why="damaged",
        )
    previous = last_seal(store)
    store.insert(
        "seal", action_number=number, form=FORM, previous=previous, hash=hash_of(previous, sealed_text(store, number))
    )
