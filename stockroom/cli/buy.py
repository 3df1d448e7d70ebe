"""`buy`: what to reorder, how much, from whom and by when."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.domain.orders import goods
from stockroom.planning.buying import UNITS, BuyLine, per_unit, unit_price


@click.command()
@click.option("--within", type=click.IntRange(0, 3650), default=28, metavar="DAYS", help="To order by then (28).")
@click.option("--order", "draft", is_flag=True, help="Draft an order to each supplier from the lines.")
@click.option("--order-cost", metavar="MONEY", help="What an order costs you, for the economic quantity.")
@click.option("--keeping", metavar="PERCENT", help="What keeping costs a year, in percent of the price.")
@json_option
@click.pass_obj
def buy(session: Session, within: int, draft: bool, order_cost: str | None, keeping: str | None) -> None:
    """What to order, how much, from whom and by when: booked work first, past use second.

    Price breaks and the economic quantity are advice; nothing is ordered for their sake.
    """
    from stockroom.actions.buying import minimum_words, order_lines, read_economy, what_to_buy
    from stockroom.science.money import money_text, read_money, show_money
    from stockroom.science.numerals import read_decimal

    currency = session.currency
    economy = read_economy(
        None if order_cost is None else read_money(order_cost, currency),
        None if keeping is None else float(read_decimal(keeping.strip().removesuffix("%"))),
    )
    if draft:
        wanted, drafted = order_lines(session.store, session.occasion(), within=within, economy=economy)
    else:
        wanted, drafted = what_to_buy(session.store, session.local, within=within, economy=economy), ()
    session.document(
        {
            "lines": [_document(line, currency) for line in wanted.lines],
            "suppliers": [
                {
                    "supplier": group.supplier.name,
                    "cost": money_text(group.cost, currency),
                    "short_of_minimum": money_text(group.short_of_minimum, currency),
                }
                for group in wanted.groups
            ],
            "currency": currency,
            "waiting": list(wanted.drafted),
            "orders": [order.code for order in drafted],
            "troubles": list(wanted.troubles),
        }
    )
    for group in wanted.groups:
        session.say(f"{group.supplier.name}: {show_money(group.cost, currency)}")
        for line in group.lines:
            _say(session, line)
        if words := minimum_words(session.store, group):
            session.say(f"  {words}")
    if wanted.without_offer:
        session.say("No offer kept (stockroom supplier offer SUPPLIER MATERIAL PACK PRICE):")
        for line in wanted.without_offer:
            _say(session, line)
    if not wanted.lines:
        session.say(f"Nothing needs to be ordered within {within} days.")
    if wanted.drafted:
        session.say(f"Drafts that wait to be placed: {', '.join(wanted.drafted)}.")
    for order in drafted:
        session.say(f"Drafted {order.code} to {order.supplier.name}: stockroom order place {order.code}")
    for words in wanted.troubles:
        session.warn(words)


def _document(line: BuyLine, currency: str) -> dict[str, Any]:
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_text

    offer, packs, choice = line.offer, line.packs, line.choice
    net, unit = amount_text(line.net)
    document: dict[str, Any] = {
        "material": line.material.key,
        "name": line.material.name,
        "net": net,
        "unit": unit,
        "packs": packs,
        "supplier": None,
        "cost": None,
        "order_by": line.order_by.isoformat(),
        "late": line.late,
        "why": "; ".join(line.why),
        "advice": list(line.advice),
        "bookings": list(line.bookings),
    }
    if offer is None or packs is None or choice is None:
        return document
    return document | {
        "supplier": offer.supplier.name,
        "pack": amount_text(offer.pack)[0],
        "catalogue_number": offer.catalogue_number,
        "cost": money_text(offer.cost(packs), currency),
        "unit_price": {"price": _per_unit(line), "per": UNITS[offer.material.dimension][0]},
        "delivery_days": {"promised": choice.time.promised, "usual": choice.time.usual, "orders": choice.time.orders},
    }


def _per_unit(line: BuyLine) -> str | None:
    """Write the price of one unit with two digits more than money has, without needless noughts."""
    from decimal import Decimal

    from stockroom.science.money import minor_digits

    if line.offer is None or line.packs is None:
        return None
    digits = minor_digits(line.offer.own_currency)
    exact = unit_price(line.offer, line.packs).scaleb(-digits).quantize(Decimal(1).scaleb(-digits - 2))
    whole, _, decimals = f"{exact:f}".partition(".")
    kept = decimals[:digits] + decimals[digits:].rstrip("0")
    return f"{whole}.{kept}" if kept else whole


def _say(session: Session, line: BuyLine) -> None:
    from stockroom.science.money import show_money

    offer, packs = line.offer, line.packs
    when = f"order by {line.order_by}" if not line.late else f"LATE, order now (by {line.order_by})"
    if offer is None or packs is None or line.choice is None:
        session.say(f"  {line.material.name}: {goods(line.material, line.net.quanta)} lacking, by {line.order_by}")
    else:
        cost = show_money(offer.cost(packs), session.currency)
        per = f"{_per_unit(line)} {session.currency} per {per_unit(offer.material)}"
        session.say(f"  {line.material.name}: {packs} x {offer.pack_words}, {cost} ({per}); {when}")
    for words in line.why:
        session.say(f"      {words}")
    if line.choice is not None:
        session.say(f"      delivery: {line.choice.time.words}")
    for words in line.advice[0 if line.choice else 1 :]:
        session.say(f"      advice: {words}")
