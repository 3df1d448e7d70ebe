"""Offering something of the studio's own no more, and taking it back into use."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from stockroom.actions.label_stocks import retire_label_stock
from stockroom.actions.materials import retire_material
from stockroom.actions.measures import retire_measure
from stockroom.actions.printers import forget_printer
from stockroom.actions.recipes import retire_recipe
from stockroom.actions.studio import retire_person, retire_place
from stockroom.actions.suppliers import retire_supplier
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.store.open import Store
from stockroom.tui.forms.form import Answers, Form
from stockroom.tui.forms.keeping import EDIT_WHY, Kept, keep, kept_text, which
from stockroom.tui.forms.own_labels import label_stock_of, printer_of
from stockroom.tui.forms.own_studio import measure_of, place_of
from stockroom.tui.forms.own_trade import supplier_of

_WHY = replace(EDIT_WHY, rare=False, hint="if it is worth keeping")
NOUN = "noun"
"""The answer that says of which kind it is; no field holds it."""
Ended = tuple[str, tuple[str, ...]]
"""The name of what is retired, and what still speaks of it."""


def _recipe(store: Store, occasion: Occasion, key: str, undo: bool) -> Ended:
    ended = retire_recipe(store, occasion, key, undo=undo)
    return ended.recipe.name, _still(("named by the recipes", ended.recipes), ("booked", ended.bookings))


def _material(store: Store, occasion: Occasion, key: str, undo: bool) -> Ended:
    ended = retire_material(store, occasion, key, undo=undo)
    return ended.material.name, _still(("on the shelf", ended.lots), ("in the recipes", ended.recipes))


def _person(store: Store, occasion: Occasion, key: str, undo: bool) -> Ended:
    person, left = retire_person(store, occasion, key, undo=undo)
    return person.name, _still(("open", tuple(f"{one.code} {one.words}" for one in left)))


def _still(*spoken: tuple[str, tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(f"still {how}: {', '.join(codes)}" for how, codes in spoken if codes)


def _printer(store: Store, occasion: Occasion, key: str, undo: bool) -> Ended:
    if undo:
        raise Refused("What was measured of a printer is forgotten for good: measure it again.")
    found = printer_of(store, key)
    forget_printer(store, found.name)
    return found.name, ("labels are drawn there as on a printer that prints true",)


RETIRING: dict[str, Callable[[Store, Occasion, str, bool], Ended]] = {
    "recipe": _recipe,
    "material": _material,
    "place": lambda store, occasion, key, undo: (
        retire_place(store, occasion, place_of(store, key).name, undo=undo).name,
        (),
    ),
    "measure": lambda store, occasion, key, undo: (
        retire_measure(store, occasion, measure_of(store, key).name, undo=undo).name,
        (),
    ),
    "person": _person,
    "supplier": lambda store, occasion, key, undo: (
        retire_supplier(store, occasion, supplier_of(store, key).name, undo=undo).name,
        (),
    ),
    "label stock": lambda store, occasion, key, undo: (
        retire_label_stock(store, occasion, label_stock_of(store, key).name, undo=undo).name,
        (),
    ),
    "printer": _printer,
}
_THEN = {
    "recipe": "offered no more; what was made by it stays",
    "material": "offered no more; its lots stay usable",
    "place": "offered no more",
    "measure": "offered no more",
    "person": "books nothing more; the initials stay theirs",
    "supplier": "ordered from no more, and its offers count no more",
    "label stock": "offered no more",
    "printer": "what was measured of it is forgotten",
}


def _retire(store: Store, occasion: Occasion, answers: Answers, undo: bool) -> Kept:
    noun = answers.get(NOUN, "")
    if noun not in RETIRING:
        raise BadInput("Retire what? Open its page in the bench book (F12), and press X there.")
    name, still = RETIRING[noun](store, occasion, which(answers, noun), undo)
    then = "in use again" if undo else _THEN[noun]
    return Kept(noun=noun, name=name, told=(("then", then),), notes=() if undo else still)


def _end(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    return keep(store, lambda: _retire(store, occasion, answers, False), dry_run=dry_run, confirmed=confirmed)


def _take_up(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    return keep(store, lambda: _retire(store, occasion, answers, True), dry_run=dry_run, confirmed=confirmed)


RETIRE = Form(
    name="retire",
    title="Retire: offer it no more",
    help="""
Offering something of the bench book no more: nothing of the past changes, and it can be
taken back into use from its page. What still speaks of it is named.
""",
    fields=(_WHY,),
    act=_end,
    plan=kept_text,
    verb="Retire",
    question=lambda answers: "Offer it no more?",
    done=lambda done, currency: (f"Retired: {done.name}", kept_text(done, currency)),
)
TAKE_UP = Form(
    name="take-up",
    title="Take back into use",
    help="Taking something back into use that was retired: it is offered again from now on.",
    fields=(_WHY,),
    act=_take_up,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: "Take it back into use?",
    done=lambda done, currency: (f"In use again: {done.name}", kept_text(done, currency)),
)
