"""What changes of a job itself: an object more, or that it is opened again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.actions.jobs import add_object, read_object, reopen_job
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.store.jobs import all_jobs, find_job
from stockroom.store.open import Store
from stockroom.tui.forms.fields import DAY, JOB, REASON, WHY
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.plans import Planned, planned_text
from stockroom.tui.questions.offer import Offer


def _add(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None) -> Planned:
    job = find_job(store, answers["job"])
    read = read_object(answers["object"], max((one.position for one in job.objects), default=0) + 1)
    size = show_size(read.length_um, read.width_um) or "not known"
    told = (("job", f"{job.code} {job.title}"), ("object", read.name), ("size", size))
    if not dry_run:
        add_object(store, occasion, job.code, answers["object"])
    return Planned(told=told)


ADD_OBJECT = Form(
    name="add-object",
    title="Add an object to a job",
    help="""
Adding an object to a job, or giving one that is there already its size: the old size is kept
among what was edited. Baths that objects share are shared by their areas.
""",
    fields=(
        replace(JOB, needed=True),
        Asked(
            key="object",
            words="Object",
            hint="Sheet 3, 30 x 40 cm",
            needed=True,
            read=lambda store, answers: read_object(answers["object"]),
        ),
        WHY,
    ),
    act=_add,
    plan=planned_text,
    question=lambda answers: f"Add {answers['object']} to {answers['job']}?",
    done=lambda done, currency: ("The job has it now", planned_text(done, currency)),
)


def _closed_jobs(store: Store, answers: Answers) -> Sequence[Offer]:
    return [
        Offer(key=one.code, words=f"{one.code} {one.title}", detail=f"closed on {one.closed_on}")
        for one in all_jobs(store)
        if one.state == "closed"
    ]


def _reopen(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None) -> Planned:
    job = find_job(store, answers["job"])
    if not dry_run:
        reopen_job(store, occasion, job.code)
    return Planned(told=(("job", f"{job.code} {job.title}"), ("closed on", job.closed_on or "not closed")))


REOPEN_JOB = Form(
    name="reopen-job",
    title="Open a job again",
    help="""
Opening a closed job again: things can be booked to it as before. The reason stays in its record.
""",
    fields=(replace(JOB, needed=True, choose=_closed_jobs, none="No job is closed."), REASON, DAY),
    act=_reopen,
    plan=planned_text,
    question=lambda answers: f"Open {answers['job']} again?",
    done=lambda done, currency: ("The job is open again", planned_text(done, currency)),
)
