"""What the commands for materials, recipes, places, measures, people and jobs have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stockroom.cli.output import Output

if TYPE_CHECKING:
    from stockroom.domain.edits import Change
    from stockroom.store.open import Row

Command = TypeVar("Command", bound=Callable[..., Any])


def undo_option(command: Command) -> Command:
    """Add --undo to a command that retires something."""
    return click.option("--undo", is_flag=True, help="Take it back into use.")(command)


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


def say_edits(output: Output, edits: Iterable[Row]) -> None:
    """Tell every edit there was: when, by whom, what it said before."""
    for edit in edits:
        why = f" ({edit['reason']})" if edit["reason"] else ""
        output.say(
            f"  {edit['booked_at'][:10]} {edit['initials']}: {edit['field']} "
            f"{_said(edit['was'])} → {_said(edit['became'])}{why}"
        )


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
