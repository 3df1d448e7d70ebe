"""The page of a material: what it is, what its label warns of, what it costs and when it is bought."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from textual.content import Content

from stockroom.actions.material_hazards import HAZARD_FIELDS, MaterialHazards, material_hazards
from stockroom.actions.materials import recipes_naming, written
from stockroom.actions.order_points import choices_by_material, order_below
from stockroom.domain.materials import Material
from stockroom.domain.orders import goods
from stockroom.science.money import show_money
from stockroom.store.lots import lots_of_materials
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import recipe_making
from stockroom.tui.bench_book.history import edits_part, listed
from stockroom.tui.forms.own_material import told_of
from stockroom.tui.forms.recipe_text import label_words
from stockroom.tui.texts import one_line, rows

Part = tuple[str, Content]
_ELSEWHERE = {*(name.replace("_", " ") for name in HAZARD_FIELDS), "source", "low", "key", ""}
"""What stands in a part of its own."""


def material_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a material, part by part."""
    found = find_material(store, key)
    yield "", rows(_facts(found))
    yield "What its label warns of", _warns(material_hazards(store, found))
    yield "Price and order", rows(_buying(store, found, local))
    lots = lots_of_materials(store, [found.id])
    yield (
        "On the shelf",
        listed(f"{lot.code}  {lot.amount_words}" + (f"  {lot.place}" if lot.place else "") for lot in lots)
        if lots
        else Content("Nothing of it is here."),
    )
    yield "In the recipes", listed(recipes_naming(store, found.key))
    yield "Where these figures come from", Content(one_line(found.source or ""))
    yield edits_part(store, "material", found.key)


def _facts(material: Material) -> list[tuple[str, str]]:
    kept = [(name, value) for name, value in told_of(material) if name not in _ELSEWHERE]
    units = {"density": " g/mL", "molar mass": " g/mol"}
    return [(name, value + units.get(name, "")) for name, value in kept]


def _warns(found: MaterialHazards) -> Content:
    own = found.material
    lines = label_words(own.signal_word, own.hazards, own.pictograms)
    lines = [*lines, *own.precautions, *([own.hazard_ground] if own.hazard_ground else [])]
    if found.words:
        lines.append(f"! hazards: {found.words}")
    if found.differs and found.suggested:
        one = found.suggested
        lines.append("suggested: " + "; ".join(label_words(one.signal_word, one.hazards, one.pictograms)))
        lines.append(one.ground)
    elif own.hazards:
        lines.append("Local rules, the maker's sheet and licensed practice come first.")
    return listed(lines)


def _buying(store: Store, material: Material, local: datetime) -> list[tuple[str, str]]:
    if not material.metered:
        return [("not metered", "it is never bought nor counted")]
    choices = choices_by_material(store).get(material.id, [])
    told = [
        (
            one.offer.supplier.name,
            f"{one.offer.pack_words} for {show_money(one.offer.price, one.offer.currency)}, "
            f"about {one.days} days, seen {one.offer.seen_on}",
        )
        for one in choices
    ]
    made = recipe_making(store, material.key)
    if made:
        told.append(("made here", f"by {made.name}"))
    elif not choices:
        told.append(("price", "nobody is known to offer it"))
    point = order_below(store, material, choices, local.date())
    low = written(material)["low"]
    if point.below is not None:
        told.append(
            ("make when below" if made else "order when below", f"{goods(material, point.below)} ({point.why})")
        )
    else:
        told.append(("order when below", f"not known: {point.why}, and no least is set" if low is None else str(low)))
    return told
