"""`job` and `book`: work on named objects, and the treatments booked for it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.nouns import without_nothing
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options, day_option, why_option
from stockroom.domain.jobs import Booking, Job, JobObject
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput
from stockroom.science.numerals import counted
from stockroom.science.quantities import Dimension, Quantity, amount_and_unit, amount_text
from stockroom.science.quantities import show as show_quantity
from stockroom.store.jobs import all_jobs, bookings_of, done_for, find_job, job_by_id

if TYPE_CHECKING:
    from stockroom.actions.jobs import JobChanged


@click.group()
def job() -> None:
    """One client's or department's work on named objects."""


@job.command()
@click.argument("title")
@click.option("--client", metavar="NAME", help="Whom it is done for.")
@click.option(
    "--object", "objects", metavar='"NAME, 30 x 40 cm"', multiple=True, help="An object with its size. May be repeated."
)
@json_option
@click.pass_obj
def new(session: Session, title: str, client: str | None, objects: tuple[str, ...]) -> None:
    """Open a job: stockroom job new "Harbour charts" --object "Sheet 1, 60 x 80 cm" --object "Sheet 2"."""
    from stockroom.actions.jobs import new_job

    opened = new_job(session.store, title, today=session.local.date(), client=client, objects=objects)
    session.document(_document(opened))
    session.say(f"Opened job {opened.code}, {opened.title}.")
    _say_objects(session, opened)


@job.command("list")
@click.option("--open", "only_open", is_flag=True, help="Only those that are open.")
@json_option
@click.pass_obj
def list_jobs(session: Session, only_open: bool) -> None:
    """List the jobs: open ones first, newest first."""

    def words(each: Job) -> str:
        count = f", {counted(len(each.objects), 'object')}" if each.objects else ""
        client = f", for {each.client}" if each.client else ""
        return f"{each.code}  {each.title}{client}{count}{_closed(each)}"

    found = all_jobs(session.store, closed=not only_open)
    session.listing("jobs", found, _head, words, "No jobs. Open one with 'stockroom job new TITLE'.")


@job.command()
@click.argument("job", metavar="JOB")
@json_option
@click.pass_obj
def show(session: Session, job: str) -> None:
    """Show a job: its objects, its bookings, and what was done for it."""
    found = find_job(session.store, job)
    bookings, done = bookings_of(session.store, found.id), done_for(session.store, found.id)
    session.document(
        {
            **_document(found),
            "bookings": [_booking(each) for each in bookings],
            "actions": [
                {
                    "action": each.code,
                    "kind": each.kind,
                    "recipe": each.recipe,
                    "day": each.day,
                    "by": each.by,
                    "why": each.reason,
                    "objects": list(each.objects),
                    "not_fit": list(each.not_fit),
                    "media_test": {"by": each.media.by, "not_tested": each.media.not_tested} if each.media else None,
                }
                for each in done
            ],
        }
    )
    session.say(f"{found.code}  {found.title}" + (f", for {found.client}" if found.client else "") + _closed(found))
    _say_objects(session, found)
    for booking in bookings:
        session.say(f"  {_booking_words(booking)}")
    for each in done:
        what = f"{each.kind} {each.recipe}" if each.recipe else each.kind
        session.say(f"  {each.day} {what}, {each.by} ({each.code})" + (f": {each.reason}" if each.reason else ""))
        if each.kind in ("use", "take") and found.objects:
            session.say(f"    for {', '.join(each.objects) or 'the job, object not stated'}")
        if each.media:
            session.say(f"    {each.media.words}")
        for lot in each.not_fit:
            session.say(f"    not fit, used all the same: {lot}")


@job.command("object")
@click.argument("job", metavar="JOB")
@click.argument("thing", metavar='"NAME, 30 x 40 cm"')
@why_option
@json_option
@click.pass_obj
def add(session: Session, job: str, thing: str, why: str | None) -> None:
    """Add an object to a job, or give one that is there already its size."""
    from stockroom.actions.jobs import add_object

    changed, added = add_object(session.store, session.occasion(why=why), job, thing)
    session.document({**_document(changed), "object": _object(added)})
    session.say(f"{changed.code}: {added.position} {_object_words(added)}")


@job.command()
@click.argument("job", metavar="JOB")
@booking_options
@json_option
@click.pass_obj
def close(session: Session, job: str, day: str | None, why: str | None, dry_run: bool) -> None:
    """Close a job: nothing more is booked to it. What is still open is named."""
    from stockroom.actions.jobs import close_job

    _tell(session, close_job(session.store, session.occasion(day, why), job, dry_run=dry_run))


@job.command()
@click.argument("job", metavar="JOB")
@day_option
@why_option
@json_option
@click.pass_obj
def reopen(session: Session, job: str, day: str | None, why: str | None) -> None:
    """Open a closed job again, with a reason."""
    from stockroom.actions.jobs import reopen_job

    _tell(session, reopen_job(session.store, session.occasion(day, why), job))


@click.command()
@click.argument("recipe", metavar="[RECIPE]", required=False)
@click.option("--job", metavar="JOB", help="The job it is for: code, title or part of it.")
@click.option("--for", "for_day", metavar="DATE", help="The day it is planned for.")
@click.option("--qty", "fill", metavar="QTY", help="One fill of the bath; else the recipe's own.")
@click.option("--fills", type=int, metavar="N", help="How many fills; else the recipe's own number.")
@click.option("--note", metavar="TEXT", help="What to know about it.")
@click.option("--move", nargs=2, metavar="CODE DATE", help="Put a booking on another day.")
@click.option("--cancel", metavar="CODE", help="Cancel a booking.")
@why_option
@json_option
@click.pass_obj
def book(
    session: Session,
    recipe: str | None,
    job: str | None,
    for_day: str | None,
    fill: str | None,
    fills: int | None,
    note: str | None,
    move: tuple[str, str] | None,
    cancel: str | None,
    why: str | None,
) -> None:
    """Book a bath or treatment for a job: stockroom book wash --job "harbour charts" --for 2026-12-01.

    It says at once whether everything will be there, and what must be made or bought first. A booking is a plan:
    nothing is drawn. 'stockroom job show JOB' lists a job's bookings, 'stockroom plan' what all of them need.
    """
    from stockroom.actions.bookings import book as book_treatment
    from stockroom.actions.bookings import cancel_booking, move_booking

    new = recipe is not None or job is not None or for_day is not None
    if new + (move is not None) + (cancel is not None) != 1:
        raise BadInput("Give one of: RECIPE --job JOB --for DATE, --move CODE DATE, or --cancel CODE.")
    warnings: tuple[str, ...] = ()
    if move is not None:
        booking = move_booking(session.store, session.occasion(why=why), move[0], _day(session, move[1]))
    elif cancel is not None:
        booking = cancel_booking(session.store, session.occasion(why=why), cancel)
    elif recipe is None or job is None or for_day is None:
        raise BadInput("A booking needs a recipe, --job JOB and --for DATE.")
    else:
        booked = book_treatment(
            session.store,
            recipe,
            job,
            _day(session, for_day),
            today=session.local.date(),
            fill=fill,
            fills=fills,
            note=note,
        )
        booking, warnings = booked.booking, booked.warnings
    of_job = job_by_id(session.store, booking.job_id)
    document = {**_booking(booking), "warnings": list(warnings), "jobs": [_head(of_job)]}
    words = f"{_booking_words(booking)}, job {of_job.code} {of_job.title}"
    if booking.state == "cancelled":
        session.document(document)
        session.say(words)
    else:
        from stockroom.cli.told_needs import tell_answer

        tell_answer(session, booking, document, words)
    for warning in warnings:
        session.warn(warning)


def _day(session: Session, text: str) -> date:
    from stockroom.science.days import read_day

    return read_day(text, today=session.local.date())


def _tell(session: Session, changed: JobChanged) -> None:
    session.document({**_document(changed.job), "action": changed.action, "warnings": list(changed.warnings)})
    plan = "" if changed.action else "; this is only the plan, nothing was booked"
    session.say(f"Job {changed.job.code} {changed.job.title} is {changed.job.state}{plan}.")
    for warning in changed.warnings:
        session.warn(warning)


def _head(job: Job) -> dict[str, Any]:
    head = {"code": job.code, "title": job.title, "state": job.state, "client": job.client}
    return without_nothing({**head, "opened_on": job.opened_on, "closed_on": job.closed_on})


def _document(job: Job) -> dict[str, Any]:
    return {**_head(job), "objects": [_object(thing) for thing in job.objects], "jobs": [_head(job)]}


def _object(thing: JobObject) -> dict[str, Any]:
    document: dict[str, Any] = {"position": thing.position, "name": thing.name}
    if thing.length_um is not None and thing.width_um is not None:
        length, unit = amount_text(Quantity(Dimension.LENGTH, thing.length_um))
        width, _ = amount_text(Quantity(Dimension.LENGTH, thing.width_um))
        document |= {"length": length, "width": width, "unit": unit}
    return document


def _object_words(thing: JobObject) -> str:
    return f"{thing.name}, {show_size(thing.length_um, thing.width_um) or 'size not known'}"


def _say_objects(session: Session, job: Job) -> None:
    for thing in job.objects:
        session.say(f"  {thing.position} {_object_words(thing)}")


def _booking(booking: Booking) -> dict[str, Any]:
    fill = None if booking.fill_quanta is None else Quantity(Dimension.VOLUME, booking.fill_quanta)
    return without_nothing(
        {
            "code": booking.code,
            "job": booking.job_code,
            "recipe": booking.recipe_key,
            "for": booking.for_day,
            "state": booking.state,
            **amount_and_unit(fill, "qty"),
            "fills": booking.fills,
            "note": booking.note,
        }
    )


def _booking_words(booking: Booking) -> str:
    fill = f", {show_quantity(Quantity(Dimension.VOLUME, booking.fill_quanta))}" if booking.fill_quanta else ""
    fills = f", {counted(booking.fills, 'fill')}" if booking.fills else ""
    note = f" ({booking.note})" if booking.note else ""
    return f"{booking.code} {booking.state} for {booking.for_day}: {booking.recipe_key}{fill}{fills}{note}"


def _closed(job: Job) -> str:
    return f", closed on {job.closed_on}" if job.closed_on else ""
