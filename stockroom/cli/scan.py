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

    A character that cannot be read is typed as ?: the lots that fit are listed by place.

    Example: stockroom scan l00 1w, or of a smudged label: stockroom scan 'L0?1W'
    """
    from stockroom.actions.looking import ShelfLine
    from stockroom.planning.fitness import fitness
    from stockroom.store.lots import find_lot

    typed = " ".join(text)
    if "?" in typed:
        _say_those_that_fit(session, typed)
        return
    lot = find_lot(session.store, typed)
    fit = fitness(lot, session.local)
    session.document({**lot_document(session, ShelfLine(lot=lot, fit=fit)), "currency": session.currency})
    if lot.ended:
        session.say(
            f"{lot.code}  {lot.material.name}: emptied on {lot.ended_on} ({lot.ended_why}). Take this label off."
        )
    else:
        answer = "fit to use" if fit.fit else "NOT fit to use"
        session.say(f"{lot.code}  {lot.material.name}: {lot.amount_words}; {answer}, {fit.why}")


def _say_those_that_fit(session: Session, typed: str) -> None:
    from stockroom.actions.looking import ShelfLine
    from stockroom.errors import NotFound
    from stockroom.planning.fitness import fitness
    from stockroom.science.numerals import quoted
    from stockroom.store.lots import lots_like

    lots = lots_like(session.store, typed)
    if not lots:
        raise NotFound(
            f"No lot's code could be {quoted(typed)}. Look again, or find it by name: stockroom shelf WORDS."
        )
    lines = [ShelfLine(lot=lot, fit=fitness(lot, session.local)) for lot in lots]
    session.document(
        {
            "code": lots[0].code if len(lots) == 1 else None,
            "lots": [lot_document(session, line) for line in lines],
            "currency": session.currency,
        }
    )
    for lot in lots:
        where = f"emptied on {lot.ended_on}" if lot.ended else lot.place or "no place"
        session.say(f"{where}:  {lot.code}  {lot.material.name}, {lot.amount_words}")
