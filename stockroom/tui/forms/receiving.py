"""What comes in: deliveries, found stock, and opening a bottle."""

from __future__ import annotations

from dataclasses import replace

from textual.content import Content

from stockroom.actions.opening import Opened, open_lot
from stockroom.actions.receiving import Delivery, Received, receive
from stockroom.domain.codes import show as show_code
from stockroom.domain.occasion import Occasion
from stockroom.science.days import read_expiry
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.science.reading import read_packs
from stockroom.science.strengths import read_strength
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.tui.forms.fields import (
    DAY,
    EMPTY_WEIGHS,
    PLACE,
    WHY,
    about_lot,
    lot_field,
    lots_offered,
    money,
    offer_materials,
    parts,
    read_any_day,
    read_place,
    yes_or_no,
)
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import day_words


def _read_packs(store: Store, answers: Answers) -> object:
    if "material" not in answers:
        return None
    material = find_material(store, answers["material"])
    return read_packs(
        answers["amount"],
        expect=material.dimension,
        packs=material.packs,
        density_g_per_ml=material.liquid_density,
    )


def _receive(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Received | None
) -> Received:
    cost = answers.get("cost")
    delivery = Delivery(
        material=answers["material"],
        quantity=answers["amount"],
        cost=money(store, cost) if cost else None,
        found=answers.get("found") == "yes",
        supplier=answers.get("supplier"),
        lot_number=answers.get("lot_number"),
        use_by=answers.get("use_by"),
        place=answers.get("place"),
        purity=answers.get("purity"),
        strength=answers.get("strength"),
        opened=answers.get("opened"),
        as_one=answers.get("as_one") == "yes",
        tares=parts(answers.get("tare")),
    )
    return receive(store, occasion, delivery, dry_run=dry_run, confirmed=confirmed)


def _text(plan: Received, currency: str) -> Content:
    packs = []
    for code, quantity, value in zip(plan.codes, plan.quantities, plan.values, strict=True):
        cost = show_money(value, currency) if plan.cost_known else "cost not known"
        packs.append((show_code(code) if code else "a new lot", f"{show(quantity)}, {cost}"))
    rule = f" ({plan.use_by_rule})" if plan.use_by_rule else ""
    dates = [("use by", day_words(plan.use_by) + rule)] if plan.use_by else []
    title = Content.assemble((one_line(plan.name), "bold $text-primary"), "\n")
    return title + rows([*packs, *dates])


RECEIVE = Form(
    name="receive",
    title="Receive a delivery",
    help="""
Booking a delivery in: one lot a pack, each with its own code and label. 3 x 1 L makes three
lots; the cost is that of the whole delivery, shared out to the cent. Found stock has no
known cost: about 300 mL, and unknown dates, are no trouble.
""",
    fields=(
        Asked(
            key="material",
            words="Material",
            hint="Enter chooses what came",
            needed=True,
            choose=offer_materials,
            none="No material is known yet: add one in the bench book (F12).",
            adds="new-material",
        ),
        Asked(key="amount", words="How much", hint="500 g, 3 x 1 L, 25 sheets", needed=True, read=_read_packs),
        Asked(
            key="cost",
            words="Cost",
            hint="of the whole delivery; 0 where it was free",
            read=lambda store, answers: money(store, answers["cost"]),
        ),
        yes_or_no("Found", "found", "nobody knows what it cost", shown=lambda answers: "cost" not in answers),
        Asked(key="supplier", words="From", hint="the supplier"),
        Asked(key="lot_number", words="Maker's lot", hint="the number on the bottle"),
        Asked(
            key="use_by",
            words="Use by",
            hint="the maker's date: 2027-10, 31 Oct 2027",
            read=lambda store, answers: read_expiry(answers["use_by"]),
        ),
        replace(PLACE, read=read_place),
        Asked(
            key="purity",
            words="Purity",
            hint="as the material says; or 95 % w/w",
            rare=True,
            read=lambda store, answers: read_strength(answers["purity"]),
        ),
        Asked(
            key="strength",
            words="Strength",
            hint="of a solution, such as 3 % w/v",
            rare=True,
            read=lambda store, answers: read_strength(answers["strength"]),
        ),
        Asked(
            key="opened",
            words="Opened",
            hint="still closed; or the day it was opened",
            rare=True,
            read=lambda store, answers: read_any_day(store, answers, "opened"),
        ),
        yes_or_no("As one lot", "as_one", "all packs together in one lot", rare=True),
        EMPTY_WEIGHS,
        WHY,
        DAY,
    ),
    act=_receive,
    plan=_text,
    question=lambda answers: f"Receive {answers['amount']} of {answers['material']}?",
    done=lambda done, currency: (f"Received: {done.name}", _text(done, currency)),
    lot=lambda done: next((code for code in done.codes if code), None),
    labels=lambda done: [code for code in done.codes if code],
)


def _open(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Opened | None) -> Opened:
    return open_lot(store, occasion, answers["lot"], dry_run=dry_run, confirmed=confirmed)


def _opened_text(plan: Opened, currency: str) -> Content:
    rule = f" ({plan.use_by_rule})" if plan.use_by_rule else ""
    return rows([("bottle", plan.name), ("opened", plan.opened_on), ("use by", day_words(plan.use_by) + rule)])


OPEN = Form(
    name="open",
    title="Open a bottle",
    help="""
Opening a bottle begins its life once opened, which may end before the maker's date. Drawing
from a closed bottle opens it too.
""",
    fields=(
        lot_field(
            "Bottle",
            choose=lots_offered(lambda lot: lot.opened_on is None and not lot.is_jar),
            none="Every bottle on the shelf is open.",
        ),
        WHY,
        DAY,
    ),
    act=_open,
    plan=_opened_text,
    question=lambda answers: f"Open {answers['lot']}?",
    done=lambda done, currency: (f"{done.code} is open", _opened_text(done, currency)),
    lot=lambda done: done.code,
    about=about_lot,
)
