"""`init`: begin a stockroom."""

from __future__ import annotations

import os
from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session


@click.command()
@click.option("--empty", is_flag=True, help="Without the starter materials, recipes, places and measures.")
@click.option("--currency", metavar="CODE", default="EUR", show_default=True, help="ISO 4217 code; fixed afterwards.")
@click.option("--time-zone", metavar="ZONE", help="Such as Europe/Berlin; else this machine's. Fixed afterwards.")
@click.option("--costs", metavar="net|gross", default="net", show_default=True, help="Without or with tax; as fixed.")
@click.option("--name", metavar="NAME", help="The name of the first person, whose initials --by gives.")
@json_option
@click.pass_obj
def init(session: Session, empty: bool, currency: str, time_zone: str | None, costs: str, name: str | None) -> None:
    """Begin a new stockroom with the starter materials and recipes.

    It needs one person to book under: `stockroom --by AB init --name "A. Bauer"` makes that one. Without --by
    (and without initials in the settings) the first person is ME. As long as there is only one person, commands
    without --by book under them. A file that is there already is never overwritten.
    """
    from stockroom.actions.beginning import begin

    begun = begin(
        session.path,
        initials=session.by or session.settings.by,
        name=name,
        currency=currency,
        time_zone=time_zone or machine_zone(),
        costs=costs,
        empty=empty,
    )
    session.document(
        {
            "path": str(begun.path),
            "person": begun.initials,
            "currency": begun.currency,
            "time_zone": begun.time_zone,
            "costs": begun.costs,
            "materials": begun.materials,
            "recipes": begun.recipes,
        }
    )
    session.say(f"A new stockroom is at {begun.path}: {begun.materials} materials, {begun.recipes} recipes.")
    session.say(f"Costs are in {begun.currency}, {begun.costs}; days are those of {begun.time_zone}.")
    session.say(f"The first person is {begun.initials} ({begun.name}). Others: stockroom person new INITIALS NAME.")


def machine_zone() -> str:
    """Return the name of this machine's time zone: TZ, else where /etc/localtime points, else UTC."""
    from zoneinfo import ZoneInfo

    link = Path("/etc/localtime")
    pointed = str(link.resolve()).partition("zoneinfo/")[2] if link.is_symlink() else ""
    for name in (os.environ.get("TZ", "").removeprefix(":"), pointed):
        try:
            if name:
                return ZoneInfo(name).key
        except (KeyError, OSError, ValueError):
            continue
    return "UTC"
