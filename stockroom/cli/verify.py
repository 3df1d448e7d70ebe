"""`stockroom verify`: prove the books."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import ExitCode
from stockroom.science.money import money_text, show_money


@click.command()
@json_option
@click.pass_obj
def verify(session: Session) -> int:
    """Prove file, seals and books; list everything that is wrong, and the sums. Ends with 1 where anything is."""
    from dataclasses import asdict

    from stockroom.actions.verifying import verify as prove

    found = prove(session.store)
    currency = session.currency
    values = asdict(found.sums)
    session.document(
        {
            "problems": [{"kind": one.kind, "code": one.where, "words": one.words} for one in found.problems],
            "sums": {name: money_text(value, currency) for name, value in values.items()},
            "currency": currency,
            "last_seal": found.last_seal,
        }
    )
    for problem in found.problems:
        session.say(f"! {problem.words}")
    session.say("Nothing is wrong." if not found.problems else f"{len(found.problems)} wrong. Keep this file as it is.")
    for name, value in values.items():
        session.say(f"  {name.replace('_', ' '):<16} {show_money(value, currency)}")
    session.say(f"Last seal: {found.last_seal}")
    return ExitCode.REFUSED if found.problems else ExitCode.DONE
