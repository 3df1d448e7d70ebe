"""`place`: where lots are kept."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.nouns import (
    Retired,
    edits_document,
    new_name_option,
    retired_option,
    retired_words,
    retires,
    say_edits,
    tell_edited,
    without_nothing,
)
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, why_option
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import Place
from stockroom.store.edits import edits_of
from stockroom.store.lots import lots_at
from stockroom.store.studio import all_places, find_place


@click.group()
def place() -> None:
    """Shelves, cupboards, refrigerators and drawers."""


@place.command()
@click.argument("name")
@click.option("--note", metavar="TEXT", help="What to know about it.")
@json_option
@click.pass_obj
def new(session: Session, name: str, note: str | None) -> None:
    """Add a place."""
    from stockroom.actions.studio import new_place

    added = new_place(session.store, name, note)
    session.document(_document(added))
    session.say(f"Added the place {added.name}.")


@place.command("list")
@retired_option
@json_option
@click.pass_obj
def list_places(session: Session, retired: bool) -> None:
    """List the places."""

    def words(each: Place) -> str:
        return each.name + (f" ({each.note})" if each.note else "") + retired_words(each.retired_on)

    found = all_places(session.store, retired=retired)
    session.listing("places", found, _document, words, "No places yet: stockroom place new NAME.")


@place.command()
@click.argument("name")
@json_option
@click.pass_obj
def show(session: Session, name: str) -> None:
    """Show a place, what is kept there, and its edits."""
    from stockroom.science.quantities import amount_and_unit
    from stockroom.science.quantities import show as show_quantity

    found = find_place(session.store, name, retired=True)
    lots = lots_at(session.store, found.id)
    edits = edits_of(session.store, "place", str(found.id))
    held = [{"code": lot.code, "material": lot.material.name, **amount_and_unit(lot.amount)} for lot in lots]
    session.document({**_document(found), "lots": held, "edits": edits_document(edits)})
    session.say(found.name + retired_words(found.retired_on))
    if found.note:
        session.say(f"  {found.note}")
    for lot in lots:
        session.say(f"  {lot.code} {lot.material.name}, {show_quantity(lot.amount)}")
    if not lots:
        session.say("  Nothing is kept there.")
    say_edits(session, edits)


@place.command()
@click.argument("name")
@new_name_option
@click.option("--note", metavar="TEXT", help="What to know about it; '' takes the note away.")
@why_option
@json_option
@click.pass_obj
def edit(session: Session, name: str, new_name: str | None, note: str | None, why: str | None) -> None:
    """Rename a place or change its note."""
    from stockroom.actions.studio import edit_place

    changed, made = edit_place(session.store, session.occasion(why=why), name, name=new_name, note=note)
    tell_edited(session, _document(changed), changed.name, made)


@retires(place, "NAME")
def retire(session: Session, occasion: Occasion, name: str, undo: bool) -> Retired:
    """Offer a place no more; it must be empty."""
    from stockroom.actions.studio import retire_place

    changed = retire_place(session.store, occasion, name, undo=undo)
    return _document(changed), changed.name, []


def _document(place: Place) -> dict[str, Any]:
    return without_nothing({"name": place.name, "note": place.note, "retired_on": place.retired_on})
