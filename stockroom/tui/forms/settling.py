"""A jar kept over solid that settles again, and pouring one lot into another."""

from __future__ import annotations

from dataclasses import replace

from textual.content import Content

from stockroom.actions.pouring import Poured, pour
from stockroom.actions.settling import AFTER, SHAKING, Settling, settle
from stockroom.domain.occasion import Occasion
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.science.temperature import read_celsius
from stockroom.store.open import Store
from stockroom.tui.forms.fields import AMOUNT, DAY, WHY, about_lot, fixed, lot_field, lots_offered
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import day_words


def _settle(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Settling | None
) -> Settling:
    return settle(
        store,
        occasion,
        answers["lot"],
        answers["after"],
        temperature=answers.get("temperature"),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _settling_text(plan: Settling, currency: str) -> Content:
    known = [("jar", f"{plan.name} ({plan.code})"), ("after", plan.after)]
    known += [("ready", f"{day_words(plan.ready_on)}; not to be used before"), ("mind", plan.advice)]
    return rows(known)


SETTLE = Form(
    name="settle",
    title="Settling again",
    help="""
A jar kept over solid that was shaken, carried or warmed settles again, and is not ready before
it has. Its strength follows the temperature at which it was shaken and settled.
""",
    fields=(
        lot_field("Jar", choose=lots_offered(lambda lot: lot.over_solid), none="No jar here is kept over solid."),
        Asked(
            key="after",
            words="After",
            hint="Enter chooses",
            needed=True,
            choose=fixed(*((after, "") for after in AFTER)),
        ),
        Asked(
            key="temperature",
            words="Temperature",
            hint="at which it settles: 21 °C",
            read=lambda store, answers: read_celsius(answers["temperature"]),
            shown=lambda answers: answers.get("after") == SHAKING,
        ),
        WHY,
        DAY,
    ),
    act=_settle,
    plan=_settling_text,
    question=lambda answers: f"{answers['lot']} settles again?",
    done=lambda done, currency: (f"Settling: {done.name} ({done.code})", _settling_text(done, currency)),
    about=about_lot,
)


def _pour(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Poured | None) -> Poured:
    return pour(
        store, occasion, answers["lot"], answers["into"], answers.get("amount"), dry_run=dry_run, confirmed=confirmed
    )


def _poured_text(plan: Poured, currency: str) -> Content:
    rule = f" ({plan.use_by_rule})" if plan.use_by_rule else ""
    known = [
        ("poured", f"{show(plan.quantity)} of {plan.name} ({plan.code}), {show_money(plan.value, currency)}"),
        ("into", f"{plan.into_name} ({plan.into}), which then holds {show(plan.holds)}"),
        ("left", "nothing: that lot ends" if plan.ended else show(plan.left)),
        ("solid", "stays in the jar that was poured from" if plan.solid_stays else None),
        ("strength", plan.strength),
        ("use by", f"{day_words(plan.use_by)}{rule}" if plan.use_by else None),
        ("ready", day_words(plan.ready_on) if plan.ready_on else None),
        ("then", f"marked not fit: {plan.unfit}" if plan.unfit else None),
    ]
    told = rows((name, value) for name, value in known if value)
    cautions = [Content.styled(f"\n! {one_line(caution.words)}", "$text-warning") for caution in plan.cautions]
    return Content("").join([told, *cautions])


POUR = Form(
    name="pour",
    title="Pour into another jar",
    help="""
Pouring some or all of one lot into another: its value goes with it, and the more cautious
dates rule. Solid stays where it is. What does not belong there makes that jar unfit, and says
so before it is booked.
""",
    fields=(
        lot_field("From"),
        replace(lot_field("Into"), key="into"),
        replace(AMOUNT, needed=False, hint="all of it"),
        WHY,
        DAY,
    ),
    act=_pour,
    plan=_poured_text,
    question=lambda answers: f"Pour {answers['lot']} into {answers['into']}?",
    done=lambda done, currency: (f"Poured into {done.into_name} ({done.into})", _poured_text(done, currency)),
    lot=lambda done: done.into,
    about=about_lot,
)
