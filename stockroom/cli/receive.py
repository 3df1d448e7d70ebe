"""`stockroom receive` and `stockroom open`: book deliveries and found stock in; open bottles."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options
from stockroom.errors import BadInput

_PER_LINE = ("cost", "lot_number", "use_by", "place", "purity", "strength")
"""The options that may be said of each line of an order."""


@click.command()
@click.argument("material", required=False)
@click.argument("quantity", required=False)
@click.option("--cost", multiple=True, metavar="MONEY", help="The whole delivery; 0 where it was free.")
@click.option("--found", is_flag=True, help="Found stock: nobody knows what it cost.")
@click.option("--supplier", metavar="NAME", help="Where it was bought.")
@click.option("--lot-number", multiple=True, metavar="NUMBER", help="The maker's lot number.")
@click.option("--use-by", multiple=True, metavar="DATE", help="The maker's date; a month alone means its last day.")
@click.option("--place", multiple=True, metavar="PLACE", help="Where it is kept.")
@click.option("--purity", multiple=True, metavar="STRENGTH", help="What part of it is the substance: '95 % w/w'.")
@click.option("--strength", multiple=True, metavar="STRENGTH", help="Strength of a bought solution.")
@click.option("--opened-before", metavar="DATE", help="It was opened on that day already.")
@click.option("--as-one", is_flag=True, help="All packs as one lot.")
@click.option("--tare", multiple=True, metavar="MASS", help="What the empty container weighs; once, or for each.")
@click.option("--order", metavar="CODE", help="Goods against an order: all that is to come, or what is told.")
@click.option("--line", "lines", multiple=True, metavar="'MATERIAL=QTY'", help="With --order: what came of one line.")
@click.option("--freight", metavar="MONEY", help="With --order: shared out over the lots by value.")
@click.option("--more", is_flag=True, help="With --order: more came than was ordered, and is kept.")
@booking_options
@json_option
@click.pass_obj
def receive(
    session: Session,
    /,
    order: str | None,
    lines: tuple[str, ...],
    freight: str | None,
    more: bool,
    day: str | None,
    why: str | None,
    dry_run: bool,
    **told: Any,
) -> None:
    """Book a delivery in: one lot a pack, the cost shared to the cent.

    \b
    Examples: stockroom receive ethanol '3 x 1 L' --cost 41.70 --lot-number 7731 --use-by 2028-06
              stockroom receive --order P0015 --freight 6.90
              stockroom receive --order P0015 --line 'ethanol=2 x 1 L' --line 'blotter=25 sheets'
                        --lot-number ethanol=7731

    With --order the order's price is booked unless --cost says what was billed for a line; where several lines
    came, name the line before each value, as in the example.
    """
    if order is not None:
        from stockroom.cli.receive_order import receive_against

        receive_against(session, order, lines, freight, more, session.occasion(day, why), dry_run=dry_run, told=told)
        return
    if lines or freight is not None or more:
        raise BadInput("--line, --freight and --more belong to an order: say which with --order CODE.")
    if told["material"] is None or told["quantity"] is None:
        raise BadInput("What came? Write the material and how much, or --order CODE for goods that were ordered.")
    once = {name: _once(name, told[name]) for name in _PER_LINE}
    from stockroom.actions.receiving import Delivery
    from stockroom.actions.receiving import receive as book_in
    from stockroom.cli.told import say_not_booked
    from stockroom.planning.fitness import spoken
    from stockroom.science.money import money_text, read_money, show_money
    from stockroom.science.quantities import amount_and_unit, show

    currency = session.currency
    delivery = Delivery(
        material=told["material"],
        quantity=told["quantity"],
        cost=None if once["cost"] is None else read_money(once["cost"], currency),
        found=told["found"],
        supplier=told["supplier"],
        lot_number=once["lot_number"],
        use_by=once["use_by"],
        place=once["place"],
        purity=once["purity"],
        strength=once["strength"],
        opened=told["opened_before"],
        as_one=told["as_one"],
        tares=told["tare"],
    )
    came = book_in(session.store, session.occasion(day, why), delivery, dry_run=dry_run)
    total = sum(came.values)
    lots = [
        {
            "code": code,
            **amount_and_unit(held),
            "cost": money_text(value, currency) if came.cost_known else None,
        }
        for code, held, value in zip(came.codes, came.quantities, came.values, strict=True)
    ]
    session.document(
        {
            "action": came.action,
            "code": came.codes[0],
            "codes": list(came.codes),
            "material": came.material,
            "cost": money_text(total, currency) if came.cost_known else None,
            "currency": currency,
            "cost_incomplete": not came.cost_known,
            "use_by": came.use_by,
            "use_by_rule": came.use_by_rule,
            "unfit": came.unfit,
            "lots": lots,
        }
    )
    for code, held, value in zip(came.codes, came.quantities, came.values, strict=True):
        worth = show_money(value, currency) if came.cost_known else "cost not known"
        session.say(f"{code or 'would be received'}  {came.name}: {show(held)}, {worth}")
    if came.use_by:
        session.say(f"Use by {spoken(came.use_by)} ({came.use_by_rule}).")
    if came.unfit:
        session.warn(f"Not to be used: this maker's lot number is {came.unfit}")
    if came.action:
        session.say(f"Action {came.action}. Labels: stockroom label {' '.join(code or '' for code in came.codes)}")
    else:
        say_not_booked(session)


def _once(name: str, typed: tuple[str, ...]) -> str | None:
    if len(typed) > 1:
        raise BadInput(f"--{name.replace('_', '-')} is said {len(typed)} times. Say it once.")
    return typed[0] if typed else None


@click.command("open")
@click.argument("code")
@booking_options
@json_option
@click.pass_obj
def open_lot(session: Session, code: str, day: str | None, why: str | None, dry_run: bool) -> None:
    """Note that a bottle or pack was opened: its life once opened begins.

    Example: stockroom open L001W --day yesterday
    """
    from stockroom.actions.opening import open_lot as note_opening
    from stockroom.cli.told import say_not_booked
    from stockroom.planning.fitness import spoken

    opened = note_opening(session.store, session.occasion(day, why), code, dry_run=dry_run)
    session.document(
        {
            "action": opened.action,
            "code": opened.code,
            "opened_on": opened.opened_on,
            "use_by": opened.use_by,
            "use_by_rule": opened.use_by_rule,
        }
    )
    limit = f"use by {spoken(opened.use_by)} ({opened.use_by_rule})" if opened.use_by else "no date limits it"
    session.say(f"{opened.code}  {opened.name}: opened {opened.opened_on}, {limit}.")
    if opened.action is None:
        say_not_booked(session)
