"""Putting a past draw right, or the price of a lot."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import cast
from zoneinfo import ZoneInfo

from textual.content import Content

from stockroom.actions.prices import Pricing, put_price_right
from stockroom.actions.putting_right import Meant, PutRight, put_right
from stockroom.actions.telling import tell
from stockroom.domain.occasion import Occasion
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.store.history import find_action
from stockroom.store.open import Store
from stockroom.tui.forms.fields import JOB, REASON, about_lot, lot_field, money, split, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import rows


def _put_right(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: PutRight | None
) -> PutRight:
    meant = Meant(
        lot=answers.get("lot"),
        job=answers.get("job"),
        objects=split(answers.get("objects")),
        day=answers.get("happened"),
        amount=answers.get("amount"),
        entry=whole_number(answers.get("entry"), "draws"),
    )
    return put_right(store, occasion, answers["of"], meant, dry_run=dry_run, confirmed=confirmed)


def _about_action(store: Store, answers: Answers, local: datetime) -> Content:
    """Say what was done then, so that whoever puts it right sees what that was."""
    told = tell(store, find_action(store, answers.get("of", "")), cast(ZoneInfo, local.tzinfo))
    return rows([("then", told.words), ("when", told.when)])


def _righted_text(plan: PutRight, currency: str) -> Content:
    known = [("action", f"{plan.of.code}, {plan.of.words}")]
    for draw in plan.draws:
        known.append(("was", f"{show(draw.was)} of {draw.was_code}, {show_money(draw.was_value, currency)}"))
        known.append(("is now", f"{show(draw.now)} of {draw.code}, {show_money(draw.value, currency)}"))
    for code, was, now in plan.strengths:
        known.append(("strength", f"{code} was labelled {was} and is {now} from now on: print its label anew"))
    if plan.earlier_uses:
        known.append(("used before", f"at the strength on the old label: {', '.join(plan.earlier_uses)}"))
    return rows(known)


PUT_RIGHT = Form(
    name="put-right",
    title="Put a past draw right",
    help="""
Putting right what a past action drew: another lot, job, amount or day was meant, even where
later draws stand on it. Fill in only what differs. The old entry stays; a new one names it.
""",
    fields=(
        Asked(
            key="of",
            words="Action",
            hint="its code, such as A07JV",
            needed=True,
            read=lambda store, answers: find_action(store, answers["of"]),
        ),
        lot_field("Really from", needed=False, hint="as booked; or Enter chooses the lot"),
        Asked(key="amount", words="Really", hint="as booked; or how much it was"),
        replace(JOB, words="Really for", hint="as booked; or Enter chooses the job"),
        Asked(key="objects", words="Objects", hint="as booked; or their numbers: 1, 3"),
        Asked(key="happened", words="Really on", hint="as booked; or 2026-11-20T14:00"),
        Asked(
            key="entry",
            words="Which draw",
            hint="its number, where it drew several times",
            rare=True,
            read=lambda store, answers: whole_number(answers["entry"], "draws"),
        ),
        REASON,
    ),
    act=_put_right,
    plan=_righted_text,
    question=lambda answers: f"Put {answers['of']} right?",
    done=lambda done, currency: (f"Put right: {done.of.code}", _righted_text(done, currency)),
    about=_about_action,
)


def _price(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Pricing | None) -> Pricing:
    cost = money(store, answers["cost"])
    return put_price_right(store, occasion, answers["lot"], cost, dry_run=dry_run, confirmed=confirmed)


def _priced_text(plan: Pricing, currency: str) -> Content:
    known = [("lot", f"{plan.name} ({plan.code})"), ("cost was", show_money(plan.was, currency))]
    known.append(("is now", show_money(plan.cost, currency)))
    known += [("of that", f"{share.what}: {show_money(share.value, currency)}") for share in plan.shares]
    return rows(known)


PRICE = Form(
    name="price",
    title="Put a price right",
    help="""
Putting the price of a received lot right, when the invoice says otherwise. The difference
follows what was drawn from the lot; closed jobs keep their figure.
""",
    fields=(
        lot_field(),
        Asked(
            key="cost",
            words="Really cost",
            hint="the whole lot",
            needed=True,
            read=lambda store, answers: money(store, answers["cost"]),
        ),
        REASON,
    ),
    act=_price,
    plan=_priced_text,
    question=lambda answers: f"The price of {answers['lot']}?",
    done=lambda done, currency: (f"Price put right: {done.code}", _priced_text(done, currency)),
    about=about_lot,
)
