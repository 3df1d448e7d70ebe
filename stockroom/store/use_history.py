"""What was used of a material, as the ledger tells it: net of what came back, was undone or put right."""

from __future__ import annotations

import json
from collections import defaultdict

from stockroom.store.open import Store

_USED = (
    "(entry.other_end IN ('job', 'studio') OR (entry.other_end = 'lot' "
    "AND other.material_id <> lot.material_id AND other.kind <> 'waste can'))"
)
"""Used: for a job, in the studio, or to make something else. What is thrown away, lost or poured over is not."""

_DRAWS = (
    "SELECT action.kind, action.booking_id, action.details, entry.day, -(entry.quantity + coalesce(("
    "SELECT sum(back.quantity) FROM entry AS back WHERE back.refers_action = entry.action_number "
    "AND back.refers_position = entry.position), 0)) AS used "
    "FROM lot JOIN entry ON entry.lot_id = lot.id JOIN action ON action.number = entry.action_number "
    "LEFT JOIN lot AS other ON other.id = entry.other_lot_id "
    "WHERE lot.material_id = :material AND entry.effect = 'draw' AND entry.count_action IS NULL "
    f"AND (lot.ended_on IS NULL OR lot.ended_on >= :since) AND entry.day >= :since AND {_USED}"
)
"""Lots that had ended before are passed over at once: they become many more than those that were used since."""


def used_without_booking(store: Store, material_id: int, since: str) -> list[tuple[str, int]]:
    """Return the days from `since` on with use that no booking announced, and how many quanta each took."""
    sql = (
        "SELECT day, put_right, sum(used) AS used FROM (SELECT day, used, "
        f"CASE WHEN kind = 'put-right' THEN details END AS put_right FROM ({_DRAWS}) AS draws "
        "WHERE used > 0 AND (booking_id IS NULL OR kind = 'put-right')) AS uses GROUP BY day, put_right ORDER BY day"
    )
    by_day: dict[str, int] = defaultdict(int)
    for row in store.rows(sql, material=material_id, since=since):
        if row["put_right"] is None or not _booked(store, row["put_right"]):
            by_day[row["day"]] += row["used"]
    return list(by_day.items())


def _booked(store: Store, put_right: str) -> bool:
    """Say whether a booking announced the action that these details of putting right name, to any depth."""
    code = json.loads(put_right)["puts_right"]
    row = store.row("SELECT kind, booking_id, details FROM action WHERE code = :code", code=code)
    if row is not None and row["kind"] == "put-right":
        return _booked(store, row["details"])
    return row is not None and row["booking_id"] is not None


def first_here(store: Store, material_id: int, since: str = "") -> str | None:
    """Return the day on which anything of a material was first in the books; None where nothing ever was.

    Where that was by `since`, it is not looked for any further, and `since` is returned.
    """
    sql = "SELECT entry.day FROM lot JOIN entry ON entry.lot_id = lot.id WHERE lot.material_id = :material"
    if store.row(f"{sql} AND entry.day <= :since LIMIT 1", material=material_id, since=since):
        return since
    row = store.row(
        "SELECT min((SELECT min(entry.day) FROM entry WHERE entry.lot_id = lot.id)) AS day FROM lot "
        "WHERE lot.material_id = :material",
        material=material_id,
    )
    return row["day"] if row else None


def used_since(store: Store, material_id: int, since: str) -> bool:
    """Say whether any of a material was used from a day on, booked or not."""
    sql = f"SELECT day FROM ({_DRAWS}) AS draws WHERE used > 0 LIMIT 1"
    return store.row(sql, material=material_id, since=since) is not None


def last_used(store: Store, material_id: int) -> str | None:
    """Return the last day on which any of a material was used; None where none ever was."""
    row = store.row(f"SELECT max(day) AS day FROM ({_DRAWS}) AS draws WHERE used > 0", material=material_id, since="")
    return row["day"] if row else None
