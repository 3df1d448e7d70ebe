"""Using a bath or a treatment for a job."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from textual.content import Content

from stockroom.actions.filling import InTray, fill_of_tray, greatest_fill
from stockroom.actions.using import Using, use
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.fold import fold
from stockroom.store.jobs import find_booking
from stockroom.store.open import Store
from stockroom.store.studio import all_measures
from stockroom.tui.forms.fields import JOB, OBJECTS, OFFCUTS, offer_recipes, sizes_of, split, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.making import BY_HAND, choices_of
from stockroom.tui.forms.media import MEDIA, lacks_media_answer, media_answer
from stockroom.tui.texts import using_text


def _use(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Using | None) -> Using:
    booking = answers.get("booking")
    if booking:
        booked = find_booking(store, booking)
        if (booked.recipe_key, booked.job_code) != (answers["recipe"], answers["job"]):
            booking = None
    tested, not_tested = media_answer(answers)
    in_tray = _in_tray(store, answers.get("fill"))
    return use(
        store,
        occasion,
        answers["recipe"],
        answers["job"],
        fill=None if in_tray else answers.get("fill"),
        in_tray=in_tray,
        fills=whole_number(answers.get("fills"), "fills"),
        objects=split(answers.get("objects")),
        choices=choices_of(answers),
        booking=booking,
        tested=tested,
        not_tested=not_tested,
        keep_offcuts=sizes_of(answers),
        notes=tuple(line for line in answers.get("notes", "").split("\n") if line),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _in_tray(store: Store, typed: str | None) -> InTray | None:
    """Read a fill that is said by a tray of the studio's own: `30 x 40 cm tray, 8 mm`; None for any other."""
    tray, _, depth = (typed or "").rpartition(",")
    known = {fold(one.name) for one in all_measures(store) if one.kind == "tray"}
    return fill_of_tray(store, tray.strip(), depth.strip()) if fold(tray.strip()) in known else None


def _most(store: Store, occasion: Occasion, answers: Answers) -> tuple[str, str]:
    """Find the largest fill that can be made from what is here. Raises what `greatest_fill` raises."""
    if not {"recipe", "job"} <= set(answers):
        raise BadInput("Choose the treatment and the job first: how much can be made depends on both.")
    greatest = greatest_fill(
        store,
        occasion,
        answers["recipe"],
        answers["job"],
        fills=whole_number(answers.get("fills"), "fills"),
        objects=split(answers.get("objects")),
        choices=choices_of(answers),
    )
    return show(greatest.fill), f"{', '.join(greatest.limited_by)} ends it."


def _expand(store: Store, known: Answers, local: datetime) -> Answers:
    """Take over what was booked."""
    if "booking" not in known:
        return known
    booked = find_booking(store, known["booking"])
    told = {**known, "job": booked.job_code, "recipe": booked.recipe_key}
    if booked.fill_quanta:
        told["fill"] = show(Quantity(Dimension.VOLUME, booked.fill_quanta))
    if booked.fills:
        told["fills"] = str(booked.fills)
    return told


def _done(done: Using, currency: str) -> tuple[str, Content]:
    return f"Used for {done.job}", using_text(done, currency, steps=False)


USE = Form(
    name="use",
    title="Use for a job",
    help="""
Using a bath or a treatment for a job. Enter on the first two lines chooses; then say how
much one fill is (2 L, or leave it to the recipe) and how many fills: a bath changed once
takes two. Ctrl+T works the fill out from a tray and a depth, or finds as much as can be made
from what is here. Objects: their numbers or names, with commas; empty means not stated.
Media tested: who tested media, inks and colours, or that nobody did, and why all the same.

The plan is worked out while you type. What is short is said for each material, with what
there is of it. Ctrl+L asks for more: lots other than the oldest (or scan the bottles), what
was really taken, offcuts that go back to the shelf. Ctrl+N goes through the steps one by
one, with their waiting times. Enter in a field shows the plan once more and asks. Page up
and page down move the plan.
""",
    fields=(
        Asked(
            key="recipe",
            words="Treatment",
            hint="Enter chooses a bath or treatment",
            needed=True,
            choose=offer_recipes("bath", "treatment"),
            none="There is no bath or treatment yet: write one in the bench book (F12).",
        ),
        replace(JOB, needed=True),
        Asked(key="fill", words="One fill", hint="the recipe's; Ctrl+T: by tray, or most", in_tray="tray and depth"),
        Asked(
            key="fills",
            words="Fills",
            hint="the recipe's own number",
            read=lambda store, answers: whole_number(answers["fills"], "fills"),
        ),
        OBJECTS,
        *MEDIA,
        *BY_HAND,
        OFFCUTS,
    ),
    act=_use,
    plan=using_text,
    question=lambda answers: f"{answers['recipe']} for {answers['job']}?",
    done=_done,
    waits=lambda plan: plan.waits_for,
    lacks=lacks_media_answer,
    most=_most,
    expand=_expand,
    steps=True,
)
