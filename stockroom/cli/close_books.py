"""`stockroom close-books`: nothing is booked any more for days that are closed."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, dry_run_option, why_option
from stockroom.errors import BadInput


@click.command("close-books")
@click.argument("day", required=False)
@click.option("--open-from", metavar="DATE", help="Open the books again from this day on; needs --why.")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def close_books(session: Session, day: str | None, open_from: str | None, why: str | None, dry_run: bool) -> None:
    """Close the books up to DAY, that day too; without one, say how far they are closed.

    What turns up later for a closed day is booked today and names its day; undoing something of a closed day is dated
    today; jobs that were closed keep their figure.

    \b
    Examples: stockroom close-books 2026-10-31
              stockroom close-books --open-from 2026-10-01 --why 'an invoice was forgotten'
    """
    from stockroom.actions.closing import close_books as close
    from stockroom.actions.closing import open_books
    from stockroom.science.days import read_day
    from stockroom.store.stockroom_settings import closed_until

    if day and open_from:
        raise BadInput("Close up to a day, or open from one; not both.")
    if not day and not open_from:
        until = closed_until(session.store)
        session.document({"closed_until": until, "action": None})
        session.say(f"The books are closed up to {until}." if until else "The books are open.")
        return
    last = read_day(day or open_from or "", today=session.local.date())
    act = close if day else open_books
    done = act(session.store, session.occasion(why=why), last, dry_run=dry_run)
    session.document({"closed_until": done.until, "action": done.action, "warnings": list(done.warnings)})
    would = "" if done.action else " This is only the plan, nothing was booked."
    session.say(
        f"The books are closed up to {done.until}.{would}" if day else f"The books are open from {last} on.{would}"
    )
    for warning in done.warnings:
        session.warn(warning)
    if done.action:
        session.say(f"Action {done.action}.")
