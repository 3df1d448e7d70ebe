"""Whether everything will be there for a booking: what must be made or bought first, and what it takes from others."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from stockroom.actions.booked import load_booked
from stockroom.actions.planned import load_plan
from stockroom.actions.recipe_book import load_book
from stockroom.domain.lots import Lot
from stockroom.errors import BadInput
from stockroom.planning.booked_needs import Booked, Worked, scaled_needs
from stockroom.planning.fitness import fitness
from stockroom.planning.needs import Need, Plan
from stockroom.planning.requirements import Need as Line
from stockroom.science.quantities import show
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
    to_a_reading: tuple[str, ...]
    """Materials that are measured to a reading: how much it takes is known only then."""
    stand_ins: tuple[str, ...]
    """What is here and may stand in for what is to be bought, in words."""
    on_closed_day: bool

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
    booked = next(one for one, _ in worked if one.booking.code == code)
    lines = _lines(store, booked)
    bought = {need.material.key for need in needs if not need.recipe}
    late = _late(planned.plan, worked)
    return Answer(
        make=tuple(need for need in needs if need.recipe),
        buy=tuple(need for need in needs if not need.recipe),
        earliest=late.get(code),
        makes_late=tuple(sorted(late.keys() - _late(before.plan, without).keys() - {code})),
        unworked=dict(planned.unworked).get(code),
        to_a_reading=tuple(line.material.name for line in lines if line.material.metered and line.total is None),
        stand_ins=tuple(_standing_in([line for line in lines if line.material.key in bought], lots, local)),
        on_closed_day=not planned.studio.is_open(date.fromisoformat(booked.booking.for_day)),
    )


def _lines(store: Store, booked: Booked) -> list[Line]:
    """Return every line of a booking; none where they cannot be worked out yet."""
    try:
        return scaled_needs(booked, load_book(store, booked.recipe))
    except BadInput:
        return []


def _standing_in(lines: list[Line], lots: list[Lot], local: datetime) -> list[str]:
    """Say what is fit now and may stand in; taking it is for the person to say."""
    told: list[str] = []
    for line in lines:
        for key in line.line.stand_ins:
            fit = [lot for lot in lots if lot.material.key == key and fitness(lot, local).fit]
            if fit:
                held = fit[0].material.quantity(sum(lot.balance.quantity for lot in fit))
                told.append(f"{fit[0].material.name} may stand in for {line.material.name}: {show(held)} is here")
    return told


def _late(plan: Plan, worked: list[Worked]) -> dict[str, date]:
    """Return the bookings for which something comes too late, each with the day it is there."""
    booked = {one.booking.code: date.fromisoformat(one.booking.for_day) for one, _ in worked}
    found: dict[str, date] = {}
    for need in (*plan.make, *plan.buy):
        for code in need.bookings:
            if need.there_from > booked[code]:
                found[code] = max(need.there_from, found.get(code, need.there_from))
    return found
