"""How offers and orders are told, to people and to programs."""

from __future__ import annotations

from datetime import date
from typing import Any

from stockroom.cli.output import Output
from stockroom.domain.orders import Offer, Order, OrderLine, goods, state_words


def offer_document(offer: Offer) -> dict[str, Any]:
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_and_unit

    return {
        "supplier": offer.supplier.name,
        "material": offer.material.key,
        **amount_and_unit(offer.pack),
        "price": money_text(offer.price, offer.currency),
        "currency": offer.currency,
        "rate": None if offer.rate is None else str(offer.rate),
        "cost": money_text(offer.in_own(offer.price), offer.own_currency),
        "tax_percent": None if offer.tax_percent is None else str(offer.tax_percent),
        "minimum_packs": offer.minimum_packs,
        "breaks": [{"packs": packs, "price": money_text(price, offer.currency)} for packs, price in offer.breaks],
        "catalogue_number": offer.catalogue_number,
        "seen_on": offer.seen_on,
        "ended_on": offer.ended_on,
    }


def say_offer(offer: Offer, *, supplier: bool = True) -> str:
    """Write an offer in one line."""
    from stockroom.science.money import show_money

    parts = [f"{offer.material.name}, {offer.pack_words}: {show_money(offer.price, offer.currency)}"]
    if offer.rate is not None:
        parts.append(f"that is {show_money(offer.in_own(offer.price), offer.own_currency)} at {offer.rate}")
    parts += [f"from {packs} packs {show_money(price, offer.currency)}" for packs, price in offer.breaks]
    if offer.minimum_packs > 1:
        parts.append(f"at least {offer.minimum_packs} packs")
    if offer.tax_percent is not None:
        parts.append(f"tax {offer.tax_percent} %")
    if offer.catalogue_number:
        parts.append(f"number {offer.catalogue_number}")
    parts.append(f"seen {offer.seen_on}" + (f", ended {offer.ended_on}" if offer.ended_on else ""))
    return (f"{offer.supplier.name}: " if supplier else "") + ", ".join(parts)


def order_document(order: Order, currency: str) -> dict[str, Any]:
    from stockroom.science.money import money_text

    return {
        "code": order.code,
        "supplier": order.supplier.name,
        "state": order.state,
        "drafted_on": order.drafted_on,
        "placed_on": order.placed_on,
        "expected_on": order.expected_on,
        "ended_on": order.ended_on,
        "ended_why": order.ended_why,
        "note": order.note,
        "lines": [_line_document(line, currency) for line in order.lines],
        "cost": money_text(order.cost, currency),
        "currency": currency,
    }


def _line_document(line: OrderLine, currency: str) -> dict[str, Any]:
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_and_unit, amount_text

    material = line.offer.material
    return {
        "line": line.position,
        "material": material.key,
        "packs": line.packs,
        "pack": amount_text(line.offer.pack)[0],
        **amount_and_unit(material.quantity(line.ordered)),
        "came": amount_text(material.quantity(line.came))[0],
        "open": amount_text(material.quantity(line.open))[0],
        "catalogue_number": line.offer.catalogue_number,
        "price": money_text(line.price, line.offer.currency),
        "price_currency": line.offer.currency,
        "cost": money_text(line.cost, currency),
    }


def say_order(output: Output, order: Order, currency: str, today: date) -> None:
    """Tell an order with its lines."""
    from stockroom.science.money import show_money

    output.say(f"{order.code}  {order.supplier.name}: {state_words(order, today)}")
    for line in order.lines:
        came = ""
        if order.placed_on:
            still = f"{goods(line.offer.material, line.open)} to come" if line.open else "all has come"
            came = f"; {still}"
        output.say(f"  {line.position}. {line.words} at {show_money(line.price, line.offer.currency)}{came}")
    if order.lines:
        output.say(f"  comes to {show_money(order.cost, currency)}")
    else:
        output.say(f"  No lines yet: stockroom order add {order.code} MATERIAL PACKS")
    if order.note:
        output.say(f"  {order.note}")
