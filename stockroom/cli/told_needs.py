"""What must be made or bought, told by week, and the answer to a booking."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from stockroom.actions.booking_answer import answer_booking
from stockroom.cli.nouns import without_nothing
from stockroom.cli.output import Output
from stockroom.cli.session import Session
from stockroom.domain.jobs import Booking
from stockroom.planning.needs import Need
from stockroom.science.quantities import amount_and_unit


def tell_answer(session: Session, booking: Booking, document: dict[str, Any], words: str) -> None:
    """Tell a booking that was just made or moved, and whether everything will be there for it."""
    answer = answer_booking(session.store, booking.code, session.local)
    earliest = answer.earliest.isoformat() if answer.earliest else None
    session.document(
        {
            **document,
            "ready": answer.ready,
            "make": needs_document(answer.make),
            "buy": needs_document(answer.buy),
            "earliest": earliest,
            "makes_late": list(answer.makes_late),
            "to_a_reading": list(answer.to_a_reading),
            "stand_ins": list(answer.stand_ins),
            "closed": answer.on_closed_day,
        }
    )
    session.say(words)
    if answer.ready:
        session.say("Everything it needs will be there.")
    elif answer.make or answer.buy:
        session.say("To be there in time:" if earliest is None else "Still to come for it:")
        for need in sorted([*answer.make, *answer.buy], key=lambda one: one.begin_by):
            say_need(session, need, date.fromisoformat(booking.for_day))
    for words in answer.stand_ins:
        session.say(f"{words}.")
    if answer.to_a_reading:
        session.say(f"Not reckoned with, since it is measured to a reading: {', '.join(answer.to_a_reading)}.")
    if answer.on_closed_day:
        session.warn(f"{booking.for_day} is kept as closed ('stockroom closed list').")
    if earliest is not None:
        session.warn(
            f"Not everything can be there on {booking.for_day}; the earliest day is {earliest}: "
            f"stockroom book --move {booking.code} {earliest}"
        )
    if answer.makes_late:
        session.warn(f"It takes what others count on; no longer in time: {', '.join(answer.makes_late)}.")


def needs_document(needs: Sequence[Need]) -> list[dict[str, Any]]:
    """Return what programs get of what must be made or bought."""
    found = []
    for need in needs:
        found.append(
            without_nothing(
                {
                    "what": need.material.key,
                    "name": need.material.name,
                    **amount_and_unit(need.amount),
                    "by": need.begin_by.isoformat(),
                    "needed_on": need.by.isoformat(),
                    "there_from": need.there_from.isoformat(),
                    "late": need.late,
                    "why": need.why,
                    "bookings": list(need.bookings),
                    "recipe": need.recipe,
                    "supplier": need.supplier,
                }
            )
        )
    return found


def say_needs_by_week(output: Output, needs: Sequence[Need], today: date) -> None:
    """Say what is to be begun, week by week; what should have begun before today first."""
    heading = ""
    for need in sorted(needs, key=lambda one: one.begin_by):
        monday = need.begin_by - timedelta(days=need.begin_by.weekday())
        week = "Should have begun already" if need.begin_by < today else f"Week of {monday:%a} {monday.isoformat()}"
        if week != heading:
            output.say(week)
            heading = week
        say_need(output, need)


def say_need(output: Output, need: Need, wanted: date | None = None) -> None:
    """Say one thing to make or buy: what to do by when, and why below it.

    It is LATE where it is not there on the day it is `wanted`, or on the first day that needs it.
    """
    what = f"{need.verb} {need.amount_words} of {need.material.name}"
    source = need.recipe or need.supplier
    late = "  LATE" if need.there_from > (wanted or need.by) else ""
    output.say(f"  by {need.begin_by:%a} {need.begin_by}  {what}{f' ({source})' if source else ''}{late}")
    output.say(f"{'':20}{need.why}")
