"""`stockroom move`: put lots in another place."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options


@click.command()
@click.argument("what")
@click.option("--to", required=True, metavar="PLACE", help="Where it goes.")
@click.option("--shaken", is_flag=True, help="It was carried and stirred up: jars over solid settle again.")
@booking_options
@json_option
@click.pass_obj
def move(session: Session, what: str, to: str, shaken: bool, day: str | None, why: str | None, dry_run: bool) -> None:
    """Move a lot, or everything at a place, to another place.

    Example: stockroom move 'Bench shelf' --to 'Solvent cupboard'
    """
    from stockroom.actions.moving import move as carry
    from stockroom.store.lots import find_lot

    moved = carry(session.store, session.occasion(day, why), what, to, shaken=shaken, dry_run=dry_run)
    session.document(
        {"action": moved.action, "codes": list(moved.codes), "to": moved.to, "settling": list(moved.settling)}
    )
    session.say(f"{'Would be moved' if dry_run else 'Moved'} to {moved.to}: {', '.join(moved.codes)}.")
    over_solid = [code for code in moved.codes if find_lot(session.store, code).over_solid]
    if over_solid and not shaken:
        session.say(f"Was {', '.join(over_solid)} stirred up on the way? Then say --shaken: it must settle again.")
    if moved.settling:
        session.say(f"Settling again: {', '.join(moved.settling)}.")
