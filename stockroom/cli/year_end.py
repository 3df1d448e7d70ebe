"""`stockroom year-end`: the sheet of a year, to be counted and signed."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import SHEET, Into, hand_out, paper_options
from stockroom.cli.session import Session


@click.command("year-end")
@click.argument("year", type=click.IntRange(1900, 2999), required=False)
@paper_options(SHEET)
@json_option
@click.pass_obj
def year_end(session: Session, year: int | None, into: Into) -> None:
    """Stock by place with room to write in what is counted, and what was used, wasted and spent in a YEAR.

    The present year is told up to today.

    Example: stockroom year-end 2026 --out year.pdf
    """
    from stockroom.actions.year_end import load_year, year_lines, year_paper
    from stockroom.science.money import money_text

    today = session.local.date()
    found = load_year(session.store, year or today.year, today, session.zone)
    names = ("bought", "in_jobs", "studio_use", "wasted", "differences")
    hand_out(
        session,
        year_paper(session.store, found),
        into,
        {
            "since": found.first.isoformat(),
            "until": found.last.isoformat(),
            "currency": session.currency,
            "cost_incomplete": not found.end.complete,
            "opening": money_text(found.before.on_the_shelves, session.currency),
            **{name: money_text(found.spent(name), session.currency) for name in names},
            "closing": money_text(found.end.total, session.currency),
            "lines": year_lines(session.store, found),
        },
    )
