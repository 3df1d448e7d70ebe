"""Withdrawing lots, and releasing them: unfit everywhere at once, with all that holds some of them."""

from __future__ import annotations

from textual.content import Content

from stockroom.actions.losses import loan_words
from stockroom.actions.withdrawing import Recall, release, withdraw
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.domain.trace import TracedObject
from stockroom.store.open import Store
from stockroom.tui.forms.fields import REASON, about_lot, lot_field, offer_materials
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import rows


def _withdraw(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Recall | None) -> Recall:
    return withdraw(
        store,
        occasion,
        answers.get("lot"),
        maker_lot=answers.get("maker_lot"),
        material=answers.get("material"),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _release(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Recall | None) -> Recall:
    return release(
        store,
        occasion,
        answers.get("lot"),
        maker_lot=answers.get("maker_lot"),
        material=answers.get("material"),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _text(plan: Recall, currency: str) -> Content:
    pulled = plan.kind == "withdraw"
    known = [("what", ", ".join(f"{lot.code} {lot.material.name}" for lot in plan.lots))]
    known += [("pull" if pulled else "put back", _on_the_shelf(lot)) for lot in plan.to_pull]
    if not plan.to_pull:
        known.append(("then", "nothing of it is on the shelf any more"))
    known += [("call back" if pulled else "lent out", loan_words(loan)) for loan in plan.lent]
    known += [("reached", f"{lot.code} {lot.material.name}") for lot in plan.marked if lot not in plan.to_pull]
    known += [("touched", _object(one)) for one in plan.trace.objects]
    return rows(known)


def _object(one: TracedObject) -> str:
    name = one.name or "no object named"
    return f"{one.job} {one.title}: {name}{'' if one.stated or not one.name else ' (not stated: it may have been)'}"


def _on_the_shelf(lot: Lot) -> str:
    amount = lot.amount_words if lot.balance.quantity else lot.state
    return f"{lot.code} {lot.material.name}, {amount}, {lot.place or 'no place'}"


_FIELDS = (
    lot_field(
        needed=False, hint="Enter chooses; or by the maker's lot", shown=lambda answers: "maker_lot" not in answers
    ),
    Asked(
        key="maker_lot",
        words="Maker's lot",
        hint="or its number, as the recall names it",
        shown=lambda answers: "lot" not in answers,
    ),
    Asked(
        key="material",
        words="Of",
        hint="where several have that number; Enter chooses",
        choose=offer_materials,
        shown=lambda answers: "maker_lot" in answers and "lot" not in answers,
        rare=True,
    ),
    REASON,
)

WITHDRAW = Form(
    name="withdraw",
    title="Withdraw a lot",
    help="""
Withdrawing a lot, or every lot of a maker's lot number: it is unfit everywhere at once, and so
is all that holds some of it, in open procedures and plans too. The plan lists what to pull
from the shelf, what is lent out, and what it touched already.
""",
    fields=_FIELDS,
    act=_withdraw,
    plan=_text,
    question=lambda answers: f"Withdraw {answers.get('lot') or answers.get('maker_lot')}?",
    done=lambda done, currency: ("Withdrawn", _text(done, currency)),
    about=about_lot,
)

RELEASE = Form(
    name="release",
    title="Release what was withdrawn",
    help="""
Releasing a lot that was withdrawn, with its reason: what spoke against it before speaks
against it again.
""",
    fields=_FIELDS,
    act=_release,
    plan=_text,
    question=lambda answers: f"Release {answers.get('lot') or answers.get('maker_lot')}?",
    done=lambda done, currency: ("Released", _text(done, currency)),
    about=about_lot,
)
