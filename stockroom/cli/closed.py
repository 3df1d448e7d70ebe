"""`closed`: the days on which the studio or a supplier is closed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.nouns import without_nothing
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, why_option

if TYPE_CHECKING:
    from stockroom.actions.open_days import Closed

supplier_option = click.option("--supplier", metavar="NAME", help="A supplier's closed days, instead of the studio's.")


@click.group()
def closed() -> None:
    """When the studio, or a supplier, is closed: makings and orders are begun on the last open day before."""


@closed.command()
@click.argument("first", metavar="DATE")
@click.option("--until", metavar="DATE", help="The last closed day, where it is more than one.")
@click.option("--note", metavar="TEXT", help="What it is, such as 'winter break'.")
@supplier_option
@why_option
@json_option
@click.pass_obj
def new(
    session: Session, first: str, until: str | None, note: str | None, supplier: str | None, why: str | None
) -> None:
    """Keep closed days: stockroom closed new 2026-12-24 --until 2027-01-02 --note "winter break"."""
    from stockroom.actions.open_days import close

    _tell(session, close(session.store, session.occasion(why=why), first, until, note=note, supplier=supplier))


@closed.command()
@click.argument("days", metavar="DAYS")
@supplier_option
@why_option
@json_option
@click.pass_obj
def weekdays(session: Session, days: str, supplier: str | None, why: str | None) -> None:
    """Say which weekdays are closed: stockroom closed weekdays "Sat, Sun"; 'none' opens all of them."""
    from stockroom.actions.open_days import close_weekdays

    _tell(session, close_weekdays(session.store, session.occasion(why=why), days, supplier=supplier))


@closed.command()
@click.argument("day", metavar="DATE")
@supplier_option
@why_option
@json_option
@click.pass_obj
def drop(session: Session, day: str, supplier: str | None, why: str | None) -> None:
    """Take away the closed days that a day lies in."""
    from stockroom.actions.open_days import drop_closed

    _tell(session, drop_closed(session.store, session.occasion(why=why), day, supplier=supplier))


@closed.command("list")
@click.option("--all", "passed", is_flag=True, help="Those that have passed too.")
@json_option
@click.pass_obj
def list_closed(session: Session, passed: bool) -> None:
    """List the closed days of the studio and of the suppliers."""
    from stockroom.actions.open_days import all_closed

    found = all_closed(session.store, None if passed else session.local.date())
    session.document({"closed": [_document(one) for one in found]})
    for one in found:
        _say(session, one)
    if not found:
        session.say("No closed days are kept: stockroom closed new DATE --until DATE, or closed weekdays 'Sat, Sun'.")


def _tell(session: Session, one: Closed) -> None:
    session.document(_document(one))
    _say(session, one)


def _document(one: Closed) -> dict[str, Any]:
    return without_nothing(
        {
            "whose": one.whose,
            "weekdays": list(one.weekdays),
            "times": [
                without_nothing({"first": each.first.isoformat(), "last": each.last.isoformat(), "note": each.note})
                for each in one.times
            ],
        }
    )


def _say(session: Session, one: Closed) -> None:
    session.say(f"{one.whose}:" if one.weekdays or one.times else f"{one.whose}: always open")
    if one.weekdays:
        session.say(f"  closed every {', '.join(one.weekdays)}")
    for each in one.times:
        last = f" to {each.last}" if each.last != each.first else ""
        session.say(f"  closed {each.first}{last}" + (f" ({each.note})" if each.note else ""))
