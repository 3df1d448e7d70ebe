"""What booked treatments were expected to cost, as stored; plans, never entries of the ledger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptEstimate:
    """One line of what a booking was expected to take, and cost."""

    material_id: int
    lot_id: int | None
    quantity: int
    value: int | None
    complete: bool
    priced_by: str


def keep_estimate(store: Store, booking_id: int, lines: Sequence[KeptEstimate]) -> None:
    """Keep what a booking is expected to cost, in place of what was kept before; inside `write()`."""
    store.run("DELETE FROM booking_estimate WHERE booking_id = :booking", booking=booking_id)
    for position, line in enumerate(lines, 1):
        store.insert(
            "booking_estimate",
            booking_id=booking_id,
            position=position,
            material_id=line.material_id,
            lot_id=line.lot_id,
            quantity=line.quantity,
            value=line.value,
            cost_known="known" if line.complete else "unknown",
            priced_by=line.priced_by,
        )


def kept_estimate(store: Store, booking_id: int) -> list[KeptEstimate]:
    """Return what was kept of a booking; nothing where it could not be worked out."""
    rows = store.rows(
        "SELECT * FROM booking_estimate WHERE booking_id = :booking ORDER BY position", booking=booking_id
    )
    return [
        KeptEstimate(
            material_id=row["material_id"],
            lot_id=row["lot_id"],
            quantity=row["quantity"],
            value=row["value"],
            complete=row["cost_known"] == "known",
            priced_by=row["priced_by"],
        )
        for row in rows
    ]


def was_quoted(store: Store, job_id: int) -> bool:
    """Say whether a quote was given for a job."""
    return store.row("SELECT id FROM quote WHERE job_id = :job LIMIT 1", job=job_id) is not None
