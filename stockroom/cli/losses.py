"""`stockroom losses`: what was wasted, and why."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import BadInput


@click.command()
@click.option("--since", metavar="DATE", help="From that day on; else from the first.")
@click.option("--until", metavar="DATE", help="Through that day; else to today.")
@json_option
@click.pass_obj
def losses(session: Session, since: str | None, until: str | None) -> None:
    """What was wasted, by reason: spilled, measured short, discarded, not accounted for.

    Example: stockroom losses --since 2026-01-01
    """
    from itertools import groupby

    from stockroom.science.days import read_day
    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import amount_text, show
    from stockroom.store.losses import losses as losses_between

    today, currency = session.local.date(), session.currency
    last = read_day(until, today=today) if until else today
    first = read_day(since, today=today) if since else None
    if first and first > last:
        raise BadInput(f"--since {first} comes after --until {last}: turn them round.")
    found = losses_between(session.store, first.isoformat() if first else "", last.isoformat())
    by_reason = [
        (reason, list(lines))
        for reason, lines in groupby(sorted(found, key=lambda one: one.reason or ""), key=lambda one: one.reason)
    ]
    by_reason.sort(key=lambda pair: -sum(one.value for one in pair[1]))
    total = sum(one.value for one in found)
    session.document(
        {
            "since": first.isoformat() if first else None,
            "until": last.isoformat(),
            "total": money_text(total, currency),
            "currency": currency,
            "reasons": [
                {
                    "reason": reason,
                    "value": money_text(sum(one.value for one in lines), currency),
                    "lines": [
                        {
                            "material": one.material,
                            "name": one.name,
                            "amount": amount_text(one.quantity)[0],
                            "unit": amount_text(one.quantity)[1],
                            "value": money_text(one.value, currency),
                        }
                        for one in lines
                    ],
                }
                for reason, lines in by_reason
            ],
        }
    )
    for reason, lines in by_reason:
        session.say(f"{show_money(sum(one.value for one in lines), currency):>14}  {reason or 'no reason given'}")
        for one in lines:
            session.say(f"{show_money(one.value, currency):>18}  {show(one.quantity)} of {one.name}")
    session.say(f"{show_money(total, currency):>14}  in all, {first or 'from the first day'} to {last}")
