"""`stockroom due`: what has to be done."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import click

from stockroom.actions.whats_due import due_items
from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import BadInput
from stockroom.planning.due import WORDS

WITHIN_DAYS = 14
CALENDAR_DAYS = 365


@click.command()
@click.option(
    "--within",
    type=click.IntRange(0, 3650),
    metavar="DAYS",
    help="How far ahead to look (14; for a calendar a year).",
)
@click.option(
    "--ics",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write the dates as a calendar file; written again, it is brought up to date.",
)
@click.option(
    "--until", metavar="DATE", help="Before a break that ends on that day: what goes past its date, settles, or vents."
)
@click.option("--replace", is_flag=True, help="With --ics: put it in the place of any other file.")
@json_option
@click.pass_obj
def due(session: Session, within: int | None, until: str | None, ics: Path | None, replace: bool) -> None:
    """What has to be done, most urgent first: by when, and why.

    Example: stockroom due --ics stockroom.ics
    """
    if replace and ics is None:
        raise BadInput("--replace goes with --ics: say which file.")
    if until is not None and within is not None:
        raise BadInput("--until says how far ahead to look: leave --within away.")
    if within is None:
        within = WITHIN_DAYS if ics is None else CALENDAR_DAYS
    last = None if until is None else _last_away(session, until)
    if last is not None:
        within = (last - session.local.date()).days
    items = due_items(session.store, session.local, within, away_until=last)
    document: dict[str, Any] = {
        "items": [{"kind": one.kind, "code": one.code, "name": one.name, "by": one.by, "why": one.why} for one in items]
    }
    if ics is not None:
        from stockroom.actions.calendar_file import write_calendar

        written = write_calendar(session.store, items, ics, session.local, replace=replace)
        session.document(
            {**document, "file": str(written.path), "entries": written.entries, "cancelled": written.cancelled}
        )
        gone = f", {written.cancelled} of the file before marked as cancelled" if written.cancelled else ""
        from stockroom.science.numerals import counted

        session.say(f"{written.path}: {counted(written.entries, 'date')}{gone}.")
        return
    session.document(document)
    if not items:
        session.say(f"Nothing is due within {within} days.")
    for one in items:
        by = (one.by or "").replace("T", " ")
        session.say(f"{by:16}  {WORDS[one.kind]:17}  {one.code}  {one.name}")
        session.say(f"{'':37}{one.why}")


def _last_away(session: Session, until: str) -> date:
    from stockroom.science.days import read_day

    last = read_day(until, today=session.local.date())
    if last < session.local.date():
        raise BadInput(f"{last} has passed. Say the last day of the break.")
    return last
