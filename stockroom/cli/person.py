"""`person`: who books."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.nouns import (
    edits_document,
    retired_words,
    say_edits,
    tell_edited,
    undo_option,
    without_nothing,
)
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, why_option
from stockroom.domain.edits import LeftOpen
from stockroom.domain.studio import Person
from stockroom.store.edits import edits_of
from stockroom.store.left_open import left_open
from stockroom.store.studio import all_people, find_person


@click.group()
def person() -> None:
    """The people of the studio; initials belong to one person for ever."""


@person.command()
@click.argument("initials")
@click.argument("name")
@json_option
@click.pass_obj
def new(session: Session, initials: str, name: str) -> None:
    """Add a person."""
    from stockroom.actions.studio import new_person

    added = new_person(session.store, initials, name)
    session.document(_document(added))
    session.say(f"Added {added.initials} ({added.name}). They book with: stockroom --by {added.initials} …")


@person.command("list")
@json_option
@click.pass_obj
def list_people(session: Session) -> None:
    """List the people, those who retired too: their initials stand on labels."""
    people = all_people(session.store)
    session.document({"people": [_document(each) for each in people]})
    for each in people:
        session.say(f"{each.initials:8} {each.name}" + retired_words(each.retired_on))


@person.command()
@click.argument("initials")
@json_option
@click.pass_obj
def show(session: Session, initials: str) -> None:
    """Show a person, what they have left open, and the edits."""
    found = find_person(session.store, initials)
    still_open = left_open(session.store, found.initials)
    edits = edits_of(session.store, "person", found.initials)
    session.document({**_document(found), "left_open": _open_document(still_open), "edits": edits_document(edits)})
    session.say(f"{found.initials} {found.name}" + retired_words(found.retired_on))
    _say_open(session, still_open)
    say_edits(session, edits)


@person.command()
@click.argument("initials")
@click.option("--name", metavar="NAME", required=True, help="The name from now on. Initials never change.")
@why_option
@json_option
@click.pass_obj
def edit(session: Session, initials: str, name: str, why: str | None) -> None:
    """Change a person's name."""
    from stockroom.actions.studio import edit_person

    changed, made = edit_person(session.store, session.occasion(why=why), initials, name)
    tell_edited(session, _document(changed), changed.initials, made)


@person.command()
@click.argument("initials")
@undo_option
@why_option
@json_option
@click.pass_obj
def retire(session: Session, initials: str, undo: bool, why: str | None) -> None:
    """Let a person book nothing more, and list what they leave open."""
    from stockroom.actions.studio import retire_person

    changed, still_open = retire_person(session.store, session.occasion(why=why), initials, undo=undo)
    session.document({**_document(changed), "left_open": _open_document(still_open)})
    session.say(f"{changed.initials} ({changed.name}) {'books again' if undo else 'is retired'}.")
    _say_open(session, still_open)


def _document(person: Person) -> dict[str, Any]:
    return without_nothing({"initials": person.initials, "name": person.name, "retired_on": person.retired_on})


def _open_document(still_open: list[LeftOpen]) -> list[dict[str, Any]]:
    return [{"kind": each.kind, "code": each.code, "what": each.words, "by": each.by} for each in still_open]


def _say_open(session: Session, still_open: list[LeftOpen]) -> None:
    for each in still_open:
        session.say(f"  still open: {each.code} {each.words}" + (f", back by {each.by}" if each.by else ""))
