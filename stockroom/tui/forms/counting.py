"""Counting what is in a lot, or that it is empty."""

from __future__ import annotations

from textual.content import Content

from stockroom.actions.counting import EMPTY_REASONS, METHODS, Counting, count
from stockroom.actions.weighing import set_tare
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.science.money import show_money
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.tui.forms.fields import DAY, WHY, about_lot, fixed, lot_field, yes_or_no
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.plans import Planned, planned_text
from stockroom.tui.texts import rows


def _read_found(store: Store, answers: Answers) -> object:
    from stockroom.actions.taking import read_amount_of

    if "lot" not in answers:
        return None
    found = read_amount_of(find_lot(store, answers["lot"]), answers["amount"], allow_zero=True)
    if not found.quantity.quanta:
        raise BadInput("Nothing is left? Then book it as empty, with the reason: Esc, then 'Book as empty'.")
    return found


def _count(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Counting | None
) -> Counting:
    return count(
        store,
        occasion,
        answers["lot"],
        answers.get("amount"),
        gross=answers.get("gross"),
        density=answers.get("density"),
        method=answers.get("method", METHODS[0]),
        evaporated=answers.get("evaporated") == "yes",
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _text(plan: Counting, currency: str) -> Content:
    difference = plan.difference
    if not difference.quanta:
        words = "none: the books are right"
    else:
        more = difference.quanta > 0
        amount = show(difference if more else -difference)
        words = f"{amount} {'more, found without value' if more else 'less'}"
        words += f", {show_money(-plan.value, currency)}" if plan.value else ""
    found = [("lot", f"{plan.name} ({plan.code})"), ("there is", show(plan.counted))]
    found += [("books say", show(plan.books_said)), ("difference", words)]
    if plan.weighed:
        found += [("weighed", ground) for ground in plan.weighed.grounds]
    if plan.strength:
        found.append(("strength", plan.strength))
    if plan.ended:
        found.append(("then", "the lot has ended: take its label off"))
    return rows(found)


COUNT = Form(
    name="count",
    title="Count what is there",
    help="""
Counting what is in one lot. The books are never overwritten: less than they say is booked as
a loss with its share of value, more is found without value. Evaporated: only water went, so
the value stays and the strength is not known any more. A whole place is counted as a round:
F10.
""",
    fields=(
        lot_field(),
        Asked(
            key="amount",
            words="There is",
            hint="what you found: 340 mL, 9 sheets",
            needed=True,
            read=_read_found,
            shown=lambda answers: "gross" not in answers,
        ),
        Asked(key="gross", words="Gross weight", hint="or what it weighs with its container: 812.5 g", rare=True),
        Asked(
            key="density",
            words="Density",
            hint="of the liquid, where it is not known: 1.02 g/mL",
            shown=lambda answers: "gross" in answers,
            rare=True,
        ),
        Asked(
            key="method",
            words="How",
            hint="measured",
            choose=fixed(*((method, "") for method in METHODS)),
            shown=lambda answers: "gross" not in answers,
        ),
        yes_or_no("Evaporated", "evaporated", "only water went"),
        WHY,
        DAY,
    ),
    act=_count,
    plan=_text,
    question=lambda answers: f"{answers['lot']}: {answers.get('amount') or answers['gross']}?",
    done=lambda done, currency: (f"Counted: {done.name} ({done.code})", _text(done, currency)),
    about=about_lot,
)


def _empty(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Counting | None
) -> Counting:
    return count(store, occasion, answers["lot"], empty=True, dry_run=dry_run, confirmed=confirmed)


EMPTY = Form(
    name="empty",
    title="Book as empty",
    help="""
Booking that nothing is left in a lot: it ends, and what the books still held is lost, with
the reason. Losses are reported by their reasons.
""",
    fields=(
        lot_field(),
        Asked(
            key="why",
            words="Why",
            hint="Enter chooses the reason",
            needed=True,
            choose=fixed(*((reason, "") for reason in EMPTY_REASONS)),
        ),
        DAY,
    ),
    act=_empty,
    plan=_text,
    question=lambda answers: f"{answers['lot']} is empty?",
    done=lambda done, currency: (f"Empty: {done.name} ({done.code})", _text(done, currency)),
    about=about_lot,
)


def _keep_tare(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Planned | None
) -> Planned:
    lot, mass = find_lot(store, answers["lot"]), show(_read_mass(answers["mass"]))
    told = (("lot", f"{lot.material.name} ({lot.code})"), ("empty", f"its container weighs {mass} with its lid"))
    if not dry_run:
        set_tare(store, occasion, lot.code, answers["mass"])
    return Planned(told=told)


def _read_mass(typed: str) -> Quantity:
    return read_quantity(typed, expect=Dimension.MASS).quantity


TARE = Form(
    name="tare",
    title="Keep what the empty container weighs",
    help="""
Keeping what a container weighs empty, with its lid: from then on it is counted by weighing it as
it stands, under Gross weight of a count.
""",
    fields=(
        lot_field(),
        Asked(
            key="mass",
            words="Empty, it weighs",
            hint="with its lid: 310 g",
            needed=True,
            read=lambda store, answers: _read_mass(answers["mass"]),
        ),
        DAY,
    ),
    act=_keep_tare,
    plan=planned_text,
    question=lambda answers: f"The container of {answers['lot']} weighs {answers['mass']}?",
    done=lambda done, currency: ("Kept: what it weighs empty", planned_text(done, currency)),
    about=about_lot,
)
