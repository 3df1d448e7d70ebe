"""`stockroom losses`: what was wasted, and why; what is on loan, and what stands in waste cans."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import amount_and_unit, amount_text, show

if TYPE_CHECKING:
    from stockroom.actions.losses import Losses


@click.command()
@click.option("--since", metavar="DATE", help="From that day on; else from the first.")
@click.option("--until", metavar="DATE", help="Through that day; else to today.")
@paper_options()
@json_option
@click.pass_obj
def losses(session: Session, since: str | None, until: str | None, into: Into) -> None:
    """What was wasted, by reason: spilled, measured short, discarded, not accounted for.

    What is on loan now and what stands in waste cans is told below.

    Example: stockroom losses --since 2026-01-01 --out losses.pdf
    """
    from stockroom.actions.losses import can_words, find_losses, loan_words, losses_paper
    from stockroom.domain.ledger import NO_REASON
    from stockroom.science.days import read_day

    today, currency = session.local.date(), session.currency
    last = read_day(until, today=today) if until else today
    found = find_losses(session.store, last, read_day(since, today=today) if since else None)
    if into[0]:
        hand_out(session, losses_paper(found, currency), into, _document(found, currency))
        return
    session.document(_document(found, currency))
    for reason in found.reasons:
        session.say(f"{show_money(reason.value, currency):>14}  {reason.reason or NO_REASON}")
        for one in reason.lines:
            session.say(f"{show_money(one.value, currency):>18}  {show(one.quantity)} of {one.name}")
    session.say(f"{show_money(found.total, currency):>14}  in all, {found.span}")
    for title, lines in (
        ("On loan now:", [loan_words(one) for one in found.loans]),
        ("In waste cans now:", [can_words(one) for one in found.cans]),
    ):
        if lines:
            session.say(title)
        for words in lines:
            session.say(f"  {words}")


def _document(found: Losses, currency: str) -> dict[str, Any]:
    return {
        "since": found.since,
        "until": found.until,
        "total": money_text(found.total, currency),
        "currency": currency,
        "reasons": [
            {
                "reason": reason.reason,
                "value": money_text(reason.value, currency),
                "lines": [
                    {
                        "material": one.material,
                        "name": one.name,
                        **amount_and_unit(one.quantity),
                        "value": money_text(one.value, currency),
                    }
                    for one in reason.lines
                ],
            }
            for reason in found.reasons
        ],
        "loans": [{"action": one.code, "words": one.words, "by": one.by} for one in found.loans],
        "waste_cans": [
            {
                "code": page.can.lot.code,
                "name": page.can.lot.material.name,
                "amount": amount_text(page.can.lot.amount)[0],
                "unit": "mL",
                "holds": [
                    {
                        "name": one.lot.material.name,
                        "code": one.lot.code,
                        **amount_and_unit(one.quantity),
                        "day": one.day,
                    }
                    for one in page.poured
                ],
            }
            for page in found.cans
        ],
    }
