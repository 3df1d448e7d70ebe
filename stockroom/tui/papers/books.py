"""Papers of the books: what was lost, and the sheet of a year."""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

from stockroom.domain.papers import Paper
from stockroom.errors import BadInput
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.tui.forms.fields import whole_number
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.papers.asked import SINCE, TODAY, UNTIL, AskedPaper, day_of, first_day

FIRST_YEAR = 1900


def _losses(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.losses import find_losses, losses_paper

    found = find_losses(store, day_of(answers, "until"), first_day(answers))
    return losses_paper(found, setting(store, "currency"))


LOSSES = AskedPaper(
    name="losses",
    title="Losses",
    use="what was wasted, and why",
    help="""
What was wasted, by reason: spilled, measured short, discarded, not accounted for. Below it, what
is on loan now and what stands in waste cans.
""",
    fields=(SINCE, UNTIL),
    draw=_losses,
)


def _year(answers: Answers) -> int:
    this = date.fromisoformat(answers[TODAY]).year
    year = whole_number(answers.get("year"), "a year", 9999) or this
    if year > this:
        raise BadInput(f"{year} is still to come.")
    if year < FIRST_YEAR:
        raise BadInput(f"{year} is too early: write the year in four figures, for example {this}.")
    return year


def _year_end(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.year_end import load_year, year_paper

    zone = ZoneInfo(setting(store, "time_zone"))
    return year_paper(store, load_year(store, _year(answers), local.date(), zone))


YEAR_END = AskedPaper(
    name="year-end",
    title="Sheet of a year",
    use="stock, use and waste, to be counted and signed",
    help="""
The stock by place with room to write in what is counted, and what was used, wasted and spent in
a year; the present year is told up to today. It can be had as a table for a spreadsheet too.
""",
    fields=(
        Asked(
            key="year",
            words="Year",
            hint="this year, up to today; or 2025",
            read=lambda store, answers: _year(answers),
        ),
    ),
    draw=_year_end,
    named_after="year",
)
