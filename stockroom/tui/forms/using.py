"""Using a bath or a treatment for a job."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from textual.content import Content

from stockroom.actions.media import read_media_answer
from stockroom.actions.using import Using, use
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import find_booking
from stockroom.store.open import Store
from stockroom.tui.forms.fields import JOB, OBJECTS, offer_recipes, split, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.making import BY_HAND, choices_of
from stockroom.tui.texts import using_text


def _use(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Using | None) -> Using:
    booking = answers.get("booking")
    if booking:
        booked = find_booking(store, booking)
        if (booked.recipe_key, booked.job_code) != (answers["recipe"], answers["job"]):
            booking = None
    tested, not_tested = read_media_answer(store, answers.get("tested"))
    return use(
        store,
        occasion,
        answers["recipe"],
        answers["job"],
        fill=answers.get("fill"),
        fills=whole_number(answers.get("fills"), "fills"),
        objects=split(answers.get("objects")),
        choices=choices_of(answers),
        booking=booking,
        tested=tested,
        not_tested=not_tested,
        notes=tuple(line for line in answers.get("notes", "").split("\n") if line),
        dry_run=dry_run,
        confirmed=confirmed,
    )


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
takes two. Ctrl+T works the fill out from a tray and a depth. Objects: their numbers or
names, with commas; empty means not stated. Media tested: the initials of who tested media,
inks and colours, or why nobody did.

The plan is worked out while you type. What is short is said for each material, with what
there is of it. From lots draws from the bottles you name, or scan. Ctrl+N goes through the
steps one by one, with their waiting times. Enter in a field shows the plan once more and
asks. Page up and page down move the plan.
""",
    fields=(
        Asked(
            key="recipe",
            words="Treatment",
            hint="Enter chooses a bath or treatment",
            needed=True,
            choose=offer_recipes("bath", "treatment"),
            none="There is no bath or treatment yet: 'stockroom recipe new'.",
        ),
        replace(JOB, needed=True),
        Asked(key="fill", words="One fill", hint="the recipe's own; 2 L; Ctrl+T asks for a tray"),
        Asked(
            key="fills",
            words="Fills",
            hint="the recipe's own number",
            read=lambda store, answers: whole_number(answers["fills"], "fills"),
        ),
        OBJECTS,
        Asked(key="tested", words="Media tested", hint="whose initials, or why not"),
        *BY_HAND,
    ),
    act=_use,
    plan=using_text,
    question=lambda answers: f"{answers['recipe']} for {answers['job']}?",
    done=_done,
    waits=lambda plan: plan.waits_for,
    expand=_expand,
    steps=True,
)
