"""Counts: what was counted, what the books said, and the difference as it stands now.

What lies before a count is told by the moment it happened and, within one moment, by the order in which it stands.
"""

from __future__ import annotations

from stockroom.domain.ledger import Count, Counted
from stockroom.store.open import Row, Store

_COUNT = (
    "SELECT counted.action_number, action.code, counted.lot_id, counted.day, counted.at, counted.quantity, "
    "counted.other_end, counted.reason FROM counted JOIN action ON action.number = counted.action_number"
)


def _count_of(row: Row) -> Count:
    return Count(
        action=row["action_number"],
        code=row["code"],
        lot=row["lot_id"],
        day=row["day"],
        at=row["at"],
        quantity=row["quantity"],
        loss_end=row["other_end"],
        reason=row["reason"],
    )


def counts_of_action(store: Store, number: int) -> list[Count]:
    """Return what an action counted."""
    rows = store.rows(f"{_COUNT} WHERE counted.action_number = :n ORDER BY counted.lot_id", n=number)
    return [_count_of(row) for row in rows]


def first_count_after(store: Store, lot_id: int, at: str, standing: int | None = None) -> Count | None:
    """Return the first count in effect of a lot after a moment.

    `standing` is the action in whose order something stands; without it, it stands after every count of its moment.
    """
    row = store.row(
        f"{_COUNT} WHERE counted.lot_id = :lot "
        "AND (counted.at > :at OR (counted.at = :at AND counted.action_number > :standing)) "
        "AND counted.action_number NOT IN (SELECT action_number FROM undone) "
        "ORDER BY counted.at, counted.action_number LIMIT 1",
        lot=lot_id,
        at=at,
        standing=standing,
    )
    return _count_of(row) if row else None


def count_difference(store: Store, lot_id: int, count_action: int) -> tuple[int, int]:
    """Return the quantity and value that a count's difference stands at, corrections included."""
    row = store.row(
        "SELECT coalesce(sum(quantity), 0) AS quantity, coalesce(sum(value), 0) AS value FROM entry "
        "WHERE lot_id = :lot AND count_action = :count",
        lot=lot_id,
        count=count_action,
    )
    return (int(row["quantity"]), int(row["value"])) if row else (0, 0)


def held_at(store: Store, lot_id: int, at: str, standing: int | None = None) -> int:
    """Return what the books say a lot held at a moment, by when things happened; below nothing where they err.

    With `standing`, of what lies in that very moment only what stands no later than that action counts.
    """
    row = store.row(
        "SELECT coalesce(sum(quantity), 0) AS held FROM entry WHERE lot_id = :lot "
        "AND (at < :at OR (at = :at AND (:standing IS NULL OR standing <= :standing)))",
        lot=lot_id,
        at=at,
        standing=standing,
    )
    return int(row["held"]) if row else 0


def was_here(store: Store, lot_id: int, at: str) -> bool:
    """Say whether a lot had come by a moment: whether it began or anything of it was booked for then or earlier."""
    sql = (
        "SELECT number FROM action JOIN lot ON lot.begun_by = action.number WHERE lot.id = :lot AND at <= :at "
        "UNION SELECT position FROM entry WHERE lot_id = :lot AND at <= :at LIMIT 1"
    )
    return store.row(sql, lot=lot_id, at=at) is not None


def insert_count(store: Store, number: int, counted: Counted, books_said: int) -> None:
    """Keep what was counted and what the books said."""
    store.insert(
        "counted",
        action_number=number,
        lot_id=counted.lot,
        at=counted.at,
        day=counted.day,
        quantity=counted.quantity,
        books_said=books_said,
        method=counted.method,
        other_end=counted.other_end,
        reason=counted.reason,
    )
