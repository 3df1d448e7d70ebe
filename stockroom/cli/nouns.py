"""What the commands for materials, recipes, places, measures, people and jobs have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import Command, Output, json_option
from stockroom.cli.session import Session, why_option
from stockroom.store.stockroom_settings import local_day

if TYPE_CHECKING:
    from stockroom.domain.edits import Change
    from stockroom.domain.occasion import Occasion
    from stockroom.store.open import Row


def undo_option(command: Command) -> Command:
    """Add --undo to a command that retires something."""
    return click.option("--undo", is_flag=True, help="Take it back into use.")(command)


def new_name_option(command: Command) -> Command:
    """Add --name to a command that edits something found by its name."""
    return click.option("--name", "new_name", metavar="NAME", help="What it is called from now on.")(command)


def retired_option(command: Command) -> Command:
    """Add --all to a command that lists something."""
    return click.option("--all", "retired", is_flag=True, help="Retired ones too.")(command)


def without_nothing(values: dict[str, Any]) -> dict[str, Any]:
    """Leave out of a document what is not known."""
    return {name: value for name, value in values.items() if value is not None}


def say_changes(output: Output, name: str, made: Iterable[Change]) -> None:
    """Tell an edit: each field with its old and its new value."""
    lines = [f"  {change.field}: {_said(change.was)} → {_said(change.became)}" for change in made]
    output.say(f"{name}: changed." if lines else f"{name}: nothing changed.")
    for line in lines:
        output.say(line)


def changes_document(made: Iterable[Change]) -> list[dict[str, Any]]:
    return [{"field": change.field, "was": change.was, "became": change.became} for change in made]


def say_edits(session: Session, edits: Iterable[Row]) -> None:
    """Tell every edit there was: when, by whom, what it said before."""
    for edit in edits:
        why = f" ({edit['reason']})" if edit["reason"] else ""
        session.say(
            f"  {local_day(session.store, edit['booked_at'])} {edit['initials']}: {edit['field']} "
            f"{_said(edit['was'])} → {_said(edit['became'])}{why}"
        )


def tell_edited(session: Session, document: dict[str, Any], name: str, made: Sequence[Change]) -> None:
    """Answer an edit: what it is now, as `document` says, and each field that changed."""
    session.document({**document, "changes": changes_document(made)})
    say_changes(session, name, made)


Retired = tuple[dict[str, Any], str, list[str]]
"""What was retired, or is in use again: as a document, its name, and what else is to be said of it."""
Retire = Callable[[Session, "Occasion", str, bool], Retired]


def still_lines(undo: bool, *named: tuple[str, Sequence[str]]) -> list[str]:
    """Say where what was retired is still named; nothing where it is in use again."""
    return [f"still {where}: {', '.join(codes)}" for where, codes in named if codes and not undo]


def retires(group: click.Group, argument: str) -> Callable[[Retire], None]:
    """Make a function the group's command `retire`, with --undo and --why."""

    def add(retire: Retire) -> None:
        @group.command("retire", help=retire.__doc__)
        @click.argument("named", metavar=argument)
        @undo_option
        @why_option
        @json_option
        @click.pass_obj
        def command(session: Session, named: str, undo: bool, why: str | None) -> None:
            document, name, more = retire(session, session.occasion(why=why), named, undo)
            session.document(document)
            session.say(f"{name} is {'in use again' if undo else 'retired'}.")
            for line in more:
                session.say(f"  {line}")

    return add


def retired_words(retired_on: str | None) -> str:
    """Write when something retired, to follow its name; nothing for what is in use."""
    return f", retired on {retired_on}" if retired_on else ""


def edits_document(edits: Iterable[Row]) -> list[dict[str, Any]]:
    return [
        {
            "field": edit["field"],
            "was": edit["was"],
            "became": edit["became"],
            "by": edit["initials"],
            "at": edit["booked_at"],
            "why": edit["reason"],
        }
        for edit in edits
    ]


def _said(value: str | None) -> str:
    return "nothing" if value is None else value
