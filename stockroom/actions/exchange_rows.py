"""How the things of a stockroom are written in a table, so that they are read back as the same."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from stockroom.actions.materials import written
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import from_utc_text
from stockroom.domain.orders import Offer
from stockroom.domain.sizes import show_size
from stockroom.domain.studio import Person, Place, Supplier
from stockroom.exchange.cells import written_lines
from stockroom.science.money import money_text
from stockroom.science.quantities import Dimension, Quantity, amount_and_unit, show
from stockroom.store.open import Row

Cells = dict[str, str | None]
"""Cells by column; None where nothing is said."""

NONE = "none"
"""In a cell of a lot: it has none, whatever its material says."""

TAKEN_IN_KINDS = ("bought", "found", "jar", "offcut")
"""Of lots: what a table can bring. What is left of a bath belongs to its job, and a waste can to what went in."""


def material_cells(material: Material) -> Cells:
    def text(value: object) -> str | None:
        match value:
            case None | str():
                return value
            case bool():
                return "yes" if value else "no"
            case list():
                return written_lines(value)
        return str(value)

    return {**{name: text(value) for name, value in written(material).items()}, "retired_on": material.retired_on}


def supplier_cells(supplier: Supplier, currency: str) -> Cells:
    return {
        "name": supplier.name,
        "delivery_days": None if supplier.lead_days is None else str(supplier.lead_days),
        "minimum_order": None if supplier.minimum_order is None else money_text(supplier.minimum_order, currency),
        "note": supplier.note,
        "retired_on": supplier.retired_on,
    }


def place_cells(place: Place) -> Cells:
    return {"name": place.name, "note": place.note, "retired_on": place.retired_on}


def person_cells(person: Person) -> Cells:
    return {"initials": person.initials, "name": person.name, "retired_on": person.retired_on}


def offer_cells(offer: Offer) -> Cells:
    breaks = [f"{packs} = {money_text(price, offer.currency)}" for packs, price in offer.breaks]
    return {
        "supplier": offer.supplier.name,
        "material": offer.material.key,
        "pack": show(offer.pack),
        "price": money_text(offer.price, offer.currency),
        "seen_on": offer.seen_on,
        "minimum_packs": str(offer.minimum_packs),
        "breaks": written_lines(breaks),
        "catalogue_number": offer.catalogue_number,
        "currency": offer.currency,
        "rate": None if offer.rate is None else f"{offer.rate:f}",
        "tax": None if offer.tax_percent is None else f"{offer.tax_percent:f}",
        "ended_on": offer.ended_on,
    }


def lot_cells(lot: Lot, *, supplier: str | None, begun: str, currency: str, zone: ZoneInfo) -> Cells:
    """Write a lot as it stands; `begun` is the stored moment at which it began."""
    made_here, material = lot.kind == "jar", lot.material
    return {
        "code": lot.code,
        "material": lot.material.key,
        "kind": lot.kind,
        **amount_and_unit(lot.amount),
        "about": "yes" if lot.about else "no",
        "cost": cost_cell(lot.balance.value, lot.cost_known, currency),
        "supplier": supplier,
        "lot_number": lot.maker_lot,
        "use_by": lot.use_by if made_here else lot.maker_use_by,
        "received_on": None if made_here else _came(lot, local_minute(begun, zone)),
        "opened_on": lot.opened_on,
        "place": lot.place,
        "purity": _own(lot.purity, material.purity),
        "strength": lot.strength,
        "sheet": _own(
            show_size(lot.length_um, lot.width_um), show_size(material.sheet_length_um, material.sheet_width_um)
        ),
        "grain": lot.grain,
        "life_closed": _own(lot.life_closed, material.life_closed),
        "life_opened": _own(lot.life_opened, material.life_opened),
        "unfit": lot.unfit,
        "made_at": lot.made_at,
        "over_solid": "yes" if lot.over_solid else None,
        "ready_on": lot.ready_on,
        "check_by": lot.check_by,
    }


def _own(said: str | None, of_material: str | None) -> str | None:
    """Write what a lot says of itself; where it says nothing although its material does, that it has none."""
    return NONE if said is None and of_material is not None else said


def _came(lot: Lot, booked: str) -> str:
    """Write when a lot came: to the minute; the day alone where no more is known, which is told as its noon.

    No more is known where it began in the books on another day: cut off a sheet, or booked after the books were closed.
    """
    if lot.received_on not in (None, booked[:10]):
        return lot.received_on
    return booked.removesuffix("T12:00")


def cost_cell(value: int, known: bool, currency: str) -> str:
    """Write a cost: a sum, `unknown`, or `at least` a sum where a part of it is unknown."""
    if known:
        return money_text(value, currency)
    return f"at least {money_text(value, currency)}" if value else "unknown"


def count_cells(row: Row, zone: ZoneInfo) -> Cells:
    return {
        "code": row["lot"],
        "material": row["material"],
        "place": row["place"],
        **amount_and_unit(Quantity(Dimension(row["dimension"]), row["quantity"])),
        "method": row["method"],
        "counted_at": local_minute(row["at"], zone),
        "reason": row["reason"],
    }


def local_minute(stored: str, zone: ZoneInfo) -> str:
    """Write a stored moment as the clock on the wall showed it, to the minute."""
    moment: datetime = from_utc_text(stored).astimezone(zone)
    return f"{moment:%Y-%m-%dT%H:%M}"
