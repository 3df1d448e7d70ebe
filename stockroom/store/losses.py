"""What was wasted, by reason and material, corrections included."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.science.quantities import Dimension, Quantity
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """What was lost of one material for one reason, in minor units."""

    reason: str | None
    material: str
    name: str
    quantity: Quantity
    value: int


def losses(store: Store, since: str, until: str) -> list[Loss]:
    """Add up what went to waste from one day through another, dearest first; what cancels out is left out."""
    rows = store.rows(
        "SELECT entry.reason AS reason, material.key AS material, material.name AS name, material.dimension AS "
        "dimension, -sum(entry.quantity) AS quantity, -sum(entry.value) AS value FROM entry "
        "JOIN lot ON lot.id = entry.lot_id JOIN material ON material.id = lot.material_id "
        "WHERE entry.other_end = 'waste' AND entry.day >= :since AND entry.day <= :until "
        "GROUP BY entry.reason, material.key, material.name, material.dimension ORDER BY value DESC, material.key",
        since=since,
        until=until,
    )
    return [
        Loss(
            reason=row["reason"],
            material=row["material"],
            name=row["name"],
            quantity=Quantity(Dimension(row["dimension"]), row["quantity"]),
            value=row["value"],
        )
        for row in rows
        if row["quantity"] or row["value"]
    ]
