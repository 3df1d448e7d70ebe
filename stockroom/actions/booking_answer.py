"""Whether everything will be there for a booking: what must be made or bought first, and what it takes from others."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from stockroom.actions.booked import load_booked
from stockroom.actions.planned import load_plan
from stockroom.planning.booked_needs import Worked
from stockroom.planning.needs import Need, Plan
from stockroom.store.lots import shelf
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What stands between a booking and its day."""

    make: tuple[Need, ...]
    buy: tuple[Need, ...]
    earliest: date | None
    """The first day everything can be there, where that is after the day it is booked for."""
    makes_late: tuple[str, ...]
    """Codes of other bookings that would be in time without this one."""
    unworked: str | None
    """Why it cannot be worked out yet, where it cannot."""

    @property
    def ready(self) -> bool:
        """Whether everything is there already, or comes by itself."""
        return not (self.make or self.buy or self.unworked)


def answer_booking(store: Store, code: str, local: datetime) -> Answer:
    """Say for one open booking, all others considered, whether everything will be there."""
    worked, lots = load_booked(store, local), shelf(store)
    planned = load_plan(store, local, worked=worked, lots=lots)
    without = [one for one in worked if one[0].booking.code != code]
    before = load_plan(store, local, worked=without, lots=lots)
    needs = planned.plan.for_booking(code)
    late = _late(planned.plan, worked)
    return Answer(
        make=tuple(need for need in needs if need.recipe),
        buy=tuple(need for need in needs if not need.recipe),
        earliest=late.get(code),
        makes_late=tuple(sorted(late.keys() - _late(before.plan, without).keys() - {code})),
        unworked=dict(planned.unworked).get(code),
    )


def _late(plan: Plan, worked: list[Worked]) -> dict[str, date]:
    """Return the bookings for which something comes too late, each with the day it is there."""
    booked = {one.booking.code: date.fromisoformat(one.booking.for_day) for one, _ in worked}
    found: dict[str, date] = {}
    for need in (*plan.make, *plan.buy):
        for code in need.bookings:
            if need.there_from > booked[code]:
                found[code] = max(need.there_from, found.get(code, need.there_from))
    return found
