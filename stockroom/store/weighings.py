"""What was weighed once and is relied on since: a spoon's fill of a powder, an empty container. Only added to."""

from __future__ import annotations

import json
from collections.abc import Sequence

from stockroom.domain.studio import SpoonWeighing, Tare
from stockroom.store.open import Store


def keep_spoon_weighing(
    store: Store, measure_id: int, material_id: int, masses_ug: Sequence[int], day: str, initials: str, booked_at: str
) -> None:
    """Keep what a spoon was found to hold of a material; inside `write()`."""
    store.insert(
        "weighed_spoon",
        measure_id=measure_id,
        material_id=material_id,
        masses=json.dumps(list(masses_ug)),
        day=day,
        initials=initials,
        booked_at=booked_at,
    )


def spoon_weighings(store: Store) -> list[SpoonWeighing]:
    """Return the last weighing of each spoon and material, of spoons in use."""
    rows = store.rows(
        "SELECT measure.name AS spoon, material.key AS material, material.name AS name, masses, day, initials "
        "FROM weighed_spoon JOIN measure ON measure.id = measure_id JOIN material ON material.id = material_id "
        "WHERE measure.retired_on IS NULL ORDER BY weighed_spoon.id"
    )
    last = {(row["spoon"], row["material"]): row for row in rows}
    return [
        SpoonWeighing(
            spoon=row["spoon"],
            material=row["material"],
            material_name=row["name"],
            masses_ug=tuple(json.loads(row["masses"])),
            day=row["day"],
            initials=row["initials"],
        )
        for row in last.values()
    ]


def keep_tare(store: Store, lot_id: int, mass_ug: int, day: str, initials: str, booked_at: str) -> None:
    """Keep what a lot's empty container weighs; inside `write()`."""
    store.insert("tare", lot_id=lot_id, mass_ug=mass_ug, day=day, initials=initials, booked_at=booked_at)


def tare_of(store: Store, lot_id: int) -> Tare | None:
    """Return what a lot's empty container weighs, as it was weighed last."""
    row = store.row("SELECT mass_ug, day, initials FROM tare WHERE lot_id = :lot ORDER BY id DESC LIMIT 1", lot=lot_id)
    return Tare(**dict(row)) if row else None
