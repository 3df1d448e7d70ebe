"""Orders: begun, added to, placed, put off and ended. The books hold only what came."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from textual.content import Content

from stockroom.actions.ordering import Ordered, add_line, draft_order, end_order, expect_order, place_order
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Order, goods
from stockroom.errors import BadInput
from stockroom.science.days import read_day
from stockroom.science.money import show_money
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.orders import all_orders, find_order
from stockroom.store.suppliers import all_suppliers, find_supplier
from stockroom.tui.forms.fields import WHY, read_any_day, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.plans import Planned, planned_text
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import on_screen

DRAFTED = ("drafted",)
OPEN = ("placed", "partly delivered")


def orders_offered(*states: str) -> Callable[[Store, Answers], Sequence[Offer]]:
    """Offer the orders in some states."""
    return lambda store, answers: [
        Offer(key=one.code, words=f"{one.code}  {one.supplier.name}", detail=one.state)
        for one in all_orders(store, states=states)
    ]


def order_field(*states: str, none: str) -> Asked:
    """Ask for an order in one of some states."""
    return Asked(
        key="order",
        words="Order",
        hint="Enter chooses",
        needed=True,
        choose=orders_offered(*states),
        none=none,
    )


def lines_text(order: Order) -> Content:
    """Write the lines of an order by number, each with its sum and what is still to come."""
    lines = []
    for line in order.lines:
        currency = line.offer.currency
        price = show_money(line.price, currency)
        told = f"{line.packs} x {line.offer.pack_words} at {price}: {show_money(line.packs * line.price, currency)}"
        if order.placed_on:
            still = f"{goods(line.offer.material, line.open)} to come" if line.open else "all has come"
            told += f"; {still}"
        lines.append(
            Content.assemble(f"{line.position:>2}. ", (one_line(line.offer.material.name), "bold"), f"  {told}")
        )
    return Content("\n").join(lines)


def ordered_text(plan: Ordered, currency: str) -> Content:
    """Write an order as it will stand."""
    order = plan.order
    known = [
        ("supplier", order.supplier.name),
        ("state", order.state),
        ("placed", order.placed_on),
        ("expected", order.expected_on),
        ("comes to", show_money(order.cost, currency)),
        ("ended", order.ended_why),
    ]
    told = rows((name, value) for name, value in known if value)
    notes = [Content.styled(f"! {one_line(on_screen(note))}", "$text-warning") for note in plan.notes]
    return Content("\n").join([told, Content(""), lines_text(order), *notes])


def _new(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None) -> Planned:
    supplier = find_supplier(store, answers["supplier"])
    told = [("to", supplier.name), ("note", answers.get("note", ""))]
    planned = Planned(told=tuple((name, value) for name, value in told if value))
    if dry_run:
        return planned
    return replace(planned, code=draft_order(store, occasion, supplier.name, answers.get("note")).code)


NEW_ORDER = Form(
    name="new-order",
    title="Begin an order",
    help="""
Beginning an order to one supplier, as a draft. Lines are added on its page; nothing is
ordered before it is placed.
""",
    fields=(
        Asked(
            key="supplier",
            words="Supplier",
            hint="Enter chooses",
            needed=True,
            choose=lambda store, answers: [Offer(key=one.name, words=one.name) for one in all_suppliers(store)],
            none="No supplier is known yet: add one in the bench book (F12).",
            adds="new-supplier",
        ),
        Asked(key="note", words="Note", hint="what the supplier should know; it is printed"),
    ),
    act=_new,
    plan=planned_text,
    question=lambda answers: f"Begin an order to {answers['supplier']}?",
    done=lambda done, currency: (f"Order {done.code} is begun", planned_text(done, currency)),
    opens=lambda done: done.code,
)


def _offered(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer what the order's supplier sells, each pack by itself."""
    if "order" not in answers:
        return []
    supplier = find_order(store, answers["order"]).supplier
    return [
        Offer(
            key=f"{one.material.key}={one.pack_words}",
            words=f"{one.material.name}, {one.pack_words}",
            detail=f"{show_money(one.price, one.currency)} a pack",
        )
        for one in current_offers(store)
        if one.supplier.id == supplier.id
    ]


def _add(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Ordered | None) -> Ordered:
    material, _, pack = answers["offer"].partition("=")
    packs = whole_number(answers["packs"], "packs") or 1
    return add_line(store, occasion, answers["order"], material, packs, pack=pack, dry_run=dry_run, confirmed=confirmed)


ADD_TO_ORDER = Form(
    name="add-to-order",
    title="Add to an order",
    help="Putting so many packs of what a supplier offers on an order that is still a draft.",
    fields=(
        order_field(*DRAFTED, none="No order is a draft: begin one first."),
        Asked(
            key="offer",
            words="Goods",
            hint="Enter chooses what its supplier offers",
            needed=True,
            choose=_offered,
            none="Nothing this supplier asks is kept: O on its page in the bench book (F12).",
            adds="new-offer",
        ),
        Asked(
            key="packs",
            words="Packs",
            hint="how many: 2",
            needed=True,
            read=lambda store, answers: whole_number(answers["packs"], "packs"),
        ),
    ),
    act=_add,
    plan=ordered_text,
    question=lambda answers: f"Add {answers['packs']} x {answers['offer']} to {answers['order']}?",
    done=lambda done, currency: (f"On {done.order.code}", ordered_text(done, currency)),
)


def _place(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Ordered | None) -> Ordered:
    expected = read_day(answers["expected"], today=occasion.today) if "expected" in answers else None
    return place_order(store, occasion, answers["order"], expected=expected, dry_run=dry_run, confirmed=confirmed)


PLACE_ORDER = Form(
    name="place-order",
    title="Note that an order was placed",
    help="""
Noting that an order went to its supplier. Its prices are those of today, and fixed from
then on; what comes is received against it, and told as late when it does not come.
""",
    fields=(
        order_field(*DRAFTED, none="No order is a draft: begin one first."),
        Asked(
            key="expected",
            words="Expected",
            hint="by the supplier's delivery time; or in 7 days, 2026-12-01",
            read=lambda store, answers: read_any_day(store, answers, "expected"),
        ),
    ),
    act=_place,
    plan=ordered_text,
    question=lambda answers: f"Was {answers['order']} placed?",
    done=lambda done, currency: (f"{done.order.code} is placed", ordered_text(done, currency)),
)


def _expect(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Ordered | None) -> Ordered:
    day = read_day(answers["expected"], today=occasion.today)
    return expect_order(store, occasion, answers["order"], day, dry_run=dry_run, confirmed=confirmed)


EXPECT_ORDER = Form(
    name="expect-order",
    title="Expect an order on another day",
    help="Noting another day on which a placed order should come.",
    fields=(
        order_field(*OPEN, none="No order is on its way."),
        Asked(
            key="expected",
            words="Expected",
            hint="in 7 days; or 2026-12-01",
            needed=True,
            read=lambda store, answers: read_any_day(store, answers, "expected"),
        ),
    ),
    act=_expect,
    plan=ordered_text,
    question=lambda answers: f"Expect {answers['order']} on another day?",
    done=lambda done, currency: (f"{done.order.code} is expected then", ordered_text(done, currency)),
)


def _end(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Ordered | None) -> Ordered:
    order = find_order(store, answers["order"])
    if order.placed_on and not occasion.reason:
        raise BadInput("Why will it not come? Write it in the field Why: sold out.")
    cancel = not any(line.came for line in order.lines)
    return end_order(store, occasion, order.code, cancel=cancel, dry_run=dry_run, confirmed=confirmed)


END_ORDER = Form(
    name="end-order",
    title="End an order",
    help="""
Giving an order up of which nothing came, or ending one of which the rest will not come.
""",
    fields=(
        order_field(*DRAFTED, *OPEN, none="No order is open."),
        replace(WHY, hint="why it will not come: sold out", rare=False),
    ),
    act=_end,
    plan=ordered_text,
    question=lambda answers: f"End {answers['order']}?",
    done=lambda done, currency: (f"{done.order.code} is ended", ordered_text(done, currency)),
)
