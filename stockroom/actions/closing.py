"""Close the books up to a day, and open them again with a reason. Both are actions of the ledger."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.store.jobs import open_bookings
from stockroom.store.open import Store
from stockroom.store.rounds import open_rounds_begun_by
from stockroom.store.stockroom_settings import CLOSED_UNTIL, closed_until, set_setting


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing(ActionOutcome):
    """How far the books are closed, now."""

    until: str
    """The last closed day."""
    warnings: tuple[str, ...] = ()


def close_books(
    store: Store, occasion: Occasion, last: date, *, dry_run: bool = False, confirmed: Closing | None = None
) -> Closing:
    """Close the books up to a day, that day too. Bookings of those days that are still open are named.

    Raises BadInput for today or later, Refused where they are closed so far already, or a round of counting that was
    begun by then is still open.
    """
    until = last.isoformat()
    if last >= occasion.today:
        raise BadInput(f"{until} is not over yet. The books are closed up to a day before today.")

    def build(booked_at: datetime) -> Closing:
        before = closed_until(store)
        if before is not None and until <= before:
            raise Refused(f"The books are closed up to {before} already.")
        rounds = open_rounds_begun_by(store, until)
        if rounds:
            raise Refused(f"Counting is still going on: {', '.join(rounds)}. Confirm or drop it first.")
        posted = post(store, _draft("close-books", occasion, until, before), booked_at)
        set_setting(store, CLOSED_UNTIL, until)
        warnings = tuple(
            f"{one.code}: {one.recipe_key} was booked for {one.for_day}, and neither used nor cancelled"
            for one in open_bookings(store)
            if one.for_day <= until
        )
        return Closing(until=until, warnings=warnings, action=posted.code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def open_books(
    store: Store, occasion: Occasion, first: date, *, dry_run: bool = False, confirmed: Closing | None = None
) -> Closing:
    """Open the books again from a day on. Raises BadInput without a reason, Refused where that day is open."""
    if not occasion.reason:
        raise BadInput("Why are they opened again? Say --why; the reason is kept.")

    def build(booked_at: datetime) -> Closing:
        before = closed_until(store)
        if before is None or first.isoformat() > before:
            raise Refused(f"{first} is open" + (f": the books are closed up to {before}." if before else "."))
        until = (first - timedelta(days=1)).isoformat()
        posted = post(store, _draft("open-books", occasion, until, before), booked_at)
        set_setting(store, CLOSED_UNTIL, until)
        return Closing(until=until, action=posted.code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _draft(kind: str, occasion: Occasion, until: str, before: str | None) -> Draft:
    now = replace(occasion, at=occasion.now)
    return Draft(kind=kind, occasion=now, details={"until": until, "before": before})
