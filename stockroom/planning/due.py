"""What has to be done, by when and why: the value, its words and order, and what needs no judging.

Quick to load: what was kept of an answer is told without anything else. The shelf is judged in `due_shelf.py`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stockroom.domain.edits import LeftOpen

WORDS = {
    "remake": "make afresh",
    "withdrawn": "unfit",
    "unexplained-loss": "not explained",
    "past-use-by": "past use-by",
    "discard-used-bath": "used bath",
    "short": "short for a job",
    "make-by": "begin making",
    "loan": "on loan",
    "booking-passed": "booking passed",
    "solid-only": "solid only",
    "empty": "none left",
    "low": "low",
    "order-late": "order late",
    "reorder": "order it",
    "use-first": "use first",
    "check": "check it",
    "suspect-residue": "suspect solid",
    "settle": "let it settle",
    "not-ready": "not ready yet",
    "can-full": "nearly full",
    "look-for": "look for it",
    "not-used": "not used",
}
"""What each kind of due is called. Of things due on the same day, the earlier kind here comes first."""

STOPS_WORK = frozenset(
    {"remake", "withdrawn", "past-use-by", "discard-used-bath", "short", "solid-only", "empty", "booking-passed"}
)
"""The kinds that are marked by a sign: work cannot go on, or should not."""

FAILED_CHECK = "check: "
"""How the mark of a lot begins that failed a check."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One thing to do."""

    kind: str
    code: str
    """Code of the lot, booking or action it is about, or the key of a material."""
    name: str
    by: str | None
    """Day or minute, ISO local; None where no day is known."""
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """A booking whose day has passed, neither done nor cancelled."""

    booking: str
    job: str
    treatment: str
    for_day: str


def in_urgency(items: Iterable[Due], today: date) -> list[Due]:
    """Sort what is due: by day, what has no day as of today, then by kind."""
    rank = {kind: index for index, kind in enumerate(WORDS)}
    return sorted(items, key=lambda item: (item.by or today.isoformat(), rank[item.kind], item.name, item.code))


def due_loans(loans: Sequence[LeftOpen]) -> list[Due]:
    """Tell every loan that is not back."""
    return [
        Due(
            kind="loan",
            code=loan.code,
            name=loan.words,
            by=loan.by,
            why=f"back by {loan.by}" if loan.by else "no day was said",
        )
        for loan in loans
    ]


def due_passed(passed: Sequence[Passed]) -> list[Due]:
    """Tell the bookings that were neither done nor cancelled by their day."""
    return [
        Due(
            kind="booking-passed",
            code=one.booking,
            name=f"{one.treatment} for {one.job}",
            by=one.for_day,
            why=f"booked for {one.for_day}: done, moved or dropped?",
        )
        for one in passed
    ]
