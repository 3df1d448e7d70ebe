"""`stockroom settle`: a jar over solid was shaken, carried or warmed, and settles again."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options


@click.command()
@click.argument("code")
@click.option("--after", required=True, metavar="shaking|carrying|warming", help="Why it settles again.")
@click.option("--temperature", metavar="'22 °C'", help="At which it was shaken and settles; strength follows it.")
@booking_options
@json_option
@click.pass_obj
def settle(
    session: Session, code: str, after: str, temperature: str | None, day: str | None, why: str | None, dry_run: bool
) -> None:
    """Let a jar over solid settle again; it is not ready until then.

    Example: stockroom settle L002U --after shaking --temperature 21
    """
    from stockroom.actions.settling import settle as let_settle
    from stockroom.cli.told import say_not_booked
    from stockroom.planning.fitness import spoken

    done = let_settle(session.store, session.occasion(day, why), code, after, temperature=temperature, dry_run=dry_run)
    session.document(
        {
            "action": done.action,
            "code": done.code,
            "after": done.after,
            "celsius": done.celsius,
            "ready_on": done.ready_on,
            "advice": done.advice,
        }
    )
    session.say(f"{done.code}  {done.name}: settling after {done.after}, ready {spoken(done.ready_on)}")
    session.say(f"  {done.advice}")
    if done.action is None:
        say_not_booked(session)
