"""`stockroom scan`: find what a label or typed code names, from text or from a photograph."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.cli.shelf import lot_document
from stockroom.domain.lots import Lot


@click.command()
@click.argument("text", nargs=-1, required=True, metavar="TEXT | IMAGE")
@json_option
@click.pass_obj
def scan(session: Session, text: tuple[str, ...]) -> None:
    """Find the lot, job or bench card that a scanned or typed code names; lower case and spaces are forgiven.

    What follows the code is ignored. For characters that cannot be read write a ? each: the lots that fit are
    listed by place. The name of a picture file reads the labels photographed on it.

    Example: stockroom scan l00 1w, or of a smudged label: stockroom scan 'L0?1W'
    """
    typed = " ".join(text)
    if _is_picture(typed):
        from stockroom.labels.photograph import read_photograph

        found = [_find(session, one) for one in read_photograph(Path(typed))]
        first = found[0] if len(found) == 1 else {"code": found[0]["code"], "codes": [one["code"] for one in found]}
        session.document({**first, "found": found} if len(found) > 1 else first)
    elif "?" in typed:
        _say_those_that_fit(session, typed)
    else:
        session.document(_find(session, typed))


def _is_picture(typed: str) -> bool:
    from stockroom.labels.photograph import SUFFIXES

    return typed.lower().endswith(SUFFIXES)


def _find(session: Session, typed: str) -> dict[str, Any]:
    """Tell what a code names, and return it for programs. Raises Unreadable, NotFound."""
    from stockroom.domain.codes import read_code

    code = read_code(typed)
    match code.prefix:
        case "J":
            return _tell_job(session, code.text)
        case "T":
            return _tell_card(session, code.text)
        case _:
            from stockroom.store.lots import find_lot

            return _tell_lot(session, find_lot(session.store, code.text))


def _tell_lot(session: Session, lot: Lot) -> dict[str, Any]:
    from stockroom.actions.label_making import find_out_of_date, made_of
    from stockroom.actions.labelling import label_of
    from stockroom.actions.shelf_lines import ShelfLine
    from stockroom.planning.fitness import fitness

    fit = fitness(lot, session.local)
    document = {**lot_document(session, ShelfLine(lot=lot, fit=fit)), "currency": session.currency}
    made = made_of(session.store, lot.code)
    document["labels_made"] = sum(one.copies for one in made)
    if lot.ended:
        session.say(
            f"{lot.code}  {lot.material.name}: emptied on {lot.ended_on} ({lot.ended_why}). Take this label off."
        )
        return document
    answer = "fit to use" if fit.fit else "NOT fit to use"
    session.say(f"{lot.code}  {lot.material.name}: {lot.amount_words}; {answer}, {fit.why}")
    if made:
        times = f"{document['labels_made']} times" if document["labels_made"] > 1 else "once"
        session.say(f"  its label was made {times}, last on {made[0].day}")
    out_of_date = find_out_of_date(session.store, label_of(session.store, lot.code)) if made else None
    if out_of_date:
        document["label_out_of_date"] = out_of_date.words
        session.say(f"  {out_of_date.words}. Reprint? stockroom label {lot.code} --print")
    return document


def _tell_job(session: Session, code: str) -> dict[str, Any]:
    from stockroom.store.jobs import find_job

    job = find_job(session.store, code)
    session.say(f"{job.code}  {job.title} ({job.state})")
    return {"code": job.code, "kind": "job", "title": job.title, "state": job.state}


def _tell_card(session: Session, code: str) -> dict[str, Any]:
    from stockroom.actions.cards import card_of

    card = card_of(session.store, code)
    session.say(f"{card.code}  bench card: {card.quantity} of {card.recipe_name}, version {card.version}")
    if card.version != card.version_now:
        session.say(f"  The recipe is at version {card.version_now} now: print a new card.")
    stock = card.recipe_kind == "stock"
    command = f"make --card {card.code}" if stock else f"use {card.recipe_key} --qty '{card.quantity}' --job …"
    session.say(f"  To book it: stockroom {command} --took 'MATERIAL=AMOUNT' …")
    return {
        "code": card.code,
        "kind": "card",
        "recipe": card.recipe_key,
        "name": card.recipe_name,
        "quantity": card.quantity,
        "version": card.version,
        "out_of_date": card.version != card.version_now,
    }


def _say_those_that_fit(session: Session, typed: str) -> None:
    from stockroom.actions.shelf_lines import ShelfLine
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
