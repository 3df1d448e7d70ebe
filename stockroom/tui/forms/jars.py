"""What is done with a jar as it stands: topping it up, moving it."""

from __future__ import annotations

from dataclasses import replace

from textual.content import Content

from stockroom.actions.moving import Moved, move
from stockroom.actions.topping_up import ToppedUp, top_up
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.science.numerals import read_decimal, tidy
from stockroom.science.quantities import show
from stockroom.science.ranges import show_range
from stockroom.science.temperature import read_celsius
from stockroom.store.open import Store
from stockroom.store.studio import all_places
from stockroom.tui.forms.fields import (
    AMOUNT,
    DAY,
    PLACE,
    WHY,
    about_lot,
    lot_field,
    lots_offered,
    read_place,
    yes_or_no,
)
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import day_words


def _hardness(typed: str | None) -> float:
    if typed is None:
        return 0
    try:
        return float(read_decimal(tidy(typed).lower().removesuffix("mg/l").strip()))
    except (ValueError, ArithmeticError):
        raise BadInput(f"'{typed}' is not a hardness. Write mg/L as calcium carbonate, for example 180.") from None


def _top_up(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: ToppedUp | None
) -> ToppedUp:
    return top_up(
        store,
        occasion,
        answers["lot"],
        answers["amount"],
        temperature=answers.get("temperature"),
        hardness_mg_per_l=_hardness(answers.get("hardness")),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _topped_text(plan: ToppedUp, currency: str) -> Content:
    refills = f"{show_range(plan.refills)} of {show(plan.added)}" if plan.refills else None
    known = [
        ("jar", f"{plan.name} ({plan.code})"),
        ("added", show(plan.added)),
        ("then holds", show(plan.holds)),
        ("verdict", plan.verdict),
        ("ready", f"{day_words(plan.ready_on)}; not to be used before" if plan.ready_on else None),
        ("refills left", refills),
        ("strength", plan.strength),
    ]
    told = rows((name, value) for name, value in known if value)
    cautions = [Content.styled(f"\n! {one_line(caution)}", "$text-warning") for caution in plan.cautions]
    return Content("").join([told, *cautions])


TOP_UP = Form(
    name="top-up",
    title="Top up with water",
    help="""
Adding water to a jar. Over solid it is saturated again once it was shaken and has settled;
the plan says how many more refills the solid can still do, as a range. Without solid it
grows weaker by as much.
""",
    fields=(
        lot_field("Jar", choose=lots_offered(lambda lot: lot.kind == "jar"), none="There is no jar on the shelf."),
        replace(AMOUNT, hint="water added: 500 mL"),
        Asked(
            key="temperature",
            words="Temperature",
            hint="at which it is shaken and settles: 21 °C",
            read=lambda store, answers: read_celsius(answers["temperature"]),
        ),
        Asked(
            key="hardness",
            words="Hardness",
            hint="of the water, mg/L as calcium carbonate; 0",
            rare=True,
            read=lambda store, answers: _hardness(answers["hardness"]),
        ),
        WHY,
        DAY,
    ),
    act=_top_up,
    plan=_topped_text,
    question=lambda answers: f"Top {answers['lot']} up with {answers['amount']}?",
    done=lambda done, currency: (f"Topped up: {done.name} ({done.code})", _topped_text(done, currency)),
    lot=lambda done: done.code,
    about=about_lot,
)


def _offer_places_too(store: Store, answers: Answers) -> list[Offer]:
    places = [
        Offer(key=one.name, words=f"all of {one.name}", detail="everything kept there") for one in all_places(store)
    ]
    return [*lots_offered()(store, answers), *places]


def _move(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Moved | None) -> Moved:
    return move(
        store,
        occasion,
        answers["lot"],
        answers["place"],
        shaken=answers.get("shaken") == "yes",
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _moved_text(plan: Moved, currency: str) -> Content:
    known = [("to", plan.to), ("what", ", ".join(plan.codes))]
    if plan.settling:
        known.append(("settling", f"{', '.join(plan.settling)}: shaken on the way, not ready before it has settled"))
    return rows(known)


MOVE = Form(
    name="move",
    title="Move to another place",
    help="""
Moving a lot, or all that is kept at a place, to another place. A saturated jar that was
carried and shaken is settling again. Labels stay true: the place is not on them.
""",
    fields=(
        lot_field("What", choose=_offer_places_too),
        replace(PLACE, words="To", needed=True, read=read_place),
        yes_or_no("Shaken", "shaken", "jars kept over solid were shaken on the way and settle again"),
        WHY,
        DAY,
    ),
    act=_move,
    plan=_moved_text,
    question=lambda answers: f"Move {answers['lot']} to {answers['place']}?",
    done=lambda done, currency: (f"Moved to {done.to}", _moved_text(done, currency)),
    about=about_lot,
)
