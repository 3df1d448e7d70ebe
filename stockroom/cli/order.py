"""`order`: drafting, placing, printing and ending orders."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli.nouns import edits_document, retired_option, say_edits, undo_option
from stockroom.cli.output import json_option
from stockroom.cli.papers import SHEET, Into, hand_out_text, paper_options
from stockroom.cli.session import Session, day_option, why_option
from stockroom.cli.told_orders import order_document, say_order

if TYPE_CHECKING:
    from stockroom.actions.ordering import Ordered
    from stockroom.domain.orders import Order


@click.group()
def order() -> None:
    """Orders: a draft, then placed at fixed prices, then received. Codes begin with P."""


def _tell(session: Session, ordered: Ordered) -> None:
    session.document({**order_document(ordered.order, session.currency), "notes": list(ordered.notes)})
    say_order(session, ordered.order, session.currency, session.local.date())
    for note in ordered.notes:
        session.warn(note)


@order.command()
@click.argument("supplier")
@click.option("--note", metavar="TEXT", help="What the supplier should know; it is printed.")
@json_option
@click.pass_obj
def new(session: Session, supplier: str, note: str | None) -> None:
    """Begin an order, as a draft."""
    from stockroom.actions.ordering import Ordered, draft_order

    _tell(session, Ordered(order=draft_order(session.store, session.occasion(), supplier, note)))


@order.command()
@click.argument("code")
@click.argument("material")
@click.argument("packs", type=int)
@click.option("--pack", metavar="QTY", help="Which pack, where several are offered.")
@json_option
@click.pass_obj
def add(session: Session, code: str, material: str, packs: int, pack: str | None) -> None:
    """Put so many packs on a draft: stockroom order add P0015 ethanol 3."""
    from stockroom.actions.ordering import add_line

    _tell(session, add_line(session.store, session.occasion(), code, material, packs, pack=pack))


@order.command()
@click.argument("code")
@click.argument("line", type=int)
@json_option
@click.pass_obj
def remove(session: Session, code: str, line: int) -> None:
    """Take a line off a draft."""
    from stockroom.actions.ordering import remove_line

    _tell(session, remove_line(session.store, session.occasion(), code, line))


@order.command()
@click.argument("code")
@click.option("--expected", metavar="DATE", help="When it should come (else by the supplier's delivery time).")
@click.option("--undo", is_flag=True, help="It was not placed after all: a draft again.")
@day_option
@json_option
@click.pass_obj
def place(session: Session, code: str, expected: str | None, undo: bool, day: str | None) -> None:
    """Note that an order was placed. Its prices are fixed from then on."""
    from stockroom.actions.ordering import place_order, unplace_order
    from stockroom.science.days import read_day

    occasion = session.occasion(day)
    if undo:
        _tell(session, unplace_order(session.store, occasion, code))
        return
    on = read_day(expected, today=occasion.today) if expected else None
    _tell(session, place_order(session.store, occasion, code, expected=on))


@order.command()
@click.argument("code")
@click.argument("day", metavar="DATE")
@why_option
@json_option
@click.pass_obj
def expect(session: Session, code: str, day: str, why: str | None) -> None:
    """Note another day on which a placed order should come: stockroom order expect P0015 2026-12-14."""
    from stockroom.actions.ordering import expect_order
    from stockroom.science.days import read_day

    occasion = session.occasion(why=why)
    _tell(session, expect_order(session.store, occasion, code, read_day(day, today=occasion.today)))


@order.command("list")
@retired_option
@json_option
@click.pass_obj
def list_orders(session: Session, retired: bool) -> None:
    """List the open orders; with --all the closed ones too."""
    from stockroom.domain.orders import OPEN_STATES, state_words
    from stockroom.science.money import show_money
    from stockroom.science.numerals import counted
    from stockroom.store.orders import all_orders

    states = () if retired else OPEN_STATES
    found = all_orders(session.store, states=states)

    def words(each: Order) -> str:
        size = f"{counted(len(each.lines), 'line')}, {show_money(each.cost, session.currency)}"
        return f"{each.code}  {each.supplier.name}: {state_words(each, session.local.date())}; {size}"

    nothing = "No open orders: stockroom order new SUPPLIER, or stockroom buy --order."
    session.listing("orders", found, lambda each: order_document(each, session.currency), words, nothing)


@order.command()
@click.argument("code")
@json_option
@click.pass_obj
def show(session: Session, code: str) -> None:
    """Show an order: its lines, what has come, and every step."""
    from stockroom.store.edits import edits_of
    from stockroom.store.orders import deliveries_of, find_order

    found = find_order(session.store, code)
    came = deliveries_of(session.store, found.id)
    edits = edits_of(session.store, "order", found.code)
    session.document(
        {
            **order_document(found, session.currency),
            "deliveries": [{"action": row["code"], "day": row["day"]} for row in came],
            "edits": edits_document(edits),
        }
    )
    say_order(session, found, session.currency, session.local.date())
    for row in came:
        session.say(f"  delivery of {row['day']}: {row['code']}")
    say_edits(session, edits)


@order.command("print")
@click.argument("code")
@paper_options(SHEET)
@json_option
@click.pass_obj
def print_order(session: Session, code: str, into: Into) -> None:
    """Write an order as a sheet to send."""
    from stockroom.actions.order_papers import order_paper

    hand_out_text(session, order_paper(session.store, code), into)


@order.command()
@click.argument("code")
@undo_option
@why_option
@json_option
@click.pass_obj
def cancel(session: Session, code: str, undo: bool, why: str | None) -> None:
    """Give up an order of which nothing has come."""
    _end(session, code, undo, why, cancel=True)


@order.command()
@click.argument("code")
@undo_option
@why_option
@json_option
@click.pass_obj
def close(session: Session, code: str, undo: bool, why: str | None) -> None:
    """End an order of which the rest will not come."""
    _end(session, code, undo, why, cancel=False)


def _end(session: Session, code: str, undo: bool, why: str | None, *, cancel: bool) -> None:
    from stockroom.actions.ordering import end_order, reopen_order

    occasion = session.occasion(why=why)
    if undo:
        _tell(session, reopen_order(session.store, occasion, code))
        return
    _tell(session, end_order(session.store, occasion, code, cancel=cancel))
