"""Take one row in: a lot as it stands on the shelf, each an action of its own, by the rules of a delivery."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from functools import partial

from stockroom.actions.exchange_rows import NONE, TAKEN_IN_KINDS, cost_cell, lot_cells
from stockroom.actions.naming import check_text
from stockroom.actions.posting import post
from stockroom.actions.receiving import Delivery, lot_fields, refuse_not_received
from stockroom.actions.taken_in import TakenIn, at_moment, row_digest
from stockroom.domain.codes import read_code
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import NewLot
from stockroom.domain.material_files import GRAINS
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.typed_amounts import read_amounts
from stockroom.errors import BadInput
from stockroom.exchange.cells import Cells
from stockroom.planning.shelf_life import received_limits
from stockroom.science.days import read_day, read_expiry, read_moment
from stockroom.science.lives import read_life
from stockroom.science.money import read_money
from stockroom.science.quantities import Dimension, amount_text, show
from stockroom.science.reading import read_size
from stockroom.science.sharing import share_out
from stockroom.science.strengths import read_strength
from stockroom.store.exchange import begun_at
from stockroom.store.lots import lot_with_code
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import find_place
from stockroom.store.suppliers import bought_from, supplier_named

MOST_CODES = 10_000_000
"""More lots than a studio ever has: a code beyond would make every later one as long."""

Fields = dict[str, str | int | None]


def take_lot(store: Store, occasion: Occasion, cells: Cells, booked_at: datetime) -> TakenIn | None:
    """Book a lot in at the moment it came or was made; with a code that it has, else with a new one."""
    code = cells.read("code", _lot_code)
    if code and (here := _here(store, occasion, cells, code)):
        return here
    kind = cells.choice("kind", TAKEN_IN_KINDS, "bought")
    material = cells.read("material", partial(_received, store))
    if material is None:
        return None
    packs = cells.read_amount(partial(read_amounts, material)) or []
    material = _as_this_lot(cells, material)
    value, known = cells.read("cost", partial(read_cost, currency=setting(store, "currency"))) or (0, True)
    moment = "made_at" if kind == "jar" else "received_on"
    when = cells.read(moment, partial(at_moment, occasion)) or occasion
    about = bool(cells.flag("about")) or any(pack.about for pack in packs)
    fields = _fields(store, when, cells, material, jar=kind == "jar", about=about, known=known)
    if code and len(packs) > 1:
        cells.refuse("code", "one code cannot stand for several packs: give each a row, or leave the code away.")
    if not cells.fine:
        return None
    quantities = [pack.quantity.quanta for pack in packs]
    end = "supplier" if known or value else "found"
    keys = range(-1, -len(packs) - 1, -1)
    draft = Draft(
        kind="receive",
        occasion=when,
        new_lots=tuple(NewLot(key=key, material=material, kind=kind, fields=dict(fields), code=code) for key in keys),
        movements=tuple(
            Movement(lot=key, quantity=quantity, value=share, other_end=end, effect="base")
            for key, quantity, share in zip(keys, quantities, share_out(value, quantities), strict=True)
        ),
        details={"typed": packs[0].typed, "material": material.key, "imported": row_digest(cells.row)},
    )
    posted = post(store, draft, booked_at)
    codes = tuple(posted.lots[key] for key in keys)
    held = show(material.quantity(sum(quantities)))
    return TakenIn(words=f"{material.name}, {held}", codes=codes, action=posted.code, day=when.day.isoformat())


def _here(store: Store, occasion: Occasion, cells: Cells, code: str) -> TakenIn | None:
    """Return what is here already under that code, where it is the same lot; note it where it is not."""
    lot = lot_with_code(store, code)
    if lot is None:
        return None
    currency = setting(store, "currency")
    kept = lot_cells(
        lot,
        supplier=bought_from(store, lot).supplier,
        begun=begun_at(store)[lot.id],
        currency=currency,
        zone=occasion.zone,
    )
    kept = {name: text and text.strip() for name, text in kept.items()}
    said = {name: cells.text(name) for name in cells.row.cells} | {"code": code}
    amount = cells.read_amount(partial(read_amounts, lot.material))
    if amount is not None:
        said["amount"], said["unit"] = amount_text(amount[0].quantity)
    cost = cells.read("cost", partial(read_cost, currency=currency))
    if cost is not None:
        said["cost"] = cost_cell(*cost, currency)
    cells.differs(code, kept, said)
    return TakenIn(words=code, here=True)


def _received(store: Store, words: str) -> Material:
    material = find_material(store, words)
    refuse_not_received(material)
    return material


def _as_this_lot(cells: Cells, material: Material) -> Material:
    """Return the material with the size, grain, purity and lives of this very lot."""
    material = replace(
        material,
        purity=_own(cells, "purity", read_strength, material.purity),
        life_closed=_own(cells, "life_closed", read_life, material.life_closed),
        life_opened=_own(cells, "life_opened", read_life, material.life_opened),
        grain=cells.choice("grain", GRAINS, material.grain or "") or None,
    )
    if cells.text("sheet") is None:
        return material
    if material.dimension not in (Dimension.AREA, Dimension.PIECES, Dimension.USES):
        cells.refuse("sheet", f"{material.name} is measured by {material.dimension}; it has no sheets.")
    length, width = cells.read("sheet", lambda text: (None, None) if text == NONE else read_size(text)) or (None, None)
    return replace(material, sheet_length_um=length, sheet_width_um=width)


def _own(cells: Cells, column: str, reader: Callable[[str], object], of_material: str | None) -> str | None:
    """Return what a lot says of itself, as typed: with an empty cell what its material says."""
    text = cells.text(column)
    if text is None or text == NONE:
        return None if text else of_material
    cells.read(column, reader)
    return text


def read_cost(text: str, currency: str) -> tuple[int, bool]:
    """Read `12.50`, `unknown` or `at least 12.50` as minor units, and whether that is all it cost."""
    plain = text.strip().lower()
    if plain == "unknown":
        return 0, False
    if plain.startswith("at least "):
        return read_money(plain.removeprefix("at least "), currency), False
    return read_money(text, currency), True


def _fields(
    store: Store, when: Occasion, cells: Cells, material: Material, *, jar: bool, about: bool, known: bool
) -> Fields:
    """Return what the row says of the lot, as stored; what is wrong is noted by its column."""
    use_by = cells.read("use_by", partial(_until, when) if jar else lambda text: read_expiry(text).isoformat())
    opened = cells.read("opened_on", partial(at_moment, when))
    place = cells.read("place", partial(find_place, store))
    texts = {
        name: cells.read(name, partial(check_text, what=name.replace("_", " ")))
        for name in ("supplier", "lot_number", "unfit")
    }
    delivery = Delivery(material=material.key, quantity="", cost=0 if known else None, lot_number=texts["lot_number"])
    fields = lot_fields(store, when, delivery, material, about=about)
    fields |= {
        "supplier_id": supplier_named(store, texts["supplier"]) if texts["supplier"] else None,
        "place_id": place.id if place else None,
        "purity": material.purity,
        "strength": cells.read("strength", partial(_strength, jar=jar)),
        "opened_on": opened.day.isoformat() if opened else None,
        "unfit": texts["unfit"] or fields["unfit"],
    }
    if jar:
        return fields | _jar_fields(cells, when, use_by)
    for name in ("made_at", "ready_on", "check_by", "over_solid"):
        if cells.text(name):
            cells.refuse(name, "this is said of jars only: write jar under kind, or leave it empty.")
    lives = material.life_closed, material.life_opened
    last, rule = received_limits(use_by, *lives, when.local, opened.local if opened else None)
    return fields | {"maker_use_by": use_by, "use_by": last, "use_by_rule": rule}


def _jar_fields(cells: Cells, when: Occasion, use_by: str | None) -> Fields:
    if cells.text("made_at") is None:
        cells.refuse("made_at", "when was the jar made? Write its day, such as 2026-11-25.")
    return {
        "received_on": None,
        "made_at": when.minute_text,
        "own_use_by": use_by,
        "use_by": use_by,
        "use_by_rule": use_by and "as told when it was taken in",
        "ready_on": cells.read("ready_on", partial(_until, when)),
        "check_by": cells.read("check_by", partial(_until, when)),
        "over_solid": "over solid" if cells.flag("over_solid") else "no solid",
    }


def _lot_code(text: str) -> str:
    code = read_code(text)
    if code.prefix != "L":
        raise BadInput(f"{code.text} is not the code of a lot. Codes of lots begin with L.")
    if code.number > MOST_CODES:
        raise BadInput(f"{code.text} is further on than any stockroom has come. Leave it away: a new one is given.")
    return code.text


def _until(when: Occasion, text: str) -> str:
    """Read the day or minute until when, or from when on, as stored."""
    if ":" not in text:
        return read_day(text, today=when.today).isoformat()
    return f"{read_moment(text, zone=when.zone, today=when.today):%Y-%m-%dT%H:%M}"


def _strength(text: str, *, jar: bool) -> str:
    """Read a strength; a jar's may be told in words, and so may one that is not known any more."""
    try:
        return read_strength(text).show()
    except BadInput:
        if jar or ", not known since " in text:
            return check_text(text, "strength")
        raise
