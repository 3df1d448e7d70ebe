"""`stockroom pour`: pour one jar into another."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options


@click.command()
@click.argument("code")
@click.argument("quantity", metavar="QTY", required=False)
@click.option("--into", required=True, metavar="CODE", help="The jar it is poured into.")
@booking_options
@json_option
@click.pass_obj
def pour(
    session: Session, code: str, quantity: str | None, into: str, day: str | None, why: str | None, dry_run: bool
) -> None:
    """Pour some of a jar, or all of it, into another of the same; the more cautious dates rule.

    Solid stays where it lies. A used bath, another material or what is not fit makes the jar unfit, and needs a
    reason.

    Example: stockroom pour L001W '200 mL' --into L002U
    """
    from stockroom.actions.pouring import pour as pour_into
    from stockroom.cli.told import say_kept_counts
    from stockroom.cli.told_hazards import cautions_document, say_cautions
    from stockroom.planning.fitness import reached, spoken
    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import amount_and_unit, amount_text, show

    poured = pour_into(session.store, session.occasion(day, why), code, into, quantity, dry_run=dry_run)
    session.document(
        {
            "action": poured.action,
            "code": poured.into,
            "from": poured.code,
            **amount_and_unit(poured.quantity),
            "value": money_text(poured.value, session.currency),
            "currency": session.currency,
            "left": amount_text(poured.left)[0],
            "holds": amount_text(poured.holds)[0],
            "strength": poured.strength,
            "use_by": poured.use_by,
            "use_by_rule": poured.use_by_rule,
            "ready_on": poured.ready_on,
            "unfit": poured.unfit,
            "solid_stays": poured.solid_stays,
            "ended": poured.ended,
            "cautions": cautions_document(poured.cautions),
            "reworked": [one.count.code for one in poured.reworked],
        }
    )
    say_cautions(session, poured.cautions)
    session.say(
        f"{'Would be poured' if dry_run else 'Poured'}: {show(poured.quantity)} of {poured.name} ({poured.code}) into "
        f"{poured.into}, with {show_money(poured.value, session.currency)} of its cost."
    )
    strength = f", {poured.strength}" if poured.strength else ""
    session.say(f"{poured.into}  {poured.into_name}: {show(poured.holds)}{strength}")
    if poured.unfit:
        session.say(f"  NOT FIT: {poured.unfit}.")
    if poured.use_by:
        session.say(f"  Use by {spoken(poured.use_by)} ({poured.use_by_rule}).")
    if poured.ready_on and not reached(poured.ready_on, session.local):
        session.say(f"  Ready {spoken(poured.ready_on)}.")
    if poured.ended:
        session.say(f"{poured.code} has ended: take its label off.")
    elif poured.solid_stays:
        session.say(f"Solid stays in {poured.code}: only clear liquid was poured.")
    say_kept_counts(session, poured.reworked)
    if poured.action:
        session.say(f"Action {poured.action}. Its label changed: stockroom label {poured.into}")
