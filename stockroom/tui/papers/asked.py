"""What a paper on screen is: its fields, and how it is drawn up from what stands in them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime

from stockroom.domain.papers import Paper
from stockroom.errors import BadInput, StockroomError
from stockroom.science.days import read_day
from stockroom.store.open import Store
from stockroom.tui.forms.form import Answers, Asked

TODAY = "today"
"""The answer that the page itself gives: the day it is, ISO."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPaper:
    """A paper as data."""

    name: str
    title: str
    use: str
    """What it is for, in a few words."""
    help: str
    """Told by the key that explains a screen."""
    fields: tuple[Asked, ...]
    draw: Callable[[Store, Answers, datetime], Paper]
    """Draws it up at a local moment; raises StockroomError."""
    named_after: str = ""
    """The field whose choice is part of the file's name."""
    expand: Callable[[Store, Answers, datetime], Answers] = lambda store, known, local: known
    """Says what follows from what is known when it is opened."""

    def stem(self, answers: Answers) -> str:
        """Name its file, without the ending."""
        return "-".join(filter(None, (self.name, answers.get(self.named_after))))


def day_of(answers: Answers, key: str) -> date:
    """Read a day up to today; an empty field means today. Raises Unreadable, BadInput."""
    today = date.fromisoformat(answers[TODAY])
    day = read_day(answers[key], today=today) if key in answers else today
    if day > today:
        raise BadInput(f"{day} is still to come: the books tell of days up to today.")
    return day


def first_day(answers: Answers, last: str = "until") -> date | None:
    """Read the first day of a span, if one was said. Raises Unreadable, BadInput where it comes after the last."""
    if "since" not in answers:
        return None
    since = day_of(answers, "since")
    try:
        until = day_of(answers, last)
    except StockroomError:
        return since  # what is wrong with the last day is told beside that
    if since > until:
        raise BadInput(f"{since} comes after {until}: the first day is not to come after the last.")
    return since


def day_field(key: str, words: str, hint: str) -> Asked:
    """Ask for a day up to today."""
    return Asked(key=key, words=words, hint=hint, read=lambda store, answers: day_of(answers, key))


SINCE = Asked(
    key="since",
    words="From",
    hint="the first day; or 2026-01-01",
    read=lambda store, answers: first_day(answers),
)
UNTIL = day_field("until", "Up to", "today; or yesterday, 2026-10-31")
