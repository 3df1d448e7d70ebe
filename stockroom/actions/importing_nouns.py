"""Take one row in: a material, a supplier, a place, a person, or what a supplier asks.

What is here already and says the same is passed over; where it says otherwise the row is refused, since a file adds
and never changes.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime
from functools import partial

from stockroom.actions.exchange_rows import material_cells, offer_cells, person_cells, place_cells, supplier_cells
from stockroom.actions.materials import new_material, retire_material
from stockroom.actions.offers import Asked, end_this_offer, new_offer, read_pack
from stockroom.actions.studio import new_person, new_place, retire_person, retire_place
from stockroom.actions.suppliers import new_supplier, retire_supplier
from stockroom.actions.taken_in import TakenIn, at_moment
from stockroom.domain.material_files import read_material_table
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import Person, Place, Supplier
from stockroom.domain.toml_tables import Problems, Table
from stockroom.errors import Unreadable
from stockroom.exchange.cells import Cells
from stockroom.science.money import read_money
from stockroom.science.numerals import quoted
from stockroom.store.fold import fold
from stockroom.store.materials import all_materials, find_material
from stockroom.store.offers import all_offers
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import all_people, all_places
from stockroom.store.suppliers import all_suppliers, find_supplier

_LISTS = ("hazards", "precautions", "pictograms")
_FLAGS = ("metered", "vented", "register")


class _Told(Table):
    """A material's table, whose problems go to the cells they came from."""

    def __init__(self, values: dict[str, object], cells: Cells) -> None:
        super().__init__(dict(values), "", Problems(""))
        self._told = cells

    def refuse(self, key: str, message: str) -> None:
        self._told.refuse(key, message)


def take_material(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Add a material that is not here yet."""
    values: dict[str, object] = {name: cells.exact(name) for name in cells.row.cells if name != "retired_on"}
    values |= {name: cells.flag(name) for name in _FLAGS} | {name: cells.lines(name) for name in _LISTS}
    values = {"kind": "other", **{name: value for name, value in values.items() if value is not None}}
    retired = cells.read("retired_on", lambda text: at_moment(occasion, text))
    read = read_material_table(_Told({"key": "not-known-yet", **values}, cells))
    if not cells.fine:
        return None
    here = _material_here(store, read, "key" in values)
    if here is not None:
        said = replace(read, key=here.key, retired_on=_day_of(retired))
        apart = cells.differs(here.key, material_cells(here), material_cells(said))
        return None if apart else TakenIn(words=here.key, here=True)
    added = new_material(store, values)
    if retired is not None:
        retire_material(store, retired, added.key)
    return TakenIn(words=f"{added.key}  {added.name}")


def _material_here(store: Store, read: Material, keyed: bool) -> Material | None:
    for one in all_materials(store, retired=True):
        alike = (fold(one.name), fold(one.grade or "")) == (fold(read.name), fold(read.grade or ""))
        if one.key == read.key if keyed else alike:
            return one
    return None


def take_supplier(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Add a supplier that is not here yet."""
    currency = setting(store, "currency")
    name, note = cells.exact("name") or "", cells.exact("note")
    days = cells.read("delivery_days", _whole)
    least = cells.read("minimum_order", lambda text: read_money(text, currency))
    retired = cells.read("retired_on", lambda text: at_moment(occasion, text))
    if not cells.fine:
        return None
    said = Supplier(
        id=0,
        key="",
        name=name.strip(),
        lead_days=days,
        minimum_order=least or None,
        note=note,
        retired_on=_day_of(retired),
    )
    here = next((one for one in all_suppliers(store) if fold(name) in (fold(one.name), one.key)), None)
    if here is not None:
        apart = cells.differs(here.name, supplier_cells(here, currency), supplier_cells(said, currency))
        return None if apart else TakenIn(words=here.name, here=True)
    added = new_supplier(store, name, delivery=days, minimum_order=least, note=note)
    if retired is not None:
        retire_supplier(store, retired, added.name)
    return TakenIn(words=added.name)


def take_place(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Add a place that is not here yet."""
    name, note = cells.exact("name") or "", cells.exact("note")
    retired = cells.read("retired_on", lambda text: at_moment(occasion, text))
    if not cells.fine:
        return None
    here = next((one for one in all_places(store, retired=True) if fold(one.name) == fold(name)), None)
    if here is not None:
        said = Place(id=0, name=name, note=note, retired_on=_day_of(retired))
        return (
            None if cells.differs(here.name, place_cells(here), place_cells(said)) else TakenIn(words=name, here=True)
        )
    added = new_place(store, name, note)
    if retired is not None:
        retire_place(store, retired, added.name)
    return TakenIn(words=added.name)


def take_person(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Add a person who is not here yet."""
    initials, name = cells.text("initials") or "", cells.exact("name") or ""
    retired = cells.read("retired_on", lambda text: at_moment(occasion, text))
    if not cells.fine:
        return None
    here = next((one for one in all_people(store) if one.initials.upper() == initials.upper()), None)
    if here is not None:
        said = Person(id=0, initials=here.initials, name=name, retired_on=_day_of(retired))
        apart = cells.differs(here.initials, person_cells(here), person_cells(said))
        return None if apart else TakenIn(words=initials, here=True)
    added = new_person(store, initials, name)
    if retired is not None:
        retire_person(store, retired, added.initials)
    return TakenIn(words=f"{added.initials}  {added.name}")


def take_offer(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Keep a price as it was seen."""
    supplier = cells.read("supplier", lambda text: find_supplier(store, text, retired=True))
    material = cells.read("material", lambda text: find_material(store, text))
    seen = cells.read("seen_on", lambda text: at_moment(occasion, text)) or occasion
    ended = cells.read("ended_on", lambda text: at_moment(occasion, text))
    minimum = cells.read("minimum_packs", _whole)
    if material is not None:
        cells.read("pack", partial(read_pack, material))
    currency = (cells.text("currency") or setting(store, "currency")).upper()
    cells.read("price", lambda text: read_money(text, currency))
    if not cells.fine or supplier is None or material is None:
        return None
    asked = Asked(
        supplier=supplier.name,
        material=material.key,
        pack=cells.text("pack") or "",
        price=cells.text("price") or "",
        minimum_packs=1 if minimum is None else minimum,
        breaks=tuple(cells.lines("breaks") or ()),
        catalogue_number=cells.exact("catalogue_number"),
        currency=currency,
        rate=cells.text("rate"),
        tax=cells.text("tax"),
    )
    before = all_offers(store, material_id=material.id, supplier_id=supplier.id)
    added = new_offer(store, seen, asked, retired=True)
    if ended is not None:
        added = end_this_offer(store, ended, added, booked_at)
    words = f"{added.supplier.name}: {added.pack_words} of {added.material.name}"
    return TakenIn(words=words, here=offer_cells(added) in [offer_cells(one) for one in before])


def _day_of(occasion: Occasion | None) -> str | None:
    return None if occasion is None else occasion.day.isoformat()


def _whole(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,6}", text):
        raise Unreadable(f"{quoted(text)} is not a whole number.", read=text)
    return int(text)
