"""Book deliveries and found stock in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Self

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Movement, fact_text
from stockroom.domain.lots import NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.typed_amounts import read_amounts
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.planning.fitness import WITHDRAWN
from stockroom.planning.shelf_life import received_limits
from stockroom.science.days import read_day, read_expiry, read_moment
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.sharing import share_out
from stockroom.science.strengths import read_purity_of_solid, read_strength
from stockroom.store.lots import lots_of_maker
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.studio import find_place
from stockroom.store.suppliers import supplier_named


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """What came, as a person tells it; every text as typed."""

    material: str
    quantity: str
    """`500 g`, `3 x 1 L`, `about 300 mL`, `25 sheets`."""
    cost: int | None = None
    """The whole delivery in minor units; None for found stock of unknown cost."""
    found: bool = False
    supplier: str | None = None
    lot_number: str | None = None
    use_by: str | None = None
    place: str | None = None
    purity: str | None = None
    strength: str | None = None
    opened: str | None = None
    """Day on which it was opened (before it came)."""
    as_one: bool = False
    tares: tuple[str, ...] = ()
    """What the empty containers weigh: one for all, or one each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Received(ActionOutcome):
    """What was booked in."""

    material: str
    name: str
    codes: tuple[str | None, ...]
    quantities: tuple[Quantity, ...]
    values: tuple[int, ...]
    cost_known: bool
    use_by: str | None
    use_by_rule: str | None
    unfit: str | None = None
    """That its maker's lot number was withdrawn, where it was."""

    def as_plan(self) -> Self:
        return replace(self, codes=(None,) * len(self.codes), action=None)


def receive(
    store: Store,
    occasion: Occasion,
    delivery: Delivery,
    *,
    dry_run: bool = False,
    confirmed: Received | None = None,
) -> Received:
    """Book a delivery in: one lot a pack, with one maker's lot number, the cost shared to the last minor unit.

    Raises Unreadable for amounts and dates, NotFound for material and place, BadInput where no cost is given for
    what was not found, Refused for a retired material.
    """
    material = find_material(store, delivery.material)
    refuse_not_received(material)
    if delivery.cost is None and not delivery.found:
        raise BadInput("What did it cost? Say --cost (0 where it was free), or --found where nobody knows.")
    if delivery.cost is not None and delivery.cost < 0:
        raise BadInput("A delivery cannot cost less than nothing. Use 'return' for a credit.")
    packs = read_amounts(material, delivery.quantity)
    quantities = [pack.quantity.quanta for pack in packs]
    if delivery.as_one:
        quantities = [sum(quantities)]
    fields = lot_fields(store, occasion, delivery, material, about=packs[0].about)
    values = share_out(delivery.cost or 0, quantities)
    other_end = "found" if delivery.found and not delivery.cost else "supplier"

    from stockroom.actions.weighing import keep_tares

    def build(booked_at: datetime) -> Received:
        if delivery.supplier:
            fields["supplier_id"] = supplier_named(store, delivery.supplier)
        keys = range(-1, -len(quantities) - 1, -1)
        kind = "found" if delivery.found else "bought"
        draft = Draft(
            kind="receive",
            occasion=occasion,
            new_lots=tuple(NewLot(key=key, material=material, kind=kind, fields=dict(fields)) for key in keys),
            movements=tuple(
                Movement(lot=key, quantity=quantity, value=value, other_end=other_end, effect="base")
                for key, quantity, value in zip(keys, quantities, values, strict=True)
            ),
            details={"typed": delivery.quantity, "material": material.key},
        )
        posted = post(store, draft, booked_at)
        keep_tares(store, occasion, booked_at, [posted.lots[key] for key in keys], delivery.tares)
        return Received(
            material=material.key,
            name=material.name,
            codes=tuple(posted.lots[key] for key in keys),
            quantities=tuple(material.quantity(quantity) for quantity in quantities),
            values=tuple(values),
            cost_known=delivery.cost is not None,
            use_by=fact_text(fields["use_by"]),
            use_by_rule=fact_text(fields["use_by_rule"]),
            unfit=fact_text(fields["unfit"]),
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def refuse_not_received(material: Material) -> None:
    """Raise BadInput for a material that is not metered, Refused for a retired one."""
    if not material.metered:
        raise BadInput(
            f"{material.name} is not metered here: it appears in steps, never in balances. "
            f"To count it, 'stockroom material edit {material.key} --metered'."
        )
    if material.retired_on:
        raise Refused(
            f"{material.name} was retired on {material.retired_on}: nothing more of it is received. To take it up "
            f"again, 'stockroom material retire {material.key} --undo'."
        )


def lot_fields(
    store: Store, occasion: Occasion, delivery: Delivery, material: Material, *, about: bool = False
) -> dict[str, str | int | None]:
    """Return what a delivery says of each lot that begins with it, as stored; its supplier is left open.

    Raises Unreadable, NotFound for the place, BadInput for a bottle opened after it came.
    """
    came = occasion.local
    opened = _opened_day(delivery.opened, occasion)
    maker_use_by = read_expiry(delivery.use_by).isoformat() if delivery.use_by else None
    use_by, rule = received_limits(maker_use_by, material.life_closed, material.life_opened, came, opened)
    return {
        "supplier_id": None,
        "maker_lot": _text(delivery.lot_number),
        "maker_use_by": maker_use_by,
        "unfit": _recalled(store, material, _text(delivery.lot_number)),
        "received_on": occasion.day.isoformat(),
        "purity": _checked_strength(delivery.purity, solid=material.dimension is Dimension.MASS) or material.purity,
        "strength": _checked_strength(delivery.strength),
        "cost_known": "unknown" if delivery.cost is None else "known",
        "about": "about" if about else "measured",
        "life_closed": material.life_closed,
        "life_opened": material.life_opened,
        "length_um": material.sheet_length_um,
        "width_um": material.sheet_width_um,
        "grain": material.grain,
        "place_id": find_place(store, delivery.place).id if delivery.place else None,
        "opened_on": opened.date().isoformat() if opened else None,
        "use_by": use_by,
        "use_by_rule": rule,
    }


def _recalled(store: Store, material: Material, maker_lot: str | None) -> str | None:
    """Return the mark of a lot of the same maker's number that was withdrawn: what comes later is recalled with it."""
    try:
        same = lots_of_maker(store, maker_lot, material.key) if maker_lot else []
    except NotFound:
        return None
    return next((lot.unfit for lot in same if (lot.unfit or "").startswith(WITHDRAWN)), None)


def _opened_day(text: str | None, occasion: Occasion) -> datetime | None:
    if text is None:
        return None
    day = read_day(text, today=occasion.today)
    if day > occasion.day:
        raise BadInput(f"It cannot have been opened on {day}, after the day it was booked in for ({occasion.day}).")
    return read_moment(day.isoformat(), zone=occasion.zone, today=occasion.today).astimezone(occasion.zone)


def _checked_strength(text: str | None, *, solid: bool = False) -> str | None:
    return None if text is None else (read_purity_of_solid if solid else read_strength)(text).show()


def _text(typed: str | None) -> str | None:
    return typed if typed and typed.strip() else None
