"""Jobs, their objects and bookings, as stored."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockroom.domain.jobs import Booking, Job, JobObject
from stockroom.errors import NotFound, Unreadable
from stockroom.store.codes import give_code
from stockroom.store.fold import fold
from stockroom.store.open import Row, Store

if TYPE_CHECKING:
    from stockroom.domain.media import MediaTest
    from stockroom.domain.recipes import Recipe


def add_job(store: Store, title: str, client: str | None, objects: list[JobObject], day: str) -> str:
    """Insert a job with its objects; return its code; inside `write()`."""
    _, code = give_code(store, "J")
    job_id = store.insert(
        "job", code=code, title=title, folded=fold(f"{code} {title} {client or ''}"), client=client, opened_on=day
    )
    for thing in objects:
        add_object(store, job_id, thing)
    return code


def add_object(store: Store, job_id: int, thing: JobObject) -> int:
    return store.insert(
        "job_object",
        job_id=job_id,
        position=thing.position,
        name=thing.name,
        length_um=thing.length_um,
        width_um=thing.width_um,
    )


def set_object_size(store: Store, thing: JobObject) -> None:
    store.update("job_object", thing.id, length_um=thing.length_um, width_um=thing.width_um)


def _job_of(store: Store, row: Row) -> Job:
    objects = store.rows("SELECT * FROM job_object WHERE job_id = :id ORDER BY position", id=row["id"])
    return Job(
        id=row["id"],
        code=row["code"],
        title=row["title"],
        client=row["client"],
        state=row["state"],
        opened_on=row["opened_on"],
        closed_on=row["closed_on"],
        objects=tuple(
            JobObject(
                id=thing["id"],
                position=thing["position"],
                name=thing["name"],
                length_um=thing["length_um"],
                width_um=thing["width_um"],
            )
            for thing in objects
        ),
    )


def find_job(store: Store, words: str) -> Job:
    """Find a job by its code, full title or an unambiguous part. Raises NotFound naming the nearest."""
    code = _code_in(words, "J")
    row = store.row("SELECT * FROM job WHERE code = :code", code=code)
    if row is not None:
        return _job_of(store, row)
    wanted = fold(words)
    rows = store.rows("SELECT * FROM job ORDER BY id DESC")
    exact = [row for row in rows if fold(row["title"]) == wanted]
    matches = exact or [row for row in rows if wanted and all(part in row["folded"] for part in wanted.split())]
    open_ones = [row for row in matches if row["state"] == "open"] or matches
    if len(open_ones) == 1:
        return _job_of(store, open_ones[0])
    if open_ones:
        names = ", ".join(f"{row['code']} {row['title']}" for row in open_ones[:5])
        codes = [row["code"] for row in open_ones]
        raise NotFound(f"'{words}' fits several jobs: {names}. Say which by its code.", fits=codes)
    raise NotFound(f"There is no job '{words}'. 'stockroom job list' shows those there are.")


def _code_in(words: str, prefix: str) -> str | None:
    """Return the code that was typed, if it is one of that kind; case, spaces and look-alikes are forgiven."""
    from stockroom.domain.codes import read_code

    try:
        code = read_code(words)
    except Unreadable:
        return None
    return code.text if code.prefix == prefix else None


def job_by_id(store: Store, job_id: int) -> Job:
    row = store.row("SELECT * FROM job WHERE id = :id", id=job_id)
    if row is None:
        raise LookupError(job_id)
    return _job_of(store, row)


def all_jobs(store: Store, *, closed: bool = True) -> list[Job]:
    """Return the jobs, open ones first, newest first."""
    rows = store.rows("SELECT * FROM job ORDER BY CASE state WHEN 'open' THEN 1 ELSE 2 END, id DESC")
    return [_job_of(store, row) for row in rows if closed or row["state"] == "open"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneForJob:
    """One action that was done for a job and is in effect."""

    number: int
    code: str
    kind: str
    day: str
    by: str
    reason: str | None
    recipe: str | None
    """Key of the recipe, for a treatment."""
    not_fit: tuple[str, ...]
    """Lots that were not fit and used all the same, each with what spoke against it."""
    objects: tuple[str, ...] = ()
    """The objects it was stated for."""
    media: MediaTest | None = None
    """Whether media, inks and colours were tested before."""


def done_for(store: Store, job_id: int) -> list[DoneForJob]:
    """Return the actions of a job that are in effect, by day."""
    rows = store.rows(
        "SELECT number, code, kind, day, initials, reason, details FROM action WHERE job_id = :job "
        "AND undoes IS NULL AND number NOT IN (SELECT action_number FROM undone) ORDER BY day, number",
        job=job_id,
    )
    objects: dict[int, list[str]] = {}
    for named in store.rows(
        "SELECT action_number, name FROM action_object JOIN job_object ON job_object.id = object_id "
        "WHERE job_id = :job ORDER BY position",
        job=job_id,
    ):
        objects.setdefault(named["action_number"], []).append(named["name"])
    return [_done_of(row, tuple(objects.get(row["number"], ()))) for row in rows]


def _done_of(row: Row, objects: tuple[str, ...]) -> DoneForJob:
    from stockroom.domain.media import media_test_of

    details = json.loads(row["details"])
    overrides = dict(details.get("overrides", {}))
    if "override" in details:
        overrides["the lot"] = details["override"]
    return DoneForJob(
        number=row["number"],
        code=row["code"],
        kind=row["kind"],
        day=row["day"],
        by=row["initials"],
        reason=row["reason"],
        recipe=details.get("recipe"),
        not_fit=tuple(f"{lot}: {why}" for lot, why in overrides.items()),
        objects=objects,
        media=media_test_of(details),
    )


def set_job_state(store: Store, job_id: int, state: str, closed_on: str | None) -> None:
    store.update("job", job_id, state=state, closed_on=closed_on)


def find_object(job: Job, words: str) -> JobObject:
    """Find one of a job's objects by number, name or part of it. Raises NotFound listing them."""
    wanted = fold(words)
    exact = [thing for thing in job.objects if wanted in (fold(thing.name), str(thing.position))]
    matches = exact or [thing for thing in job.objects if wanted and wanted in fold(thing.name)]
    if len(matches) == 1:
        return matches[0]
    names = "; ".join(f"{thing.position} {thing.name}" for thing in job.objects) or "none yet"
    trouble = "fits several objects" if matches else "is not an object"
    raise NotFound(f"'{words}' {trouble} of job {job.code}. Its objects: {names}.")


def add_booking(
    store: Store,
    job: Job,
    recipe: Recipe,
    day: str,
    fill_quanta: int | None,
    fills: int | None,
    note: str | None,
) -> str:
    """Insert a booked treatment; return its code; inside `write()`."""
    _, code = give_code(store, "K")
    store.insert(
        "booking",
        code=code,
        job_id=job.id,
        recipe_id=recipe.id,
        for_day=day,
        fill_quanta=fill_quanta,
        fills=fills,
        note=note,
    )
    return code


def set_booking(store: Store, booking_id: int, *, state: str, for_day: str, done_by: int | None = None) -> None:
    """Change the plan: a booking's state and day."""
    store.update("booking", booking_id, state=state, for_day=for_day, done_by=done_by)


_BOOKING = (
    "SELECT booking.*, job.code AS job_code, recipe.key AS recipe_key FROM booking "
    "JOIN job ON job.id = booking.job_id JOIN recipe ON recipe.id = booking.recipe_id"
)


def _booking_of(row: Row) -> Booking:
    return Booking(
        id=row["id"],
        code=row["code"],
        job_id=row["job_id"],
        job_code=row["job_code"],
        recipe_key=row["recipe_key"],
        for_day=row["for_day"],
        fill_quanta=row["fill_quanta"],
        fills=row["fills"],
        state=row["state"],
        note=row["note"],
    )


def open_bookings(store: Store, job_id: int | None = None) -> list[Booking]:
    """Return the bookings neither done nor cancelled, by day."""
    sql = (
        f"{_BOOKING} WHERE booking.state = 'booked' AND (:job IS NULL OR booking.job_id = :job) "
        "ORDER BY for_day, booking.id"
    )
    return [_booking_of(row) for row in store.rows(sql, job=job_id)]


def bookings_of(store: Store, job_id: int) -> list[Booking]:
    """Return all bookings of a job by day, those done and cancelled too."""
    sql = f"{_BOOKING} WHERE booking.job_id = :job ORDER BY for_day, booking.id"
    return [_booking_of(row) for row in store.rows(sql, job=job_id)]


def find_booking(store: Store, code: str) -> Booking:
    """Find a booking by its code. Raises NotFound."""
    row = store.row(f"{_BOOKING} WHERE booking.code = :code", code=_code_in(code, "K"))
    if row is None:
        raise NotFound(
            f"There is no booking '{code}'. Look at each character; 'stockroom job show JOB' lists a job's bookings."
        )
    return _booking_of(row)
