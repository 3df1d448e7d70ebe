"""`stockroom year-end`: the sheet of a year, to be counted and signed."""

from __future__ import annotations

from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session


@click.command("year-end")
@click.argument("year", type=click.IntRange(1900, 2999), required=False)
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="A .pdf, .txt or .csv file; else the terminal."
)
@json_option
@click.pass_obj
def year_end(session: Session, year: int | None, out: Path | None) -> None:
    """Stock by place with room to write in what is counted, and what was used, wasted and spent in a YEAR.

    The present year is told up to today.

    Example: stockroom year-end 2026 --out year.pdf
    """
    from stockroom.actions.papers import paper_text, write_paper
    from stockroom.actions.year_end import load_year, year_lines, year_paper
    from stockroom.science.money import money_text

    today = session.local.date()
    found = load_year(session.store, year or today.year, today, session.zone)
    paper = year_paper(session.store, found)
    files = [str(write_paper(paper, out))] if out else []
    names = ("bought", "in_jobs", "studio_use", "wasted", "differences")
    session.document(
        {
            "since": found.first.isoformat(),
            "until": found.last.isoformat(),
            "currency": session.currency,
            "cost_incomplete": not found.end.complete,
            "opening": money_text(found.before.on_the_shelves, session.currency),
            **{name: money_text(found.spent(name), session.currency) for name in names},
            "closing": money_text(found.end.total, session.currency),
            "lines": year_lines(session.store, found),
            "files": files,
        }
    )
    session.say(f"Written: {files[0]}" if files else paper_text(paper).rstrip("\n"))
