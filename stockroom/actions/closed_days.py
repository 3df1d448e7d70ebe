"""Closed days of the books: nothing is booked for them. What turns up for one is booked today, naming its day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from stockroom.actions.keeping_counts import keep_counts
from stockroom.domain.ledger import Counted, Draft, Movement
from stockroom.domain.occasion import utc_text
from stockroom.errors import Refused
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import closed_until

FOR_DAY = "for_day"
"""Under what name an action's details hold the closed day that it is for."""


def out_of_closed_days(
    store: Store, draft: Draft, counted: Sequence[Counted], movements: list[Movement]
) -> tuple[Draft, list[Movement]]:
    """Return a draft and its movements as they are booked: all of it today, where any falls on a closed day.

    What keeps a count as counted goes along, so that no count before today changes. Raises Refused where today is
    closed itself, or where something was counted on a closed day.
    """
    closed = closed_until(store)
    days = [draft.occasion.day.isoformat(), *(one.day for one in movements), *(one.day for one in counted)]
    if closed is None or min(days) > closed:
        return draft, movements
    _refuse_today(draft.occasion.today, closed)
    if any(one.day <= closed for one in counted):
        raise Refused(
            f"The books are closed up to {closed}: what was counted then is not booked any more. Count again."
        )
    occasion = replace(draft.occasion, at=draft.occasion.now)
    day, at = occasion.day.isoformat(), utc_text(occasion.at)
    today = [replace(movement, day=day, at=at, standing=None) for movement in movements]
    kept, _ = keep_counts(store, today)  # those of a day after today, where now was told to be earlier
    told = {FOR_DAY: days[0]} if days[0] <= closed else {}
    return replace(draft, occasion=occasion, details=draft.details | told), today + kept


def _refuse_today(today: date, closed: str) -> None:
    if today.isoformat() <= closed:
        raise Refused(f"The books are closed up to {closed}. Nothing is booked for {today}, nor on it.")
