"""`supplier`: where goods are bought, how long it takes, and what is asked for a pack."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.nouns import (
    Retired,
    edits_document,
    new_name_option,
    retired_option,
    retired_words,
    retires,
    say_edits,
    tell_edited,
    without_nothing,
)
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, day_option, why_option
from stockroom.cli.told_orders import offer_document, say_offer
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import Supplier


@click.group()
def supplier() -> None:
    """Where goods are bought, how long it takes, and what is asked for a pack."""


def _minor(session: Session, typed: str | None) -> int | None:
    from stockroom.science.money import read_money

    return None if typed is None else read_money(typed, session.currency)


@supplier.command()
@click.argument("name")
@click.option("--delivery-days", type=int, metavar="DAYS", help="From order to delivery, as promised.")
@click.option("--minimum-order", metavar="MONEY", help="The least an order must come to.")
@click.option("--note", metavar="TEXT", help="Address, customer number, closing days.")
@json_option
@click.pass_obj
def new(session: Session, name: str, delivery_days: int | None, minimum_order: str | None, note: str | None) -> None:
    """Add a supplier: stockroom supplier new "Paper goods, by post" --delivery-days 10."""
    from stockroom.actions.suppliers import new_supplier

    added = new_supplier(
        session.store, name, delivery=delivery_days, minimum_order=_minor(session, minimum_order), note=note
    )
    session.document(_document(session, added))
    session.say(f"Added {added.name}.")


@supplier.command("list")
@retired_option
@json_option
@click.pass_obj
def list_suppliers(session: Session, retired: bool) -> None:
    """List the suppliers with their delivery times."""
    from stockroom.store.suppliers import all_suppliers

    session.listing(
        "suppliers",
        all_suppliers(session.store, retired=retired),
        lambda each: _document(session, each),
        lambda each: f"{each.name}{retired_words(each.retired_on)}: {_delivery(session, each)}",
        "No suppliers yet: stockroom supplier new NAME.",
    )


@supplier.command()
@click.argument("name")
@json_option
@click.pass_obj
def show(session: Session, name: str) -> None:
    """Show a supplier: delivery time as promised and as experienced, what it offers, its orders, its edits."""
    from stockroom.science.money import show_money
    from stockroom.store.edits import edits_of
    from stockroom.store.offers import current_offers
    from stockroom.store.orders import all_orders
    from stockroom.store.suppliers import find_supplier

    found = find_supplier(session.store, name, retired=True)
    offers = current_offers(session.store, supplier_id=found.id)
    orders = all_orders(session.store, supplier_id=found.id)
    edits = edits_of(session.store, "supplier", str(found.id))
    session.document(
        {
            **_document(session, found),
            "offers": [offer_document(offer) for offer in offers],
            "orders": [{"code": order.code, "state": order.state} for order in orders],
            "edits": edits_document(edits),
        }
    )
    session.say(found.name + retired_words(found.retired_on))
    session.say(f"  {_delivery(session, found)}")
    if found.minimum_order:
        session.say(f"  delivers from {show_money(found.minimum_order, session.currency)} on")
    if found.note:
        session.say(f"  {found.note}")
    for offer in offers:
        session.say(f"  {say_offer(offer, supplier=False)}")
    if not offers:
        session.say("  No offers kept: stockroom supplier offer SUPPLIER MATERIAL PACK PRICE.")
    for order in orders:
        session.say(f"  {order.code} {order.state}")
    say_edits(session, edits)


@supplier.command()
@click.argument("name")
@new_name_option
@click.option("--delivery-days", type=int, metavar="DAYS", help="From order to delivery, as promised.")
@click.option("--minimum-order", metavar="MONEY", help="The least an order must come to; 0 takes it away.")
@click.option("--note", metavar="TEXT", help="What to know about it; '' takes the note away.")
@why_option
@json_option
@click.pass_obj
def edit(
    session: Session,
    name: str,
    new_name: str | None,
    delivery_days: int | None,
    minimum_order: str | None,
    note: str | None,
    why: str | None,
) -> None:
    """Change what is kept of a supplier."""
    from stockroom.actions.suppliers import edit_supplier

    changed, made = edit_supplier(
        session.store,
        session.occasion(why=why),
        name,
        name=new_name,
        delivery=delivery_days,
        minimum_order=_minor(session, minimum_order),
        note=note,
    )
    tell_edited(session, _document(session, changed), changed.name, made)


@retires(supplier, "NAME")
def retire(session: Session, occasion: Occasion, name: str, undo: bool) -> Retired:
    """Order from a supplier no more."""
    from stockroom.actions.suppliers import retire_supplier

    changed = retire_supplier(session.store, occasion, name, undo=undo)
    return _document(session, changed), changed.name, []


@supplier.command()
@click.argument("supplier")
@click.argument("material")
@click.argument("pack")
@click.argument("price")
@click.option("--minimum-packs", type=int, default=1, metavar="PACKS", help="The fewest it sells (1).")
@click.option("--break", "breaks", multiple=True, metavar="'PACKS = PRICE'", help="From so many packs on, each.")
@click.option("--catalogue-number", metavar="NUMBER", help="How the supplier calls it.")
@click.option("--currency", metavar="CODE", help="If it is another than the stockroom's; with --rate.")
@click.option("--rate", metavar="NUMBER", help="What one unit of that currency costs in the stockroom's.")
@click.option("--tax", metavar="PERCENT", help="The tax rate, kept apart from the price.")
@day_option
@json_option
@click.pass_obj
def offer(session: Session, /, day: str | None, **asked: Any) -> None:
    """Keep what is asked for one pack, as seen today or on --day.

    Net or gross as the stockroom keeps its costs. An earlier price of the same pack stays in the history.

    Example: stockroom supplier offer "Paper goods" blotter "25 sheets" 31.00 --break "4 = 29.50"
    """
    from stockroom.actions.offers import Asked, new_offer

    kept = new_offer(session.store, session.occasion(day), Asked(**asked))
    session.document(offer_document(kept))
    session.say(f"Kept: {say_offer(kept)}.")


@supplier.command()
@click.argument("material", required=False)
@click.option("--supplier", metavar="NAME", help="Only what this one asks.")
@click.option("--history", is_flag=True, help="Earlier prices and ended offers too.")
@json_option
@click.pass_obj
def offers(session: Session, material: str | None, supplier: str | None, history: bool) -> None:
    """List what is asked for a material, or for all."""
    from stockroom.store.materials import find_material
    from stockroom.store.offers import all_offers, current_offers
    from stockroom.store.suppliers import find_supplier

    listing = all_offers if history else current_offers
    found = listing(
        session.store,
        material_id=find_material(session.store, material).id if material else None,
        supplier_id=find_supplier(session.store, supplier, retired=True).id if supplier else None,
    )
    session.listing(
        "offers",
        found,
        offer_document,
        say_offer,
        "No offers kept: stockroom supplier offer SUPPLIER MATERIAL PACK PRICE.",
    )


@supplier.command("end-offer")
@click.argument("supplier")
@click.argument("material")
@click.option("--pack", metavar="QTY", help="Which pack, where several are offered.")
@why_option
@json_option
@click.pass_obj
def end_offer(session: Session, supplier: str, material: str, pack: str | None, why: str | None) -> None:
    """Note that a supplier sells a pack no more; its prices stay in the history."""
    from stockroom.actions.offers import end_offer as note_ending

    ended = note_ending(session.store, session.occasion(why=why), supplier, material, pack)
    session.document(offer_document(ended))
    session.say(f"{say_offer(ended)}.")


def _document(session: Session, supplier: Supplier) -> dict[str, Any]:
    from stockroom.actions.delivery_times import delivery_time
    from stockroom.science.money import money_text

    time = delivery_time(session.store, supplier)
    least = supplier.minimum_order
    return without_nothing(
        {
            "name": supplier.name,
            "delivery_days": supplier.lead_days,
            "experienced": {"orders": time.orders, "low": time.shortest, "usual": time.usual, "high": time.longest},
            "minimum_order": None if least is None else money_text(least, session.currency),
            "currency": session.currency,
            "note": supplier.note,
            "retired_on": supplier.retired_on,
        }
    )


def _delivery(session: Session, supplier: Supplier) -> str:
    from stockroom.actions.delivery_times import delivery_time

    return delivery_time(session.store, supplier).words
