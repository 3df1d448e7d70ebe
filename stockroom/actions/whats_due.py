"""What has to be done: as it was kept while nothing has changed, or judged anew and kept."""

from __future__ import annotations

from datetime import date, datetime

from stockroom.actions.kept_due import KeptDue
from stockroom.planning.due import Due
from stockroom.store.open import Store


def due_items(store: Store, local: datetime, within: int = 14, *, away_until: date | None = None) -> list[Due]:
    """Return what has to be done, most urgent first; `within` days ahead for what has a day.

    `local` is the moment taken as now, in the stockroom's zone. `away_until` is the last day of a break: where no
    closed time is kept for it, the studio counts as closed from tomorrow on, and what gives off gas is to be emptied.
    """
    if away_until is not None:
        within = (away_until - local.date()).days
    kept = KeptDue(store, local, within) if away_until is None and not store.connection.in_transaction else None
    if kept is not None and (found := kept.read()) is not None:
        return found
    # what was kept is told without loading any of this
    from stockroom.actions.judged_due import judge
    from stockroom.store.lots import shelf

    lots = shelf(store)
    items = judge(store, lots, local, within, away_until)
    if kept is not None:
        kept.write(items, lots)
    return items
