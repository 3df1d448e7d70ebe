"""Opening and closing jobs; booking treatments for a day. Plans, but for the closing of a job."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from textual.content import Content

from stockroom.actions.booking_answer import Answer, answer_booking
from stockroom.actions.bookings import book, cancel_booking, move_booking
from stockroom.actions.jobs import JobChanged, close_job, new_job, read_object
from stockroom.actions.using import use
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, StockroomError
from stockroom.science.days import read_day
from stockroom.science.quantities import Dimension
from stockroom.science.reading import read_quantity
from stockroom.store.jobs import find_booking, find_job
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.tui.forms.fields import DAY, JOB, REASON, WHY, offer_recipes, read_any_day, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.plans import Planned, planned_text
from stockroom.tui.words import on_screen


def _book(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None) -> Planned:
    day, fills = read_day(answers["for"], today=occasion.today), whole_number(answers.get("fills"), "fills")
    recipe, job = find_recipe(store, answers["recipe"]), find_job(store, answers["job"])
    told = [("treatment", recipe.name), ("job", f"{job.code} {job.title}"), ("for", _weekday(day))]
    told += [("one fill", answers["fill"])] if "fill" in answers else []
    told += [("fills", str(fills))] if fills else []
    if dry_run:
        if day < occasion.today:
            raise BadInput(f"{day.isoformat()} has passed. Book a treatment for today or later.")
        return Planned(told=tuple(told), warnings=_short_now(store, occasion, answers, fills))
    booked = book(
        store,
        recipe.key,
        job.code,
        day,
        today=occasion.today,
        fill=answers.get("fill"),
        fills=fills,
        note=answers.get("note"),
    )
    answer = answer_booking(store, booked.booking.code, occasion.now.astimezone(occasion.zone))
    return Planned(
        told=(*told, *_first(answer)), warnings=(*booked.warnings, *_in_the_way(answer)), code=booked.booking.code
    )


def _first(answer: Answer) -> list[tuple[str, str]]:
    """Say what must be made, cut or ordered first, and by when; or that all will be there."""
    if answer.ready:
        return [("then", "everything it needs will be there")]
    return [
        (need.verb, f"{need.amount_words} of {need.material.name}, by {_weekday(need.begin_by)}")
        for need in sorted((*answer.make, *answer.buy), key=lambda one: one.begin_by)
    ]


def _in_the_way(answer: Answer) -> list[str]:
    """Say what keeps a booking from its day, and what it keeps from theirs."""
    told = []
    if answer.earliest:
        told.append(f"Not everything can be there by then; the earliest day is {answer.earliest}.")
    if answer.makes_late:
        told.append(f"It takes what others count on; no longer in time: {', '.join(answer.makes_late)}.")
    return told


def _weekday(day: date) -> str:
    return f"{day:%A} {day.isoformat()}"


def _short_now(store: Store, occasion: Occasion, answers: Answers, fills: int | None) -> tuple[str, ...]:
    """Say what would be in the way if it were done today."""
    try:
        use(
            store,
            occasion,
            answers["recipe"],
            answers["job"],
            fill=answers.get("fill"),
            fills=fills,
            dry_run=True,
        )
    except StockroomError as error:
        return (f"Done today it could not be: {on_screen(error.message)}",)
    return ()


BOOK = Form(
    name="book",
    title="Book a treatment for a day",
    help="""
Booking a bath or a treatment for a job on a day to come. A booking is a plan: nothing is
drawn. What will be short by then is told among what is due.
""",
    fields=(
        Asked(
            key="recipe",
            words="Treatment",
            hint="Enter chooses a bath or treatment",
            needed=True,
            choose=offer_recipes("bath", "treatment"),
        ),
        replace(JOB, needed=True),
        Asked(
            key="for",
            words="Day",
            hint="tomorrow; or in 7 days, 2026-12-01",
            needed=True,
            read=lambda store, answers: read_any_day(store, answers, "for"),
        ),
        Asked(
            key="fill",
            words="One fill",
            hint="the recipe's own; 2 L; Ctrl+T: by tray",
            in_tray="volume",
            read=lambda store, answers: read_quantity(answers["fill"], expect=Dimension.VOLUME),
        ),
        Asked(
            key="fills",
            words="Fills",
            hint="the recipe's own number",
            read=lambda store, answers: whole_number(answers["fills"], "fills"),
        ),
        Asked(key="note", words="Note", hint="for yourself"),
    ),
    act=_book,
    plan=planned_text,
    question=lambda answers: f"Book {answers['recipe']} for {answers['job']}?",
    done=lambda done, currency: (f"Booked: {done.code}", planned_text(done, currency)),
)


def _new_job(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None
) -> Planned:
    texts = tuple(text.strip() for text in answers.get("objects", "").split(";") if text.strip())
    objects = [read_object(text, position) for position, text in enumerate(texts, 1)]
    told = (
        ("job", answers["title"]),
        *(
            (f"object {one.position}", text if one.length_um else f"{text}; no size was read")
            for one, text in zip(objects, texts, strict=True)
        ),
    )
    if dry_run:
        return Planned(told=told)
    job = new_job(store, answers["title"], today=occasion.today, client=answers.get("client"), objects=texts)
    return Planned(told=told, code=job.code)


NEW_JOB = Form(
    name="new-job",
    title="Open a job",
    help="""
Opening a job: one client's or department's work on named objects. Objects stand between
semicolons, each with its size after a comma where it is known: North sheet, 65 x 48 cm.
""",
    fields=(
        Asked(key="title", words="Title", hint="Sea chart of the northern sounds", needed=True),
        Asked(key="client", words="For", hint="client or department"),
        Asked(
            key="objects",
            words="Objects",
            hint="North sheet, 65 x 48 cm; South sheet",
            read=lambda store, answers: [read_object(text) for text in answers["objects"].split(";") if text.strip()],
        ),
    ),
    act=_new_job,
    plan=planned_text,
    question=lambda answers: f"Open the job {answers['title']}?",
    done=lambda done, currency: (f"Job {done.code} is open", planned_text(done, currency)),
    opens=lambda done: done.code,
)


def _close(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: JobChanged | None
) -> JobChanged:
    return close_job(store, occasion, answers["job"], dry_run=dry_run, confirmed=confirmed)


def _closed_text(plan: JobChanged, currency: str) -> Content:
    told = (("job", f"{plan.job.code} {plan.job.title}"), ("then", "closed: nothing more is booked to it"))
    return planned_text(Planned(told=told, warnings=plan.warnings), currency)


CLOSE_JOB = Form(
    name="close-job",
    title="Close a job",
    help="""
Closing a job: nothing more is booked to it, and its figure stays. Bookings and loans that
are still open are named.
""",
    fields=(replace(JOB, needed=True), WHY, DAY),
    act=_close,
    plan=_closed_text,
    question=lambda answers: f"Close {answers['job']}?",
    done=lambda done, currency: (f"{done.job.code} is closed", _closed_text(done, currency)),
)

_BOOKING = Asked(key="booking", words="Booking", hint="its code", needed=True)


def _move_booking(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None
) -> Planned:
    day, booked = read_day(answers["for"], today=occasion.today), find_booking(store, answers["booking"])
    told = (("booking", f"{booked.code} {booked.recipe_key}"), ("from", booked.for_day), ("to", _weekday(day)))
    if dry_run:
        if day < occasion.today:
            raise BadInput(f"{day.isoformat()} has passed. Book a treatment for today or later.")
        return Planned(told=told)
    return Planned(told=told, code=move_booking(store, occasion, booked.code, day).code)


MOVE_BOOKING = Form(
    name="move-booking",
    title="Put a booking on another day",
    help="Putting a booked treatment on another day: tomorrow, in 7 days, or 2026-12-01.",
    fields=(
        _BOOKING,
        Asked(
            key="for",
            words="Day",
            hint="tomorrow; or in 7 days, 2026-12-01",
            needed=True,
            read=lambda store, answers: read_any_day(store, answers, "for"),
        ),
    ),
    act=_move_booking,
    plan=planned_text,
    question=lambda answers: f"Put {answers['booking']} on another day?",
    done=lambda done, currency: (f"{done.code} is on another day", planned_text(done, currency)),
)


def _cancel_booking(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None
) -> Planned:
    booked = find_booking(store, answers["booking"])
    told = (("booking", f"{booked.code} {booked.recipe_key}"), ("was for", booked.for_day), ("why", answers["why"]))
    if dry_run:
        return Planned(told=told)
    return Planned(told=told, code=cancel_booking(store, occasion, booked.code).code)


CANCEL_BOOKING = Form(
    name="cancel-booking",
    title="Drop a booking",
    help="Dropping a booked treatment: it is not done, and needs nothing any more.",
    fields=(_BOOKING, REASON),
    act=_cancel_booking,
    plan=planned_text,
    question=lambda answers: f"Drop {answers['booking']}?",
    done=lambda done, currency: (f"{done.code} is dropped", planned_text(done, currency)),
)
