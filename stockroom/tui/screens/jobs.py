"""Jobs: what is being worked on, and what its materials cost so far."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from stockroom.domain.jobs import Job
from stockroom.store.fold import fold, holds
from stockroom.store.jobs import all_jobs, open_bookings
from stockroom.store.open import Store
from stockroom.tui.screens.listing import Entry, of_all
from stockroom.tui.screens.narrowed import NarrowedPage
from stockroom.tui.texts import one_line


class JobsScreen(NarrowedPage):
    """The jobs, open ones first, newest first."""

    AREA = "jobs"
    NARROWED_BY = "title, client, object or code"
    HELP = """
The jobs, open ones first, newest first. Type a word of the title, the client or an object to
narrow the list; Enter opens the job's page: its bookings, what was done, and what its
materials cost. Ctrl+O opens a new job.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+o", "new_job", "New job", priority=True),
    ]

    def read(self, store: Store) -> Sequence[Entry]:
        booked: dict[str, list[str]] = {}
        for one in open_bookings(store):
            booked.setdefault(one.job_code, []).append(one.for_day)
        jobs = [job for job in all_jobs(store) if holds(_searched(job), self._words)]
        self._total = len(jobs)
        return [_entry(job, booked.get(job.code, [])) for job in jobs[: self.MOST]]

    def heading(self) -> str:
        if not self._total:
            return "No job has these words." if self._words else "No job yet: Ctrl+O opens one."
        return f"{of_all(len(self.entries), self._total)} job{'s' if self._total != 1 else ''}"

    def go_on(self, key: str) -> None:
        self.app.open_code(key)

    def action_new_job(self) -> None:
        self.app.open_form("new-job")


def _searched(job: Job) -> str:
    objects = " ".join(thing.name for thing in job.objects)
    return fold(f"{job.code} {job.title} {job.client or ''} {objects}")


def _entry(job: Job, booked: list[str]) -> Entry:
    objects = f"{len(job.objects)} object{'s' if len(job.objects) != 1 else ''}"
    parts = [job.client, objects, f"open since {job.opened_on}"]
    if booked:
        parts.append(f"next booked for {booked[0]}")
    if job.closed_on:
        parts.append(f"closed on {job.closed_on}")
    words = Content.assemble(
        f"{job.code}  ", (one_line(job.title), "bold"), "" if job.state == "open" else "  (closed)"
    )
    told = Content.styled(one_line(", ".join(part for part in parts if part)), "dim")
    return Entry(key=job.code, words=words, below=(told,), does="its page: bookings, work, cost")
