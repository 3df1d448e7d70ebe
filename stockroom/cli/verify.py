"""`stockroom verify`: prove the books."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli.output import json_option
from stockroom.cli.progressing import shown_on
from stockroom.cli.session import Session, dry_run_option, why_option
from stockroom.errors import BadInput, ExitCode
from stockroom.science.money import money_text, show_money

if TYPE_CHECKING:
    from stockroom.actions.verifying import Repairing


@click.command()
@click.option(
    "--seal", metavar="SEAL", help="A seal that was written down: prove that the books up to it are the same."
)
@click.option("--repair", "mend", is_flag=True, help="Derive anew what is kept beside the entries; never the entries.")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def verify(session: Session, seal: str | None, mend: bool, why: str | None, dry_run: bool) -> int:
    """Prove file, seals and books; list everything that is wrong, and the sums. Ends with 1 where anything is.

    Example: stockroom verify --seal "$(cat seal-of-january.txt)"
    """
    from dataclasses import asdict

    from stockroom.actions.verifying import repair
    from stockroom.actions.verifying import verify as prove

    progress = shown_on(session)
    repaired = None
    if mend:
        if seal is not None:
            raise BadInput("Say --repair or --seal, not both.")
        repaired = repair(session.store, session.occasion(why=why), dry_run=dry_run, progress=progress)
    elif dry_run or why:
        raise BadInput("--dry-run and --why go with --repair.")
    found = repaired.left if repaired else prove(session.store, progress, seal=seal)
    currency = session.currency
    values = asdict(found.sums)
    session.document(
        {
            "problems": [{"kind": one.kind, "code": one.where, "words": one.words} for one in found.problems],
            "sums": {name: money_text(value, currency) for name, value in values.items()},
            "currency": currency,
            "last_seal": found.last_seal,
            **({"sealed_until": found.sealed_until} if seal is not None else {}),
            **({"mended": list(repaired.mended), "action": repaired.action} if repaired else {}),
        }
    )
    if repaired:
        _say_repair(session, repaired, dry_run)
    for problem in found.problems:
        session.say(f"! {problem.words}")
    session.say("Nothing is wrong." if not found.problems else f"{len(found.problems)} wrong. Keep this file as it is.")
    if found.sealed_until is not None:
        where = f"That is the seal of action {found.sealed_until}" if found.sealed_until else "That is the first seal"
        sound = "" if any(one.kind == "seal" for one in found.problems) else ": up to it nothing was changed since"
        session.say(f"{where}{sound}.")
    for name, value in values.items():
        session.say(f"  {name.replace('_', ' '):<16} {show_money(value, currency)}")
    session.say(f"Last seal: {found.last_seal}")
    return ExitCode.REFUSED if found.problems else ExitCode.DONE


def _say_repair(session: Session, repaired: Repairing, dry_run: bool) -> None:
    for words in repaired.mended:
        session.say(f"{'Would mend' if dry_run else 'Mended'}: {words}")
    if not repaired.mended:
        session.say("There was nothing to mend: what is kept beside the entries agrees with them.")
    if repaired.action:
        session.say(f"Action {repaired.action}. The file as it was before: {repaired.copy}")
