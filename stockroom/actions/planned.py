"""What the booked treatments need, from all that the stockroom knows: to be made, to be bought, and by when."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.actions.booked import load_booked
from stockroom.actions.recipe_book import load_book
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.open_days import ALWAYS_OPEN, ClosedTime, OpenDays
from stockroom.domain.orders import Offer
from stockroom.errors import BadInput
from stockroom.planning.booked_needs import Worked, scaled_needs
from stockroom.planning.due import Due
from stockroom.planning.due_plan import due_plan
from stockroom.planning.levels import ingredients
from stockroom.planning.needs import Coming, Need, Plan, plan_needs
from stockroom.planning.projection import Point, project
from stockroom.planning.requirements import Book
from stockroom.planning.ways import HowBought, HowMade
from stockroom.store.deliveries import last_suppliers
from stockroom.store.kept_in import kept_in
from stockroom.store.lots import shelf
from stockroom.store.materials import find_material
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.open_days import calendars
from stockroom.store.orders import incoming
from stockroom.store.recipes import recipe_making

Calendars = dict[int | None, OpenDays]


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
    made, book = _makings(store, {need.material.id: need.material for _, needs in worked for need, _ in needs})
    bought = _buyings(store, days)
    coming = [
        Coming(material_id=one.material.id, quantity=one.quantity, on=_expected(one.expected_on, local.date()))
        for one in incoming(store)
    ]
    plan = plan_needs(worked, lots, coming, made, bought, book, local, studio)
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


def _expected(day: str | None, today: date) -> date:
    """Return the day an order is counted on; one without a day is taken to come when it is needed."""
    return date.fromisoformat(day) if day else today


def _makings(store: Store, needed: dict[int, Material]) -> tuple[dict[int, HowMade], Book]:
    """Load how each needed material is made, and what it is made of, to any depth."""
    jars = kept_in(store)
    made: dict[int, HowMade] = {}
    book = Book(materials={}, recipes={})
    seen = dict(needed)
    waiting = list(needed.values())
    while waiting:
        material = waiting.pop()
        recipe = recipe_making(store, material.key)
        if recipe is None:
            continue
        jar = jars.get(recipe.id)
        made[material.id] = HowMade(
            recipe=recipe, jar=jar.jar if jar else None, left_behind=jar.left_behind if jar else 0
        )
        part = load_book(store, recipe)
        book = Book(materials={**book.materials, **part.materials}, recipes={**book.recipes, **part.recipes})
        by_id = {each.id: each for each in part.materials.values()}
        for key in ingredients(recipe, part):
            if key not in seen:
                seen[key] = by_id[key]
                waiting.append(by_id[key])
    return made, book


def _buyings(store: Store, days: Calendars) -> dict[int, HowBought]:
    """Return how each material is bought: by its cheapest offer, else from whom it last came, in its own packs."""
    found = {
        key: HowBought(
            delivery_days=supplier.lead_days, supplier=supplier.name, open_days=days.get(supplier.id, ALWAYS_OPEN)
        )
        for key, supplier in last_suppliers(store).items()
    }
    for offer in sorted(current_offers(store), key=_price_a_quantum, reverse=True):
        found[offer.material.id] = HowBought(
            delivery_days=offer.supplier.lead_days,
            pack=offer.pack_quanta,
            least_packs=offer.minimum_packs,
            supplier=offer.supplier.name,
            open_days=days.get(offer.supplier.id, ALWAYS_OPEN),
        )
    return found


def _price_a_quantum(offer: Offer) -> float:
    return offer.in_own(offer.price) / offer.pack_quanta


def _unworked(store: Store, worked: Sequence[Worked]) -> list[tuple[str, str]]:
    """Return the bookings of which nothing could be worked out, each with the reason."""
    open_ones = [one for one, needs in worked if not needs]
    books = {
        one.recipe.key: load_book(store, one.recipe) for one in {one.recipe.key: one for one in open_ones}.values()
    }
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
    planned = load_plan(store, local)
    coming = [
        Coming(material_id=material.id, quantity=one.quantity, on=_expected(one.expected_on, local.date()))
        for one in incoming(store)
        if one.material.id == material.id
    ]
    return project(material, lots, coming, planned.plan, local, days)


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


def coming_weeks(store: Store, local: datetime, days: int = 28) -> list[Moment]:
    """Return bookings, makings, order-by days, arrivals and closed times of the coming days, by day."""
    planned = load_plan(store, local)
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
