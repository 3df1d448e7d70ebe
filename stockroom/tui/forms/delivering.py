"""What came of an order: all of it, or one line at a time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.content import Content

from stockroom.actions.arrivals import Came
from stockroom.actions.delivering import ReceivedOrder, receive_order
from stockroom.domain.codes import show as show_code
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import goods
from stockroom.science.days import read_expiry
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.science.reading import read_packs
from stockroom.store.open import Store
from stockroom.store.orders import find_order
from stockroom.tui.forms.fields import DAY, PLACE, money, read_place, yes_or_no
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.ordering import OPEN, order_field
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import day_words, on_screen


def _lines(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer the lines of the order that are still to come."""
    if "order" not in answers:
        return []
    return [
        Offer(
            key=str(line.position),
            words=f"{line.position} {line.offer.material.name}",
            detail=f"{goods(line.offer.material, line.open)} to come",
        )
        for line in find_order(store, answers["order"]).lines
        if line.open
    ]


def _read_packs(store: Store, answers: Answers) -> object:
    if "order" not in answers or "line" not in answers:
        return None
    line = next(one for one in find_order(store, answers["order"]).lines if str(one.position) == answers["line"])
    material = line.offer.material
    return read_packs(
        answers["amount"], expect=material.dimension, packs=material.packs, density_g_per_ml=material.liquid_density
    )


def _receive(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: ReceivedOrder | None
) -> ReceivedOrder:
    came = []
    if "line" in answers:
        came = [
            Came(
                line=answers["line"],
                quantity=answers.get("amount"),
                cost=money(store, answers["cost"]) if "cost" in answers else None,
                lot_number=answers.get("lot_number"),
                use_by=answers.get("use_by"),
                as_one=answers.get("as_one") == "yes",
            )
        ]
    return receive_order(
        store,
        occasion,
        answers["order"],
        came,
        freight=money(store, answers["freight"]) if "freight" in answers else 0,
        more=answers.get("more") == "yes",
        place=answers.get("place"),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _text(plan: ReceivedOrder, currency: str) -> Content:
    lots = []
    for lot in plan.lots:
        freight = f", {show_money(lot.freight, currency)} of it freight" if lot.freight else ""
        until = f", use by {day_words(lot.use_by)}" if lot.use_by else ""
        told = f"{show(lot.quantity)} of {lot.name}, {show_money(lot.value, currency)}{freight}{until}"
        lots.append((show_code(lot.code) if lot.code else "a new lot", told))
    still = f"still to come: {'; '.join(plan.open)}" if plan.open else "nothing more to come"
    notes = [Content.styled(f"! {one_line(on_screen(note))}", "$text-warning") for note in plan.notes]
    return Content("\n").join([rows([*lots, (plan.order, f"{plan.state}, {still}")]), *notes])


def _of_a_line(answers: Answers) -> bool:
    return "line" in answers


RECEIVE_ORDER = Form(
    name="receive-order",
    title="Receive what was ordered",
    help="""
Booking in what came of an order: a lot a pack, each with its own code and label, at the
order's prices; freight is shared out by value, to the cent. Without a line everything still
to come is booked in; choose a line to say how much of it came, its maker's lot number and date.
""",
    fields=(
        order_field(*OPEN, none="No order is on its way."),
        Asked(key="line", words="Line", hint="all that is still to come; Enter chooses one", choose=_lines),
        Asked(
            key="amount",
            words="How much",
            hint="all of the line; or 2 x 1 L",
            read=_read_packs,
            shown=_of_a_line,
        ),
        Asked(key="lot_number", words="Maker's lot", hint="the number on the bottle", shown=_of_a_line),
        Asked(
            key="use_by",
            words="Use by",
            hint="the maker's date: 2027-10, 31 Oct 2027",
            read=lambda store, answers: read_expiry(answers["use_by"]),
            shown=_of_a_line,
        ),
        Asked(
            key="cost",
            words="Billed",
            hint="the order's price",
            read=lambda store, answers: money(store, answers["cost"]),
            rare=True,
            shown=_of_a_line,
        ),
        yes_or_no("As one lot", "as_one", "all packs together in one lot", rare=True, shown=_of_a_line),
        Asked(
            key="freight",
            words="Freight",
            hint="none; or 4.90, shared over what came",
            read=lambda store, answers: money(store, answers["freight"]),
        ),
        replace(PLACE, read=read_place),
        yes_or_no("More came", "more", "more than was still to come is booked in all the same", rare=True),
        DAY,
    ),
    act=_receive,
    plan=_text,
    question=lambda answers: f"Receive what came of {answers['order']}?",
    done=lambda done, currency: (f"Received: {done.order}", _text(done, currency)),
    lot=lambda done: next((lot.code for lot in done.lots if lot.code), None),
    labels=lambda done: [lot.code for lot in done.lots if lot.code],
)
