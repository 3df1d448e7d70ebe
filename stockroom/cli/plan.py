"""`plan`: what must be made and bought for booked treatments, and by when."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session


@click.command()
@click.option(
    "--within",
    type=click.IntRange(0, 3650),
    default=28,
    metavar="DAYS",
    help="What is to be begun in so many days (28).",
)
@json_option
@click.pass_obj
def plan(session: Session, within: int) -> None:
    """What must be made and bought for the booked treatments, by when and why.

    What should have begun already is marked LATE. Nothing is booked by it: 'stockroom make' and 'stockroom order' do
    that.
    """
    from stockroom.actions.planned import load_plan
    from stockroom.cli.told_needs import needs_document, say_needs_by_week

    planned = load_plan(session.store, session.local)
    make, buy = planned.within(session.local, within)
    troubles = [f"{code}: {why}" for code, why in planned.unworked] + planned.plan.troubles
    session.document(
        {"make": needs_document(make), "buy": needs_document(buy), "not_worked_out": troubles, "within": within}
    )
    if not (make or buy):
        what = (
            "Nothing booked needs anything made or bought" if planned.worked else "Nothing is booked, so nothing is due"
        )
        session.say(f"{what} within {within} days.")
    say_needs_by_week(session, [*make, *buy], session.local.date())
    for trouble in troubles:
        session.warn(f"Cannot be worked out yet: {trouble}")
