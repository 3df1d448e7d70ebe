"""`stockroom shelf`: what is held."""

from __future__ import annotations

from typing import Any

import click

from stockroom.actions.shelf_lines import ShelfLine, shelf_lines
from stockroom.cli.output import json_option, lot_names
from stockroom.cli.session import Session
from stockroom.science.quantities import amount_and_unit


@click.command()
@click.argument("words", nargs=-1)
@click.option("--all", "everything", is_flag=True, help="No limit to the list (500 else).")
@json_option
@click.pass_obj
def shelf(session: Session, words: tuple[str, ...], everything: bool) -> None:
    """What is held: every lot, or those whose name, code, place or maker's lot hold all WORDS.

    Example: stockroom shelf calcium
    """
    limit = None if everything or session.json else 500
    lines, total = shelf_lines(session.store, " ".join(words), session.local, limit)
    if session.json:
        session.document(
            {"lots": [lot_document(session, line) for line in lines], "total": total, "currency": session.currency}
        )
        return
    if not lines:
        session.say("Nothing on the shelf" + (f" that fits '{' '.join(words)}'." if words else " yet."))
    for line in lines:
        lot = line.lot
        sign = " " if line.fit.fit else "!"
        place = f"  [{lot.place}]" if lot.place else ""
        session.say(f"{sign} {lot.code}  {lot.material.name}: {lot.amount_words}; {line.fit.why}{place}")
    if total > len(lines):
        session.say(f"{len(lines)} of {total} lots: add words to narrow, or --all.")


def lot_document(session: Session, line: ShelfLine) -> dict[str, Any]:
    """Return what programs get of one lot."""
    from stockroom.science.money import money_text

    lot = line.lot
    return {
        **lot_names(lot),
        "kind": lot.kind,
        **amount_and_unit(lot.amount),
        "about": lot.about,
        "use_by": lot.use_by,
        "use_by_rule": lot.use_by_rule,
        "check_by": lot.check_by,
        "ready_on": lot.ready_on,
        "opened_on": lot.opened_on,
        "strength": lot.strength,
        "place": lot.place,
        "maker_lot": lot.maker_lot,
        "state": lot.state,
        "fit": line.fit.fit,
        "why": line.fit.why,
        "value": money_text(lot.balance.value, session.currency),
        "cost_incomplete": not lot.cost_known,
    }
