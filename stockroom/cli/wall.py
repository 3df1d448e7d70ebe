"""`stockroom wall`: the coming days on one page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session

if TYPE_CHECKING:
    from stockroom.actions.wall import ToDo


@click.command()
@click.option("--days", type=click.IntRange(1, 62), default=7, metavar="N", help="So many days from today on (7).")
@paper_options()
@json_option
@click.pass_obj
def wall(session: Session, days: int, into: Into) -> None:
    """One page for the wall: what is booked, what to make and order, and what else is due, day by day.

    Example: stockroom wall --out week.pdf --replace
    """
    from stockroom.actions.wall import wall as coming_days
    from stockroom.actions.wall import wall_paper

    page = coming_days(session.store, session.local, days)
    hand_out(
        session,
        wall_paper(page),
        into,
        {
            "from": page.first.isoformat(),
            "to": page.last.isoformat(),
            "waiting": _items(page.waiting),
            "days": [
                {"day": one.day.isoformat(), "closed": one.closed, "items": _items(one.items)} for one in page.days
            ],
        },
    )


def _items(items: Sequence[ToDo]) -> list[dict[str, Any]]:
    return [{"kind": one.kind, "code": one.code, "name": one.name, "clock": one.clock, "why": one.why} for one in items]
