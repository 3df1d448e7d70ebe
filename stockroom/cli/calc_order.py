"""`calc order-size`: how much to order at once; without a stockroom."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.output import Output, json_option
from stockroom.errors import BadInput


@click.command("order-size")
@click.option("--per-year", required=True, metavar="NUMBER", help="What is used in a year.")
@click.option("--order-cost", required=True, metavar="NUMBER", help="What an order costs: time, freight.")
@click.option("--keeping", metavar="NUMBER", help="What keeping one costs a year.")
@click.option("--keeping-percent", metavar="PERCENT", help="The same as a share of --price.")
@click.option("--price", metavar="NUMBER", help="Of one; with --keeping-percent.")
@click.option("--break", "breaks", multiple=True, metavar="'QTY = PRICE'", help="The price of each from so many on.")
@click.option("--pack", metavar="NUMBER", help="How many a pack holds: the answer is in whole packs.")
@json_option
@click.pass_obj
def order_size(
    output: Output,
    per_year: str,
    order_cost: str,
    keeping: str | None,
    keeping_percent: str | None,
    price: str | None,
    breaks: tuple[str, ...],
    pack: str | None,
) -> None:
    """Say how much to order at once so that ordering and keeping cost least; an estimate, and only advice.

    Numbers are in whatever units you count in. With price breaks the whole yearly cost decides, goods included.

    \b
    Examples: stockroom calc order-size --per-year 952 --order-cost 27 --keeping 100 --pack 10
              stockroom calc order-size --per-year 12000 --order-cost 50 --keeping-percent 20 --price 10
                        --break '500 = 9.50' --break '1000 = 9'
    """
    from stockroom.science.order_size import best_at_breaks, economic_quantity, in_whole_packs, yearly_cost

    use, order = _number(per_year), _number(order_cost)
    if keeping is not None:
        if keeping_percent or price or breaks:
            raise BadInput("--keeping is a sum; --price, --break and --keeping-percent go together without it.")
        kept = _number(keeping)
        quantity = economic_quantity(use, order, kept)
        packs = None if pack is None else in_whole_packs(_number(pack), use, order, kept)
        at_once = quantity if packs is None else packs * _number(pack or "1")
        found = {"quantity": at_once, "packs": packs, "economic_quantity": quantity, "price": None}
        cost = yearly_cost(at_once, use, order, kept)
    elif keeping_percent is None or price is None or pack is not None:
        raise BadInput("Say what keeping one costs: --keeping, or --keeping-percent with --price (and without --pack).")
    else:
        prices = [(0.0, _number(price)), *(_break(text) for text in breaks)]
        best = best_at_breaks(sorted(prices), use, order, _number(keeping_percent) / 100)
        found = {"quantity": best.quantity, "packs": None, "economic_quantity": None, "price": best.price}
        cost = best.yearly_cost
    _tell(output, found, cost, goods=price is not None)


def _tell(output: Output, found: dict[str, Any], cost: float, *, goods: bool) -> None:
    output.document({name: _rounded(value) for name, value in {**found, "yearly_cost": cost}.items()})
    packs = f" ({found['packs']} packs)" if found["packs"] else ""
    each = f" at {found['price']:g} each" if found["price"] else ""
    what = "Goods, ordering and keeping" if goods else "Ordering and keeping"
    output.say(f"Order about {found['quantity']:.6g} at once{packs}{each}. {what} then cost about {cost:,.2f} a year.")
    output.say("An estimate for steady use; what is needed, packs and dates come first.")


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 2)


def _number(text: str) -> float:
    from stockroom.science.numerals import read_decimal

    return float(read_decimal(text))


def _break(text: str) -> tuple[float, float]:
    least, sign, price = text.partition("=")
    if not sign:
        raise BadInput(f"'{text}' is not a price break. Write it like '500 = 9.50'.")
    return _number(least), _number(price)
