"""Materials under a register: every entry of their lots in order of the days, and losses that nobody explained."""

from __future__ import annotations

from stockroom.domain.registers import Explained, UnexplainedLoss
from stockroom.science.quantities import Dimension, Quantity
from stockroom.store.open import Row, Store
from stockroom.store.stockroom_settings import local_day

_NO_EXPLANATION = ("unknown", "stock-take")
"""Reasons of a count that explain nothing: what a person may give, and what a round is kept with without one."""


def entries_of_material(store: Store, material_id: int, until: str) -> list[Row]:
    """Return what each action did to each lot of a material up to a day, in order of the days.

    Rows have day, kind, code, initials, reason, lot, quantity, end_reason, other_end, other_lot, job, undoes, supplier,
    maker_lot.
    """
    return store.rows(
        "SELECT entry.day AS day, action.kind AS kind, action.code AS code, action.initials AS initials, "
        "action.reason AS reason, lot.code AS lot, sum(entry.quantity) AS quantity, max(entry.reason) AS end_reason, "
        "max(entry.other_end) AS other_end, max(other.code) AS other_lot, max(job.code) AS job, "
        "max(undone_action.code) AS undoes, max(supplier.name) AS supplier, max(lot.maker_lot) AS maker_lot "
        "FROM entry JOIN lot ON lot.id = entry.lot_id JOIN action ON action.number = entry.action_number "
        "LEFT JOIN action AS undone_action ON undone_action.number = action.undoes "
        "LEFT JOIN supplier ON supplier.id = lot.supplier_id AND entry.other_end = 'supplier' "
        "LEFT JOIN lot AS other ON other.id = entry.other_lot_id LEFT JOIN job ON job.id = entry.job_id "
        "WHERE lot.material_id = :material AND entry.day <= :until "
        "GROUP BY entry.day, action.number, action.kind, action.code, action.initials, action.reason, lot.id, lot.code "
        "ORDER BY entry.day, min(entry.at), action.number, lot.id",
        material=material_id,
        until=until,
    )


def unexplained_losses(store: Store, material_id: int | None = None) -> list[UnexplainedLoss]:
    """Return what counts found missing of materials under a register and nobody explained, oldest first."""
    rows = store.rows(
        "SELECT action.code AS action, counted.day AS day, lot.code AS lot, material.key AS material, "
        "material.name AS name, material.dimension AS dimension, -sum(entry.quantity) AS missing "
        "FROM material JOIN lot ON lot.material_id = material.id JOIN entry ON entry.lot_id = lot.id "
        "JOIN counted ON counted.action_number = entry.count_action AND counted.lot_id = lot.id "
        "JOIN action ON action.number = counted.action_number "
        "WHERE material.register = 'under a register' AND (:material IS NULL OR material.id = :material) "
        "AND entry.other_end IN ('waste', 'found') AND coalesce(counted.reason, :nothing) IN (:nothing, :round) "
        "AND action.number NOT IN (SELECT action_number FROM undone) "
        "AND NOT EXISTS (SELECT explained_loss.id FROM explained_loss WHERE action_number = action.number "
        "AND coalesce(explained_loss.lot_id, lot.id) = lot.id) "
        "GROUP BY action.number, action.code, counted.day, lot.id, lot.code, material.key, material.name, "
        "material.dimension HAVING sum(entry.quantity) < 0 ORDER BY counted.day, action.number",
        material=material_id,
        nothing=_NO_EXPLANATION[0],
        round=_NO_EXPLANATION[1],
    )
    return [
        UnexplainedLoss(
            action=row["action"],
            day=row["day"],
            lot=row["lot"],
            material=row["material"],
            name=row["name"],
            missing=Quantity(Dimension(row["dimension"]), row["missing"]),
        )
        for row in rows
    ]


def explanations(store: Store, material_id: int) -> list[Explained]:
    """Return what was said later of counts that found less of a material's lots, oldest first."""
    rows = store.rows(
        "SELECT action.code AS action, lot.code AS lot, explained_loss.reason AS reason, "
        "explained_loss.initials AS initials, explained_loss.booked_at AS booked_at FROM explained_loss "
        "JOIN action ON action.number = explained_loss.action_number "
        "JOIN counted ON counted.action_number = action.number "
        "JOIN lot ON lot.id = counted.lot_id AND lot.id = coalesce(explained_loss.lot_id, lot.id) "
        "WHERE lot.material_id = :material ORDER BY explained_loss.id, lot.id",
        material=material_id,
    )
    return [
        Explained(
            action=row["action"],
            lot=row["lot"],
            reason=row["reason"],
            by=row["initials"],
            on=local_day(store, row["booked_at"]),
        )
        for row in rows
    ]


def explain(store: Store, action: int, lot: str, reason: str, initials: str, booked_at: str) -> None:
    """Keep why a count found less of a lot, by its code; inside `write()`."""
    store.run(
        "INSERT INTO explained_loss (action_number, lot_id, reason, initials, booked_at) "
        "SELECT :action, lot.id, :why, :by, :at FROM lot WHERE lot.code = :lot",
        action=action,
        lot=lot,
        why=reason,
        by=initials,
        at=booked_at,
    )
