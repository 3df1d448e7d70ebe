"""`stockroom scan`: find the lot that a label or typed code names."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.cli.shelf import lot_document


@click.command()
@click.argument("text", nargs=-1, required=True)
@json_option
@click.pass_obj
def scan(session: Session, text: tuple[str, ...]) -> None:
    """Find the lot that a scanned or typed code names; lower case and spaces are forgiven.

    Example: stockroom scan l00 1w
    """
    from stockroom.actions.looking import ShelfLine
    from stockroom.planning.fitness import fitness
    from stockroom.store.lots import find_lot

    lot = find_lot(session.store, " ".join(text))
    fit = fitness(lot, session.local)
    session.document({**lot_document(session, ShelfLine(lot=lot, fit=fit)), "currency": session.currency})
    if lot.ended:
        session.say(
            f"{lot.code}  {lot.material.name}: emptied on {lot.ended_on} ({lot.ended_why}). Take this label off."
        )
    else:
        answer = "fit to use" if fit.fit else "NOT fit to use"
        session.say(f"{lot.code}  {lot.material.name}: {lot.amount_words}; {answer}, {fit.why}")
