"""Throwing away: down the drain, into the bin, or into a waste can."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from textual.content import Content

from stockroom.actions.discarding import discard
from stockroom.actions.taking import Taking
from stockroom.domain.occasion import Occasion
from stockroom.domain.waste import BIN, DRAIN
from stockroom.planning.fitness import fitness
from stockroom.science.quantities import Dimension, show
from stockroom.science.reading import read_quantity
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.store.waste_cans import waste_cans
from stockroom.tui.forms.fields import AMOUNT, DAY, REASON, about_lot, lot_field, lots_offered
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import taking_text


def _discard(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Taking | None) -> Taking:
    return discard(
        store,
        occasion,
        answers["lot"],
        answers.get("amount"),
        to=answers.get("to"),
        room=answers.get("room"),
        all_the_same=answers.get("all_the_same"),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _offer_ends(store: Store, answers: Answers) -> Sequence[Offer]:
    cans = [
        Offer(
            key=can.lot.code,
            words=f"{can.lot.code}  {can.lot.material.name}",
            detail=f"waste can, {'vented' if can.vented else 'closed'}, takes {show(can.room)} more",
        )
        for can in waste_cans(store)
    ]
    drain = Offer(key=DRAIN, words=DRAIN, detail="where local rules allow it")
    return [*cans, drain, Offer(key=BIN, words=BIN, detail="solids, where local rules allow it")]


def _past_its_date(store: Store, known: Answers, local: datetime) -> Answers:
    """Offer the reason that the lot's own state gives."""
    if "lot" in known and "why" not in known and fitness(find_lot(store, known["lot"]), local).kind == "past-use-by":
        return {**known, "why": "past its date"}
    return known


def _into_a_can(answers: Answers) -> bool:
    return answers.get("to", DRAIN) not in (DRAIN, BIN)


DISCARD = Form(
    name="discard",
    title="Throw away (discard)",
    help="""
Throwing some of a lot away, or all of it: then it ends, and its label comes off. Where it
goes is kept with it; what must not meet what is in a waste can already is refused. Follow
the safety sheet and your local rules on waste.
""",
    caution="Follow the safety sheet and your local rules on waste.",
    fields=(
        lot_field(choose=lots_offered(lambda lot: lot.kind != "waste can")),
        replace(AMOUNT, needed=False, hint="all of it: then the lot ends"),
        Asked(key="to", words="Where to", hint="not stated; or scan a can", choose=_offer_ends, takes="lot"),
        Asked(
            key="room",
            words="Takes up",
            hint="its own volume; or 200 mL in the can",
            read=lambda store, answers: read_quantity(answers["room"], expect=Dimension.VOLUME),
            shown=_into_a_can,
            rare=True,
        ),
        Asked(
            key="all_the_same",
            words="All the same",
            hint="why, where a caution speaks against that can",
            shown=_into_a_can,
            rare=True,
        ),
        REASON,
        DAY,
    ),
    act=_discard,
    plan=taking_text,
    question=lambda answers: f"Throw {answers.get('amount', 'all')} of {answers['lot']} away?",
    done=lambda done, currency: (
        f"Thrown away: {done.name} ({done.code})",
        taking_text(done, currency) + (Content("\n\nTake its label off.") if done.ended else Content("")),
    ),
    about=about_lot,
    expand=_past_its_date,
)
