"""What a person began and has not ended: loans that are not back, rounds of counting that are not confirmed."""

from __future__ import annotations

from stockroom.domain.edits import LeftOpen
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.open import Store

_LOANS = """
    SELECT action.code AS code, loan.to_whom AS to_whom, loan.back_on AS back_on, lot.code AS lot,
        material.name AS material, material.dimension AS dimension,
        -(sum(entry.quantity) + coalesce((
            SELECT sum(back.quantity) FROM entry AS back
            WHERE back.refers_action = action.number AND back.lot_id = entry.lot_id
        ), 0)) AS lent
    FROM loan
    JOIN action ON action.number = loan.action_number
    JOIN entry ON entry.action_number = action.number AND entry.effect = 'draw'
    JOIN lot ON lot.id = entry.lot_id
    JOIN material ON material.id = lot.material_id
    -- named so that a planner without statistics begins with the few loans, not with every entry
    WHERE entry.action_number IN (SELECT action_number FROM loan)
    AND (:initials IS NULL OR action.initials = :initials) AND (:job IS NULL OR action.job_id = :job)
    AND action.number NOT IN (SELECT action_number FROM undone)
    GROUP BY action.number, action.code, loan.to_whom, loan.back_on, entry.lot_id, lot.code, material.name,
        material.dimension
    ORDER BY action.number
"""

_ROUNDS = (
    "SELECT round.code AS code, round.begun_at AS begun_at, place.name AS place FROM round "
    "JOIN place ON place.id = round.place_id WHERE round.initials = :initials AND round.state = 'open' "
    "ORDER BY round.id"
)


def left_open(store: Store, initials: str) -> list[LeftOpen]:
    """Return what is left open by one person, loans first, oldest first."""
    rounds = [
        LeftOpen(kind="stock-take", code=row["code"], words=f"{row['place']}, begun {row['begun_at'][:10]}")
        for row in store.rows(_ROUNDS, initials=initials)
    ]
    return loans_out(store, initials=initials) + rounds


def loans_out(store: Store, *, initials: str | None = None, job_id: int | None = None) -> list[LeftOpen]:
    """Return the loans that are not back, oldest first: all of them, one person's, or one job's."""
    return [
        LeftOpen(
            kind="loan",
            code=row["code"],
            words=f"{show(Quantity(Dimension(row['dimension']), row['lent']))} of {row['material']} ({row['lot']}) "
            f"lent to {row['to_whom']}",
            by=row["back_on"],
            lot=row["lot"],
        )
        for row in store.rows(_LOANS, initials=initials, job=job_id)
        if row["lent"] > 0
    ]


def has_open_bookings(store: Store) -> bool:
    """Say whether any treatment is booked and neither done nor cancelled."""
    return store.row("SELECT id FROM booking WHERE state = 'booked' LIMIT 1") is not None


def has_register(store: Store) -> bool:
    """Say whether any material is under a register."""
    return store.row("SELECT id FROM material WHERE register = 'under a register' LIMIT 1") is not None
