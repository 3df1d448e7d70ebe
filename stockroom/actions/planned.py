"""What the booked treatments need, from all that the stockroom knows: to be made, to be bought, and by when."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.actions.booked import load_booked
from stockroom.actions.recipe_book import load_book
from stockroom.actions.ways import buyings, makings
from stockroom.domain.lots import Lot
from stockroom.domain.open_days import ClosedTime, OpenDays
from stockroom.errors import BadInput
from stockroom.planning.booked_needs import Worked, scaled_needs
from stockroom.planning.due import Due
from stockroom.planning.due_plan import due_plan
from stockroom.planning.needs import Coming, Need, Plan, plan_needs
from stockroom.planning.projection import Point, project
from stockroom.store.lots import shelf
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.open_days import calendars
from stockroom.store.orders import incoming


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan with the bookings it is for."""

    plan: Plan
    worked: tuple[Worked, ...]
    """Every treatment booked from today on, by day, with what it needs."""
    unworked: tuple[tuple[str, str], ...]
    """Codes of the bookings that cannot be worked out yet, each with the reason."""
    studio: OpenDays

    def within(self, local: datetime, days: int) -> tuple[list[Need], list[Need]]:
        """Return what is to be begun, and what to be ordered, from before today to so many days ahead."""
        last = local.date() + timedelta(days=days)
        make, buy = ([one for one in needs if one.begin_by <= last] for needs in (self.plan.make, self.plan.buy))
        return make, buy


def load_plan(
    store: Store,
    local: datetime,
    *,
    worked: Sequence[Worked] | None = None,
    lots: Sequence[Lot] | None = None,
    closed: Callable[[OpenDays], OpenDays] = lambda studio: studio,
) -> Planned:
    """Plan for all treatments booked from the local moment's day on; nothing is changed.

    `worked` and `lots` are what the caller has loaded already; `closed` may change the studio's open days first.
    """
    worked = load_booked(store, local) if worked is None else worked
    lots = shelf(store) if lots is None else lots
    days = calendars(store)
    studio = closed(days[None])
    made, book = makings(store, {need.material.id: need.material for _, needs in worked for need, _ in needs})
    bought = buyings(store, days)
    plan = plan_needs(worked, lots, _coming(store, local.date()), made, bought, book, local, studio)
    return Planned(plan=plan, worked=tuple(worked), unworked=tuple(_unworked(store, worked)), studio=studio)


def due_planned(
    store: Store,
    local: datetime,
    within: int,
    worked: Sequence[Worked],
    lots: Sequence[Lot],
    away_until: date | None = None,
) -> list[Due]:
    """Return the makings to begin within so many days, and what booked treatments will lack."""

    def closed(studio: OpenDays) -> OpenDays:
        today = local.date()
        if away_until is None or any(one.first <= away_until and one.last > today for one in studio.times):
            return studio
        away = ClosedTime(first=today + timedelta(days=1), last=away_until)
        return replace(studio, times=(*studio.times, away)) if away.first <= away.last else studio

    planned = load_plan(store, local, worked=worked, lots=lots, closed=closed)
    return due_plan(planned.plan, worked, local.date() + timedelta(days=within))


def _coming(store: Store, today: date) -> list[Coming]:
    """Return what is on order."""
    return [
        Coming(material_id=one.material.id, quantity=one.quantity, on=_expected(one.expected_on, today))
        for one in incoming(store)
    ]


def _expected(day: str | None, today: date) -> date:
    """Return the day from which an order counts; one of which nobody knows the day counts from today on."""
    return date.fromisoformat(day) if day else today


def _unworked(store: Store, worked: Sequence[Worked]) -> list[tuple[str, str]]:
    """Return the bookings of which nothing could be worked out, each with the reason."""
    open_ones = [one for one, needs in worked if not needs]
    recipes = {one.recipe.key: one.recipe for one in open_ones}
    books = {key: load_book(store, recipe) for key, recipe in recipes.items()}
    found: list[tuple[str, str]] = []
    for one in open_ones:
        try:
            scaled_needs(one, books[one.recipe.key])
        except BadInput as error:
            found.append((one.booking.code, error.message))
    return found


def projected_stock(store: Store, words: str, local: datetime, days: int = 90) -> list[Point]:
    """Return how much of a material will be there, day by day where it changes, with what changes it.

    Bookings, makings that draw on it, use-by dates, arrivals and planned makings and orders; the first point is now.
    Raises NotFound for an unknown material.
    """
    material = find_material(store, words)
    lots = [lot for lot in shelf(store) if lot.material.id == material.id]
    coming = [one for one in _coming(store, local.date()) if one.material_id == material.id]
    return project(material, lots, coming, load_plan(store, local).plan, local, days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One thing on the timeline of the coming weeks."""

    day: date
    kind: str
    """booking, make, order, arrival or closed."""
    code: str
    """Of the booking or order; the recipe's key for a making, the material's for an order."""
    words: str
    late: bool = False


def coming_weeks(store: Store, local: datetime, days: int = 28, planned: Planned | None = None) -> list[Moment]:
    """Return bookings, makings, order-by days, arrivals and closed times of the coming days, by day.

    `planned` is what the caller has planned already.
    """
    planned = planned or load_plan(store, local)
    today = local.date()
    last = today + timedelta(days=days)
    make, buy = planned.within(local, days)
    moments = [
        Moment(
            day=date.fromisoformat(one.booking.for_day),
            kind="booking",
            code=one.booking.code,
            words=f"{one.recipe.name} for {one.job.code} {one.job.title}",
            late=any(
                need.there_from.isoformat() > one.booking.for_day for need in planned.plan.for_booking(one.booking.code)
            ),
        )
        for one, _ in planned.worked
        if one.booking.for_day <= last.isoformat()
    ]
    moments += [_begun(need, "make", need.recipe or need.material.key) for need in make]
    moments += [_begun(need, "order", need.material.key) for need in buy]
    moments += [
        Moment(
            day=_expected(one.expected_on, today),
            kind="arrival",
            code=one.order,
            words=f"{one.material.name} from {one.supplier}",
            late=bool(one.expected_on and one.expected_on < today.isoformat()),
        )
        for one in incoming(store)
        if _expected(one.expected_on, today) <= last
    ]
    moments += [
        Moment(
            day=max(one.first, today),
            kind="closed",
            code="",
            words=f"to {one.last}" + (f": {one.note}" if one.note else ""),
        )
        for one in planned.studio.times
        if one.first <= last and one.last >= today
    ]
    return sorted(moments, key=lambda one: (one.day, one.kind, one.code))


def _begun(need: Need, kind: str, code: str) -> Moment:
    return Moment(
        day=need.begin_by, kind=kind, code=code, words=f"{need.amount_words} of {need.material.name}", late=need.late
    )
