"""What objects of a job have met already on one day, as stored."""

from __future__ import annotations

from collections.abc import Collection

from stockroom.store.open import Store


def lots_met(store: Store, job_id: int, objects: Collection[int], day: str, at: str) -> tuple[int, ...]:
    """Return the ids of the lots drawn from for any of these objects on a day, up to a time, in that order.

    An action that names no object was for all of the job.
    """
    rows = store.rows(
        "SELECT entry.lot_id AS lot, action_object.object_id AS object FROM action "
        "JOIN entry ON entry.action_number = action.number AND entry.effect = 'draw' "
        "LEFT JOIN action_object ON action_object.action_number = action.number "
        "WHERE action.job_id = :job AND action.kind IN ('use', 'take') AND action.day = :day AND action.at <= :at "
        "AND action.number NOT IN (SELECT action_number FROM undone) ORDER BY action.at, action.number",
        job=job_id,
        day=day,
        at=at,
    )
    met = (row["lot"] for row in rows if row["object"] is None or row["object"] in objects)
    return tuple(dict.fromkeys(met))
