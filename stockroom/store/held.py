"""What lots held at the end of a day, as the ledger tells it today: late bookings and corrections counted in."""

from __future__ import annotations

from stockroom.domain.lots import Lot
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store

_AS_IT_STOOD = ("place_id", "state", "strength")


def held_on(store: Store, day: str) -> list[tuple[Lot, int, int, dict[str, str | None]]]:
    """Return each lot that was here at the end of a day, with its quantity, its value and how it stood.

    How it stood: place_id, state, strength. A jar that is solid only and an empty waste can hold nothing and are here.
    """
    facts: dict[int, dict[str, str | None]] = {}
    fields = ", ".join(f"'{name}'" for name in _AS_IT_STOOD)
    for row in store.rows(
        "SELECT fact.lot_id, fact.field, fact.became FROM fact JOIN action ON action.number = fact.action_number "
        f"WHERE action.day <= :day AND fact.field IN ({fields}) ORDER BY fact.action_number, fact.position",
        day=day,
    ):
        facts.setdefault(row["lot_id"], {})[row["field"]] = row["became"]
    rows = store.rows(
        "SELECT lot.id, coalesce(sum(entry.quantity), 0) AS quantity, coalesce(sum(entry.value), 0) AS value "
        "FROM lot JOIN action ON action.number = lot.begun_by "
        "LEFT JOIN entry ON entry.lot_id = lot.id AND entry.day <= :day WHERE action.day <= :day "
        "GROUP BY lot.id ORDER BY lot.id",
        day=day,
    )
    found = []
    for row in rows:
        stood = facts.get(row["id"], {})
        if row["quantity"] or stood.get("state") == "solid only":
            found.append((lot_by_id(store, row["id"]), row["quantity"], row["value"], stood))
    return found
