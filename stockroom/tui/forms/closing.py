"""Closing the books up to a day, and opening them again."""

from __future__ import annotations

from dataclasses import replace

from textual.content import Content

from stockroom.actions.closing import Closing, close_books, open_books
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.science.days import read_day
from stockroom.store.open import Store
from stockroom.tui.forms.fields import WHY, read_any_day
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import one_line, rows


def _close(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Closing | None) -> Closing:
    last = read_day(answers["until"], today=occasion.today)
    return close_books(store, occasion, last, dry_run=dry_run, confirmed=confirmed)


def _text(plan: Closing, currency: str) -> Content:
    warnings = [Content.styled(f"\n! {one_line(words)}", "$text-warning") for words in plan.warnings]
    return Content("").join([rows([("closed up to", f"{plan.until}, that day too")]), *warnings])


CLOSE_BOOKS = Form(
    name="close-books",
    title="Close the books",
    help="""
Closing the books up to a day, that day too. What turns up for it later is booked on the day it
turns up and names its own day; jobs that were closed keep their figure.
""",
    fields=(
        Asked(
            key="until",
            words="Up to",
            hint="2026-10-31",
            needed=True,
            read=lambda store, answers: read_any_day(store, answers, "until"),
        ),
        WHY,
    ),
    act=_close,
    plan=_text,
    question=lambda answers: f"Close the books up to {answers['until']}?",
    done=lambda done, currency: ("The books are closed", _text(done, currency)),
)


def _open(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Closing | None) -> Closing:
    if not occasion.reason:
        raise BadInput("Why are they opened again? Write it in the field Why; it is kept.")
    first = read_day(answers["first"], today=occasion.today)
    return open_books(store, occasion, first, dry_run=dry_run, confirmed=confirmed)


OPEN_BOOKS = Form(
    name="open-books",
    title="Open the books again",
    help="Opening closed books again from a day on, with a reason that is kept.",
    fields=(
        Asked(
            key="first",
            words="From",
            hint="2026-10-01",
            needed=True,
            read=lambda store, answers: read_any_day(store, answers, "first"),
        ),
        replace(WHY, hint="an invoice was forgotten", rare=False),
    ),
    act=_open,
    plan=_text,
    question=lambda answers: f"Open the books from {answers['first']} on?",
    done=lambda done, currency: ("The books are open again", _text(done, currency)),
)
