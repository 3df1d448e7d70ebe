"""Waste cans: one that is begun, and one that was collected or emptied."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from textual.content import Content

from stockroom.actions.waste_cans import ENDS, CanChanged, end_waste_can, new_waste_can, waste_can_page
from stockroom.domain.occasion import Occasion
from stockroom.domain.waste import Poured, WasteCan
from stockroom.science.quantities import Dimension, show
from stockroom.science.reading import read_quantity
from stockroom.store.open import Store
from stockroom.tui.forms.fields import DAY, PLACE, WHY, fixed, lot_field, lots_offered
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import rows

VENTED, CLOSED = "vented", "closed"


def _new(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: CanChanged | None
) -> CanChanged:
    return new_waste_can(
        store,
        occasion,
        answers["title"],
        answers["capacity"],
        vented=answers.get("cap") == VENTED,
        place=answers.get("place"),
        dry_run=dry_run,
    )


def _about(can: WasteCan) -> list[tuple[str, str]]:
    known = [
        ("can", can.lot.material.name),
        ("takes", show(can.capacity)),
        ("cap", VENTED if can.vented else CLOSED),
        ("place", can.lot.place),
    ]
    return [(name, value) for name, value in known if value]


def _text(plan: CanChanged, currency: str) -> Content:
    return rows(_about(plan.can))


NEW_CAN = Form(
    name="new-can",
    title="Begin a waste can",
    help="""
Beginning an empty can for waste. What is thrown away into it is kept with it; what must not
meet there is refused without a reason. What may go into which can is for local rules.
""",
    caution="What may go into which can, and who collects it, is for your local rules.",
    fields=(
        Asked(key="title", words="Written on it", hint="Alcohol waste", needed=True),
        Asked(
            key="capacity",
            words="Takes",
            hint="5 L",
            needed=True,
            read=lambda store, answers: read_quantity(answers["capacity"], expect=Dimension.VOLUME),
        ),
        Asked(
            key="cap",
            words="Cap",
            hint="closed; Enter chooses",
            choose=fixed((CLOSED, "a plain cap"), (VENTED, "lets gas out: for what gives some off")),
        ),
        PLACE,
        DAY,
    ),
    act=_new,
    plan=_text,
    question=lambda answers: f"Begin the waste can {answers['title']}?",
    done=lambda done, currency: (f"Begun: {done.can.lot.material.name} ({done.can.lot.code})", _text(done, currency)),
    lot=lambda done: done.can.lot.code,
)


def _end(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: CanChanged | None
) -> CanChanged:
    return end_waste_can(store, occasion, answers["lot"], answers["how"], dry_run=dry_run, confirmed=confirmed)


def _with_contents(can: WasteCan, poured: Sequence[Poured]) -> Content:
    """Write a can and what is in it, a line a pouring."""
    held = [f"{one.day} {show(one.quantity)} of {one.lot.material.name} ({one.lot.code})" for one in poured]
    held = held or ["nothing was poured in yet"]
    return rows([*_about(can), *zip(["in it", *[""] * len(held)], held, strict=False)])


def _ended_text(plan: CanChanged, currency: str) -> Content:
    return _with_contents(plan.can, plan.poured)


def _chosen_can(store: Store, answers: Answers, local: datetime) -> Content:
    if "lot" not in answers:
        return Content("")
    page = waste_can_page(store, answers["lot"])
    return _with_contents(page.can, page.poured)


END_CAN = Form(
    name="end-can",
    title="A waste can was collected or emptied",
    help="""
Ending a waste can with all that is in it, once it was collected, or emptied where local rules
allow that. Why says by whom, or under which note.
""",
    caution="Follow your local rules on waste.",
    fields=(
        lot_field("Waste can", choose=lots_offered(lambda lot: lot.kind == "waste can"), none="No waste can is here."),
        Asked(
            key="how",
            words="What was done",
            hint="Enter chooses",
            needed=True,
            choose=fixed(*((how, "") for how in ENDS)),
        ),
        WHY,
        DAY,
    ),
    act=_end,
    plan=_ended_text,
    question=lambda answers: f"{answers['lot']} was {answers['how']}?",
    done=lambda done, currency: (
        f"Ended: {done.can.lot.material.name} ({done.can.lot.code})",
        _ended_text(done, currency),
    ),
    about=_chosen_can,
)
