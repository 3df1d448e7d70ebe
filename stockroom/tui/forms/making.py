"""Making up a stock solution."""

from __future__ import annotations

from dataclasses import replace

from textual.content import Content

from stockroom.actions.drawing import Choices
from stockroom.actions.making import Making, make
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.tui.forms.fields import DAY, EMPTY_WEIGHS, MORE_THAN_BOOKED, PLACE, WHY, offer_recipes, parts, read_place
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import made_text, making_text


def choices_of(answers: Answers) -> Choices:
    """Return what the hand did otherwise than planned."""
    return Choices(
        lots=tuple(answers.get("from", "").replace(",", " ").split()),
        took=parts(answers.get("took")),
        count_first=answers.get("count_first") == "yes",
        added=answers.get("added"),
        reached=answers.get("reached"),
    )


BY_HAND = (
    Asked(key="from", words="From lots", hint="oldest date first; or codes, or scan them", rare=True, takes="lots"),
    Asked(key="took", words="Took", hint="as planned; or methyl-cellulose=2.53 g; …", rare=True),
    MORE_THAN_BOOKED,
    WHY,
    DAY,
    Asked(
        key="added",
        words="Added",
        hint="0.6 mL; for each fill: 0.6 mL; 0.5 mL",
        shown=lambda answers: "waits" in answers,
    ),
    Asked(
        key="reached", words="Reached", hint="pH 8.2 at 21 °C; for each fill", shown=lambda answers: "waits" in answers
    ),
)
"""What making and using both ask of what the hand did; the last two only where a line is measured to a reading."""


def _make(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Making | None) -> Making:
    return make(
        store,
        occasion,
        answers["recipe"],
        answers.get("amount"),
        into=answers.get("jars"),
        choices=choices_of(answers),
        yielded=answers.get("yielded"),
        place=answers.get("place"),
        temperature=answers.get("temperature"),
        tares=parts(answers.get("tare")),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _done(done: Making, currency: str) -> tuple[str, Content]:
    return f"Made: {done.material_name}", made_text(done, currency)


MAKE = Form(
    name="make",
    title="Make up a solution",
    help="""
Making up a stock solution. Enter on the first line chooses the recipe. Write amounts as
you would say them: 500 mL, 1.5 l, ½ L. Jars: 2 x 500 mL; the first ones are filled full.

The plan is worked out while you type: what is drawn from which lot, oldest date first, the
steps, the strength, the dates and the cost, or exactly what is short. What the hand did
otherwise than planned goes into From lots and Took. Enter in a field shows it once more and
asks. Page up and page down move the plan.
""",
    fields=(
        Asked(
            key="recipe",
            words="Recipe",
            hint="Enter chooses a recipe",
            needed=True,
            choose=offer_recipes("stock"),
            none="There is no recipe for a stock yet: write one in the bench book (F12).",
        ),
        Asked(key="amount", words="How much", hint="the recipe's own amount; or 2 L", in_tray="volume"),
        Asked(key="jars", words="Jars", hint="one jar; or for example 2 x 500 mL"),
        replace(PLACE, read=read_place),
        Asked(key="temperature", words="Temperature", hint="of the room, such as 21 °C", rare=True),
        Asked(key="yielded", words="Yielded", hint="as planned; or what it came to, such as 1.9 L", rare=True),
        EMPTY_WEIGHS,
        *BY_HAND,
    ),
    act=_make,
    plan=making_text,
    question=lambda answers: f"Make up {answers['recipe']}?",
    done=_done,
    lot=lambda done: next((code for code in done.codes if code), None),
    labels=lambda done: [code for code in done.codes if code],
    waits=lambda plan: plan.waits_for,
    steps=True,
)
