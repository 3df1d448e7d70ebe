"""Jobs and their objects. Opening a job is no entry; closing and reopening one are actions of the ledger."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.editing import changes, keep_changes
from stockroom.actions.naming import check_text
from stockroom.actions.posting import post
from stockroom.domain.jobs import Job, JobObject
from stockroom.domain.ledger import Draft
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput, Refused, Unreadable
from stockroom.science.numerals import quoted
from stockroom.science.reading import read_size
from stockroom.store import jobs
from stockroom.store.fold import fold
from stockroom.store.left_open import loans_out
from stockroom.store.open import Store

_NUMBER = r"[0-9½¼¾⅓⅔⅛]+(?:[.,/][0-9]+)?"
_UNIT = r"(?:[a-zµ]+\.?)?"
_SIZE_AT_END = rf"(?is)(?P<name>.*?),\s*(?P<size>{_NUMBER}\s*{_UNIT}\s*[x×*]\s*{_NUMBER}\s*{_UNIT})\s*"
_LOOKS_LIKE_A_SIZE = (
    rf"(?i)\s*(?:about|c\.|ca\.?|~)?\s*{_NUMBER}\s*{_UNIT}\s*"
    rf"(?:(?:[x×*]|by\s)\s*{_NUMBER}.*|(?<![a-z])(?:mm|cm|m|in|inch|inches|ft|\")\s*)"
)


def read_object(text: str, position: int = 1) -> JobObject:
    """Read `NAME, 30 x 40 cm`; the size is what follows the comma before it, and may be left out.

    Raises Unreadable where the last part looks like a size and cannot be read as one: nothing is guessed.
    """
    check_text(text, "object")
    match = re.fullmatch(_SIZE_AT_END, text)
    name, size = (match["name"], match["size"]) if match else (text, None)
    if size is None and re.fullmatch(_LOOKS_LIKE_A_SIZE, text.rpartition(",")[2]) and "," in text:
        name, _, size = text.rpartition(",")
    if size is None:
        return JobObject(position=position, name=name)
    check_text(name, "name of the object")
    try:
        length, width = read_size(size)
    except Unreadable as error:
        raise Unreadable(
            f"{quoted(text)}: {quoted(size.strip())} looks like a size and cannot be read as one. {error.message} "
            "Write the object like: Harbour chart, 30 x 40 cm.",
            read=text,
        ) from error
    return JobObject(position=position, name=name, length_um=length, width_um=width)


def new_job(store: Store, title: str, *, today: date, client: str | None = None, objects: Sequence[str] = ()) -> Job:
    """Open a job on named objects, each as `read_object` reads it."""
    check_text(title, "title")
    if client is not None:
        check_text(client, "client")
    read = [read_object(text, position) for position, text in enumerate(objects, 1)]
    with store.write():
        code = jobs.add_job(store, title, client, read, today.isoformat())
    return jobs.find_job(store, code)


def add_object(store: Store, occasion: Occasion, words: str, text: str) -> tuple[Job, JobObject]:
    """Add an object to a job, or give one that is there already its size; the old size is kept among the edits."""
    read = read_object(text)
    with store.write() as booked_at:
        job = jobs.find_job(store, words)
        refuse_closed(job)
        known = next((thing for thing in job.objects if fold(thing.name) == fold(read.name)), None)
        if known is None:
            position = max((thing.position for thing in job.objects), default=0) + 1
            jobs.add_object(store, job.id, replace(read, position=position))
        elif read.length_um is None:
            raise BadInput(f"{job.code} has {known.name} already. Give its size after it, or another name.")
        else:
            position = known.position
            sized = replace(known, length_um=read.length_um, width_um=read.width_um)
            jobs.set_object_size(store, sized)
            made = changes(
                {"size": show_size(known.length_um, known.width_um)},
                {"size": show_size(sized.length_um, sized.width_um)},
            )
            keep_changes(store, "job object", f"{job.code} {position}", made, occasion, booked_at)
    job = jobs.job_by_id(store, job.id)
    return job, next(thing for thing in job.objects if thing.position == position)


def refuse_closed(job: Job) -> None:
    """Raise Refused where a job is closed."""
    if job.state == "closed":
        raise Refused(
            f"Job {job.code} was closed on {job.closed_on}. Reopen it first: stockroom job reopen {job.code}."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class JobChanged(ActionOutcome):
    """A job that was closed or reopened."""

    job: Job
    warnings: tuple[str, ...] = ()
    """What is still open."""


def close_job(
    store: Store, occasion: Occasion, words: str, *, dry_run: bool = False, confirmed: JobChanged | None = None
) -> JobChanged:
    """Close a job: nothing more is booked to it, and its figure stays. Bookings and loans still open are named.

    Raises Refused where it is closed already, or where something was done for it after that day.
    """

    def build(booked_at: datetime) -> JobChanged:
        job = jobs.find_job(store, words)
        if job.state == "closed":
            raise Refused(f"Job {job.code} was closed on {job.closed_on} already.")
        day = occasion.day.isoformat()
        later = [done for done in jobs.done_for(store, job.id) if done.day > day]
        if later:
            raise Refused(
                f"{later[-1].code} ({later[-1].kind}) was done for {job.code} on {later[-1].day}. Close it then."
            )
        from stockroom.store.recipes import find_recipe

        posted = post(store, Draft(kind="close-job", occasion=occasion, job_id=job.id), booked_at)
        jobs.set_job_state(store, job.id, "closed", day)
        warnings = [
            f"{booking.code}: {find_recipe(store, booking.recipe_key).name} is still booked for {booking.for_day}"
            for booking in jobs.open_bookings(store, job.id)
        ]
        warnings += [f"{loan.code}: {loan.words}" for loan in loans_out(store, job_id=job.id)]
        return JobChanged(job=jobs.job_by_id(store, job.id), warnings=tuple(warnings), action=posted.code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def reopen_job(store: Store, occasion: Occasion, words: str) -> JobChanged:
    """Open a closed job again. Raises BadInput without a reason, Refused for a job that is open."""
    if not occasion.reason:
        raise BadInput("Why is it opened again? Say --why; the reason stays in the job's record.")

    def build(booked_at: datetime) -> JobChanged:
        job = jobs.find_job(store, words)
        if job.state == "open":
            raise Refused(f"Job {job.code} is open.")
        posted = post(store, Draft(kind="reopen-job", occasion=occasion, job_id=job.id), booked_at)
        jobs.set_job_state(store, job.id, "open", None)
        return JobChanged(job=jobs.job_by_id(store, job.id), action=posted.code)

    return carry_out(store, build)
