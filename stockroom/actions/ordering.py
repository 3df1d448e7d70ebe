"""Orders: drafting, placing and ending them. All of it is a plan; the books hold only what came.

Placing fixes the prices. Every step is kept with who took it and when.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime

from stockroom.actions.carrying_out import carry_out
from stockroom.actions.delivery_times import delivery_time
from stockroom.actions.editing import changes, keep_changes
from stockroom.actions.naming import check_text
from stockroom.actions.offers import check_packs, offer_of
from stockroom.domain.occasion import Occasion
from stockroom.domain.open_days import ALWAYS_OPEN
from stockroom.domain.orders import Offer, Order, OrderLine
from stockroom.domain.studio import Supplier
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.planning.ways import HowBought
from stockroom.science.money import show_money
from stockroom.store import orders
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.open_days import calendars
from stockroom.store.stockroom_settings import setting
from stockroom.store.suppliers import find_supplier


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """An order as it stands after a step, and what a person should know of it."""

    order: Order
    notes: tuple[str, ...] = ()

    def as_plan(self) -> Ordered:
        return self


def draft_order(store: Store, occasion: Occasion, supplier: str, note: str | None = None) -> Order:
    """Begin an order. Raises NotFound for a supplier that is not known."""
    with store.write():
        found = find_supplier(store, supplier)
        text = check_text(note, "note") if note is not None else None
        code = orders.insert_order(store, found.id, text, occasion.day.isoformat())
    return orders.find_order(store, code)


def add_line(
    store: Store,
    occasion: Occasion,
    code: str,
    material: str,
    packs: int,
    *,
    pack: str | None = None,
    dry_run: bool = False,
    confirmed: Ordered | None = None,
) -> Ordered:
    """Put so many packs on a draft; more of what stands on it already is added to that line.

    Raises Refused for an order that is no draft, NotFound where its supplier offers none of it, BadInput for no
    packs or fewer than the supplier sells.
    """

    def build(booked_at: datetime) -> Ordered:
        order = _drafted(store, code, "added to")
        offer = offer_of(store, order.supplier, find_material(store, material), pack)
        line = with_packs(order, offer, packs)
        lines = [one for one in order.lines if not _same(one.offer, offer)]
        orders.set_lines(store, order.id, [*lines, line])
        _keep(store, order, {offer.material.key: None}, {offer.material.key: line.words}, occasion, booked_at)
        return _told(store, code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def with_packs(order: Order, offer: Offer, packs: int) -> OrderLine:
    """Return the line of an order with so many more packs of an offer. Raises BadInput."""
    there = sum(line.packs for line in order.lines if _same(line.offer, offer))
    whole = there + packs
    check_packs(packs if packs < 1 else whole)
    if whole < offer.minimum_packs:
        raise BadInput(
            f"{offer.supplier.name} sells {offer.material.name} from {offer.minimum_packs} packs of "
            f"{offer.pack_words} on; {whole} is too few."
        )
    return OrderLine(position=0, offer=offer, packs=whole, price=offer.price_at(whole))


def remove_line(store: Store, occasion: Occasion, code: str, position: int) -> Ordered:
    """Take a line off a draft. Raises Refused for an order that is no draft, NotFound for no such line."""
    with store.write() as booked_at:
        order = _drafted(store, code, "taken from")
        gone = [line for line in order.lines if line.position == position]
        if not gone:
            raise NotFound(f"{order.code} has no line {position}. 'stockroom order show {order.code}' shows its lines.")
        orders.set_lines(store, order.id, [line for line in order.lines if line.position != position])
        key = gone[0].offer.material.key
        _keep(store, order, {key: gone[0].words}, {key: None}, occasion, booked_at)
    return _told(store, code)


def place_order(
    store: Store,
    occasion: Occasion,
    code: str,
    *,
    expected: date | None = None,
    dry_run: bool = False,
    confirmed: Ordered | None = None,
) -> Ordered:
    """Note that an order was placed on the occasion's day, at the prices that stood then, fixed from then on.

    It is expected after the supplier's delivery time unless a day is named. Raises Refused for an order without
    lines, one placed already, or a line that is offered no more; BadInput for a day before the placing.
    """

    def build(booked_at: datetime) -> Ordered:
        order = _drafted(store, code, "placed")
        if not order.lines:
            raise Refused(f"{order.code} has no lines yet. Add one: stockroom order add {order.code} MATERIAL PACKS.")
        lines, notes = _at_prices_of(store, order, occasion.day)
        day = expected
        if day is None:
            day = _expected(store, order.supplier, occasion.day)
        elif day < occasion.day:
            raise BadInput(f"It cannot be expected on {day}, before it was placed ({occasion.day}).")
        if day is None:
            notes.append(
                f"Nobody knows how long {order.supplier.name} takes, so it will never be told as late. Say --expected, "
                f"or keep it: stockroom supplier edit '{order.supplier.name}' --delivery-days DAYS."
            )
        orders.set_lines(store, order.id, lines)
        orders.set_placed(store, order.id, occasion.day.isoformat(), day.isoformat() if day else None)
        _keep(store, order, {"state": "drafted"}, {"state": f"placed on {occasion.day}"}, occasion, booked_at)
        told = _told(store, code)
        return replace(told, notes=(*notes, *told.notes))

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def expect_order(
    store: Store,
    occasion: Occasion,
    code: str,
    day: date,
    *,
    dry_run: bool = False,
    confirmed: Ordered | None = None,
) -> Ordered:
    """Note another day on which an order should come. Raises Refused unless it is open, BadInput for a past day."""

    def build(booked_at: datetime) -> Ordered:
        order = orders.find_order(store, code)
        if not order.open:
            raise Refused(f"{order.code} is {order.state}: nothing is expected of it.")
        if day < occasion.today:
            raise BadInput(f"{day} is past. Say the day on which it should come now.")
        orders.set_placed(store, order.id, order.placed_on, day.isoformat())
        _keep(store, order, {"expected": order.expected_on}, {"expected": day.isoformat()}, occasion, booked_at)
        return _told(store, code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def unplace_order(store: Store, occasion: Occasion, code: str) -> Ordered:
    """Make a placed order a draft again. Raises Refused where some of it came, or it was not placed."""
    with store.write() as booked_at:
        order = orders.find_order(store, code)
        if order.state != "placed":
            came = "some of it has come" if any(line.came for line in order.lines) else f"it is {order.state}"
            raise Refused(f"{order.code} cannot be made a draft again: {came}.")
        orders.set_placed(store, order.id, None, None)
        _keep(store, order, {"state": f"placed on {order.placed_on}"}, {"state": "drafted"}, occasion, booked_at)
    return _told(store, code)


def end_order(
    store: Store,
    occasion: Occasion,
    code: str,
    *,
    cancel: bool,
    dry_run: bool = False,
    confirmed: Ordered | None = None,
) -> Ordered:
    """Cancel an order of which nothing came, or close one of which the rest will not come.

    Raises Refused for the one where the other is meant, BadInput without a reason where it was placed.
    """

    def build(booked_at: datetime) -> Ordered:
        order = orders.find_order(store, code)
        came = any(line.came for line in order.lines)
        if order.state == "closed":
            raise Refused(f"{order.code} is closed already: {order.ended_why or 'all of it came'}.")
        if cancel and came:
            raise Refused(f"Some of {order.code} has come. Close it if the rest will not: stockroom order close.")
        if not cancel and not came:
            raise Refused(f"Nothing of {order.code} has come. To give it up: stockroom order cancel {order.code}.")
        if order.placed_on and not occasion.reason:
            raise BadInput(f"Why is it {'cancelled' if cancel else 'closed'}? Say --why, such as --why 'sold out'.")
        why = "cancelled" if cancel else "the rest will not come"
        why += f": {occasion.reason}" if occasion.reason else ""
        orders.set_ended(store, order.id, occasion.day.isoformat(), why)
        _keep(store, order, {"state": order.state}, {"state": f"closed: {why}"}, occasion, booked_at)
        return _told(store, code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def reopen_order(store: Store, occasion: Occasion, code: str) -> Ordered:
    """Take the cancelling or closing of an order back. Raises Refused where no person ended it."""
    with store.write() as booked_at:
        order = orders.find_order(store, code)
        if order.ended_on is None:
            hint = " Undo the delivery to open it again." if order.state == "closed" else ""
            raise Refused(f"{order.code} is {order.state}; nobody cancelled or closed it.{hint}")
        orders.set_ended(store, order.id, None, None)
        again = orders.find_order(store, code)
        _keep(store, order, {"state": f"closed: {order.ended_why}"}, {"state": again.state}, occasion, booked_at)
    return _told(store, code)


def _drafted(store: Store, code: str, what: str) -> Order:
    order = orders.find_order(store, code)
    if order.state != "drafted":
        hint = f" To change it: stockroom order place {order.code} --undo." if order.state == "placed" else ""
        raise Refused(f"{order.code} is {order.state}, so it cannot be {what}.{hint}")
    return order


def _expected(store: Store, supplier: Supplier, day: date) -> date | None:
    """Return the open day on which what is ordered on a day comes; None where nobody knows how long it takes."""
    days = delivery_time(store, supplier).days
    if days is None:
        return None
    open_days = calendars(store)
    how = HowBought(delivery_days=days, open_days=open_days.get(supplier.id, ALWAYS_OPEN))
    return how.there_from(day, open_days.get(None, ALWAYS_OPEN))


def _same(one: Offer, other: Offer) -> bool:
    return one.material.id == other.material.id and one.pack_quanta == other.pack_quanta


def _at_prices_of(store: Store, order: Order, day: date) -> tuple[list[OrderLine], list[str]]:
    """Return the lines of a draft as the offers of a day price them, and what changed since they were drafted."""
    lines, notes = [], []
    for line in order.lines:
        try:
            offer = offer_of(store, order.supplier, line.offer.material, line.offer.pack_words, on=day.isoformat())
        except NotFound:
            raise Refused(
                f"{order.supplier.name} offers {line.offer.pack_words} of {line.offer.material.name} no more. "
                f"Take line {line.position} off: stockroom order remove {order.code} {line.position}."
            ) from None
        now = with_packs(replace(order, lines=()), offer, line.packs)
        if (now.price, offer.currency) != (line.price, line.offer.currency):
            was, became = show_money(line.price, line.offer.currency), show_money(now.price, offer.currency)
            notes.append(f"{offer.material.name}: {became} a pack, not {was} as drafted.")
        lines.append(now)
    return lines, notes


def _told(store: Store, code: str) -> Ordered:
    order = orders.find_order(store, code)
    least, notes = order.supplier.minimum_order, []
    if least and order.lines and order.cost < least and order.state in ("drafted", "placed"):
        currency = setting(store, "currency")
        notes.append(
            f"{order.code} comes to {show_money(order.cost, currency)}; {order.supplier.name} delivers from "
            f"{show_money(least, currency)} on: {show_money(least - order.cost, currency)} more."
        )
    return Ordered(order=order, notes=tuple(notes))


def _keep(
    store: Store,
    order: Order,
    before: dict[str, str | None],
    after: dict[str, str | None],
    occasion: Occasion,
    booked_at: datetime,
) -> None:
    keep_changes(store, "order", order.code, changes(before, after), occasion, booked_at)
