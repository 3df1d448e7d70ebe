"""Sums of value that reports of cost need: into a lot, wasted of each, and apart from a closed job."""

from __future__ import annotations

from stockroom.store.open import Store


def value_into(store: Store, lot_id: int) -> dict[int, int]:
    """Return the value that other lots gave to one, less what each got back from it; only what is above nothing."""
    rows = store.rows(
        "SELECT lot_id, -sum(value) AS value FROM entry WHERE other_lot_id = :lot GROUP BY lot_id ORDER BY lot_id",
        lot=lot_id,
    )
    return {row["lot_id"]: row["value"] for row in rows if row["value"] > 0}


def apart_from_job(store: Store, job_id: int) -> int:
    """Return what would have changed a job's figure after it was closed, and stands as a difference instead."""
    row = store.row(
        "SELECT coalesce(-sum(entry.value), 0) AS value FROM entry JOIN entry AS drawn "
        "ON drawn.action_number = entry.refers_action AND drawn.position = entry.refers_position "
        "WHERE entry.other_end = 'difference' AND drawn.job_id = :job",
        job=job_id,
    )
    return int(row["value"]) if row else 0


def wasted_by_lot(store: Store) -> dict[int, tuple[int, int]]:
    """Return the quantity and value of each lot that went to waste, net of what was reversed."""
    rows = store.rows(
        "SELECT lot_id, -sum(quantity) AS quantity, -sum(value) AS value FROM entry WHERE other_end = 'waste' "
        "GROUP BY lot_id ORDER BY lot_id"
    )
    return {row["lot_id"]: (row["quantity"], row["value"]) for row in rows if row["quantity"] or row["value"]}
