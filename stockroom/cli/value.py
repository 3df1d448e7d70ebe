"""`stockroom value`: what the stock was worth on a day."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option, lot_names
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session
from stockroom.errors import BadInput

if TYPE_CHECKING:
    from stockroom.actions.valuing import AverageLine, StockValue
    from stockroom.planning.moving_average import Averages


@click.command()
@click.option("--on", "on", metavar="DATE", help="At the end of that day; else today.")
@click.option("--as-booked", is_flag=True, help="As the books said on that day, without what was booked later.")
@click.option("--since", metavar="DATE", help="From when on to tell what was written off; else from New Year.")
@click.option("--lots", is_flag=True, help="List every lot.")
@click.option("--moving-average", is_flag=True, help="Beside it, the value at the moving average of each material.")
@paper_options()
@json_option
@click.pass_obj
def value(
    session: Session, on: str | None, as_booked: bool, since: str | None, lots: bool, moving_average: bool, into: Into
) -> None:
    """What the stock was worth on a day, by place and kind, and what was written off, by reason.

    Each lot is worth its own cost, and the earliest date is used first. By default things count from the day they
    happened, as the books say now.

    \b
    Examples: stockroom value --on 2026-12-31
              stockroom value --on 2026-12-31 --as-booked
              stockroom value --lots --out value.pdf
    """
    from stockroom.actions.valuing import averages, stock_value
    from stockroom.science.days import read_day

    today = session.local.date()
    day = read_day(on, today=today) if on else today
    first = read_day(since, today=today) if since else None
    if day > today:
        raise BadInput(f"{day} is still to come. The stock is valued for today or a day before.")
    if first and first > day:
        raise BadInput(f"--since {first} comes after {day}: turn them round.")
    found = stock_value(session.store, day, session.zone, as_booked=as_booked, since=first)
    average = averages(session.store, day, session.zone, as_booked=as_booked) if moving_average else None
    if into[0]:
        from stockroom.actions.value_paper import value_paper

        paper = value_paper(found, session.currency, lots=lots, average=average)
        hand_out(session, paper, into, _document(session, found, average))
        return
    session.document(_document(session, found, average))
    _say(session, found, average, lots=lots)


def _document(
    session: Session, found: StockValue, average: tuple[Averages, list[AverageLine]] | None
) -> dict[str, Any]:
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_and_unit

    def money(minor: int) -> str:
        return money_text(minor, session.currency)

    document: dict[str, Any] = {
        "on": found.day,
        "as_booked": found.as_booked,
        "total": money(found.total),
        "currency": session.currency,
        "cost_incomplete": not found.complete,
        "by_place": [{"place": place, "value": money(minor)} for place, minor in found.by_place.items()],
        "by_kind": [{"kind": kind, "value": money(minor)} for kind, minor in found.by_kind.items()],
        "lots": [
            {
                **lot_names(one.lot),
                "place": one.place,
                **amount_and_unit(one.quantity),
                "value": money(one.value),
                "cost_incomplete": not one.lot.cost_known,
            }
            for one in found.lots
        ],
        "sums": {name: money(getattr(found.sums, name)) for name in found.sums.__dataclass_fields__},
        "written_off": {
            "since": found.since,
            "total": money(sum(found.written_off.values())),
            "reasons": [{"reason": reason, "value": money(minor)} for reason, minor in found.written_off.items()],
        },
        "booked_late": [
            {"action": one.code, "kind": one.kind, "day": one.day, "for": one.for_day, "value": money(one.value)}
            for one in found.late
        ],
    }
    if average is not None:
        sums, lines = average
        document["moving_average"] = {
            "total": money(sums.held),
            "used": money(sums.used),
            "lines": [
                {
                    "material": one.material.key,
                    **amount_and_unit(one.quantity),
                    "value": money(one.value),
                    "at_average": money(one.at_average),
                }
                for one in lines
            ],
        }
    return document


def _say(
    session: Session, found: StockValue, average: tuple[Averages, list[AverageLine]] | None, *, lots: bool
) -> None:
    from stockroom.science.money import show_money
    from stockroom.science.quantities import show

    def line(minor: int, words: str) -> None:
        session.say(f"  {show_money(minor, session.currency):>14}  {words}")

    how = "as the books said then" if found.as_booked else "by when things happened"
    session.say(f"Stock at the end of {found.day}, {how}:")
    for place, minor in found.by_place.items():
        line(minor, place)
    line(found.total, "in all" + ("" if found.complete else " at least: the cost of some of it is not known"))
    sums = found.sums
    places = {
        "jobs": sums.in_jobs,
        "studio use": sums.studio_use,
        "waste": sums.wasted,
        "differences": sums.differences,
    }
    shares = [f"{show_money(minor, session.currency)} {where}" for where, minor in places.items() if minor]
    line(sums.bought, f"bought until then; the rest went to: {', '.join(shares) or 'nothing yet'}")
    if found.by_kind:
        session.say("By kind:")
    for kind, minor in found.by_kind.items():
        line(minor, kind)
    if found.written_off:
        session.say(f"Written off since {found.since}:")
    for reason, minor in found.written_off.items():
        line(minor, reason)
    if found.late:
        session.say("Booked late, for days that were closed:")
    for each in found.late:
        line(each.value, f"{each.kind} ({each.code}) on {each.day}, for {each.for_day}")
    if lots:
        session.say("Every lot:")
    for one in found.lots if lots else ():
        line(one.value, f"{show(one.quantity)} of {one.lot.material.name} ({one.lot.code}), {one.place}")
    if average is not None:
        pools, lines = average
        session.say("At the moving average of each material, beside the books:")
        for each_material in lines:
            books = show_money(each_material.value, session.currency)
            line(
                each_material.at_average,
                f"{show(each_material.quantity)} of {each_material.material.name}; in the books {books}",
            )
        line(pools.held, "in all")
