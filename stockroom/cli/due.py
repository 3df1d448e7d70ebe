"""`stockroom due`: what has to be done."""

from __future__ import annotations

import click

from stockroom.actions.whats_due import due_items
from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.planning.due import WORDS


@click.command()
@click.option("--within", type=click.IntRange(0, 3650), default=14, metavar="DAYS", help="How far ahead to look (14).")
@json_option
@click.pass_obj
def due(session: Session, within: int) -> None:
    """What has to be done, most urgent first: by when, and why."""
    items = due_items(session.store, session.local, within)
    session.document(
        {
            "items": [
                {"kind": one.kind, "code": one.code, "name": one.name, "by": one.by, "why": one.why} for one in items
            ]
        }
    )
    if not items:
        session.say(f"Nothing is due within {within} days.")
    for one in items:
        by = (one.by or "").replace("T", " ")
        session.say(f"{by:16}  {WORDS[one.kind]:17}  {one.code}  {one.name}")
        session.say(f"{'':37}{one.why}")
