"""A little of one lot, out and in: taking, bringing back, throwing away, sending back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.content import Content

from stockroom.actions.bringing_back import BroughtBack, bring_back
from stockroom.actions.taking import REASONS, Taking, return_lot, take
from stockroom.domain.codes import show as show_code
from stockroom.domain.occasion import Occasion
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.store.left_open import loans_out
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.tui.forms.fields import (
    AMOUNT,
    DAY,
    JOB,
    MORE_THAN_BOOKED,
    OBJECTS,
    OFFCUTS,
    REASON,
    WHY,
    about_lot,
    fixed,
    lot_field,
    lots_offered,
    money,
    read_any_day,
    sizes_of,
    split,
    yes_or_no,
)
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import rows, taking_text


def _take(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Taking | None) -> Taking:
    job = answers.get("job")
    return take(
        store,
        occasion,
        answers["lot"],
        answers["amount"],
        job=job,
        objects=split(answers.get("objects")) if job else (),
        reason=None if job else answers.get("for"),
        to_whom=answers.get("to") if answers.get("for") == "lent" and not job else None,
        back_on=answers.get("back") if answers.get("for") == "lent" and not job else None,
        count_first=answers.get("count_first") == "yes",
        keep_offcuts=sizes_of(answers),
        dry_run=dry_run,
        confirmed=confirmed,
    )


_SAID = {"waste": "goes to waste", "studio": "studio use"}

TAKE = Form(
    name="take",
    title="Take a little of a lot",
    help="""
Taking a little of one lot, for a job or for something else: a swab, two blotters, a spill, a
loan. Write the amount as you say it: 20 mL, ½ L, 2 sheets. Where the books hold less than
was taken, say so: the rest is booked as found, then taken.
""",
    fields=(
        lot_field(),
        AMOUNT,
        JOB,
        OBJECTS,
        Asked(
            key="for",
            words="What for",
            hint="Enter chooses; or choose a job",
            needed=True,
            choose=fixed(*((why, _SAID[end]) for why, end in REASONS.items())),
            shown=lambda answers: "job" not in answers,
        ),
        Asked(key="to", words="Lent to", hint="whom", shown=lambda answers: answers.get("for") == "lent"),
        Asked(
            key="back",
            words="Back by",
            hint="no day said; or in 7 days",
            read=lambda store, answers: read_any_day(store, answers, "back"),
            shown=lambda answers: answers.get("for") == "lent",
        ),
        MORE_THAN_BOOKED,
        OFFCUTS,
        replace(WHY, shown=lambda answers: "job" in answers),
        DAY,
    ),
    act=_take,
    plan=taking_text,
    question=lambda answers: f"Take {answers['amount']} of {answers['lot']}?",
    done=lambda done, currency: (f"Taken from {done.code}", taking_text(done, currency)),
    about=about_lot,
)


def _bring_back(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: BroughtBack | None
) -> BroughtBack:
    return bring_back(
        store,
        occasion,
        answers.get("taken") or answers["lot"],
        answers["amount"],
        job=answers.get("job"),
        used_bath=answers.get("used") == "yes",
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _back_text(plan: BroughtBack, currency: str) -> Content:
    kinds = {
        "bring-back": "comes back into its lot",
        "remainder": "kept unused, as a jar of its own",
        "used bath": "kept only to be discarded",
    }
    return rows(
        [
            ("what", f"{show(plan.quantity)} of {plan.name} ({show_code(plan.code) if plan.code else 'a new jar'})"),
            ("how", kinds[plan.kind]),
            ("value", show_money(plan.value, currency)),
            ("job", plan.job or "none"),
        ]
    )


def _lent_first(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer the lots of which something is lent, with who has it and until when, then the others."""
    lent = {}
    for loan in loans_out(store):
        if loan.lot:
            name = find_lot(store, loan.lot).material.name
            back = f", back by {loan.by}" if loan.by else ""
            lent[loan.lot] = Offer(key=loan.lot, words=f"{loan.lot}  {name}", detail=f"{loan.words}{back}")
    return [*lent.values(), *(offer for offer in lots_offered()(store, answers) if offer.key not in lent)]


def _about_taken(store: Store, answers: Answers, local: object) -> Content:
    loan = next((one for one in loans_out(store) if one.code == answers.get("taken")), None)
    return Content(loan.words if loan else "")


BRING_BACK = Form(
    name="bring-back",
    title="Bring back",
    help="""
Bringing back some of what was taken: for a loan or a draw of one lot, by the lot or by the
action that took it. For the action of a use, the amount is of its bath: kept unused it is a
jar of its own and takes its share of the cost back from the job; used it is kept only to be
discarded.
""",
    fields=(
        Asked(key="taken", words="Action", hint="the lot's newest; or the code of the taking, such as A07JV"),
        lot_field(needed=True, choose=_lent_first, shown=lambda answers: "taken" not in answers),
        replace(AMOUNT, read=None, hint="what comes back: 5 mL"),
        replace(JOB, shown=lambda answers: "taken" not in answers, hint="any; or Enter chooses"),
        yes_or_no(
            "Used bath",
            "used",
            "it was used: kept only to be discarded",
            shown=lambda answers: "taken" in answers,
        ),
        WHY,
        DAY,
    ),
    act=_bring_back,
    plan=_back_text,
    question=lambda answers: f"Bring back {answers['amount']}?",
    done=lambda done, currency: (f"Back: {done.name}", _back_text(done, currency)),
    lot=lambda done: None if done.kind == "bring-back" else done.code,
    about=lambda store, answers, local: (_about_taken if "taken" in answers else about_lot)(store, answers, local),
)


def _return(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Taking | None) -> Taking:
    credit = money(store, answers["credit"])
    return return_lot(store, occasion, answers["lot"], answers["amount"], credit, dry_run=dry_run, confirmed=confirmed)


RETURN = Form(
    name="return",
    title="Send back to the supplier",
    help="""
Sending some of a bought lot back to where it came from. What was bought falls by the credit;
what the credit does not make up is waste.
""",
    fields=(
        lot_field(choose=lots_offered(lambda lot: lot.kind == "bought")),
        AMOUNT,
        Asked(
            key="credit",
            words="Credit",
            hint="what the supplier gives back; 0 for nothing",
            needed=True,
            read=lambda store, answers: money(store, answers["credit"]),
        ),
        REASON,
        DAY,
    ),
    act=_return,
    plan=taking_text,
    question=lambda answers: f"Send {answers['amount']} of {answers['lot']} back?",
    done=lambda done, currency: (f"Sent back: {done.name} ({done.code})", taking_text(done, currency)),
    about=about_lot,
)
