"""Receive what was ordered: one action for the whole delivery, a lot a pack, freight shared to the last minor unit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Self

from stockroom.actions.arrivals import Came, Part, compare, read_parts
from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import NewLot
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Order, goods, share_freight
from stockroom.errors import BadInput, Refused
from stockroom.science.quantities import Quantity
from stockroom.store.open import Store
from stockroom.store.orders import find_order, follow_order


@dataclass(frozen=True, slots=True, kw_only=True)
class ReceivedLot:
    """One lot that came: `cost` is its share of the line, `freight` of the freight, in minor units."""

    code: str | None
    line: int
    material: str
    name: str
    quantity: Quantity
    cost: int
    freight: int
    use_by: str | None

    @property
    def value(self) -> int:
        return self.cost + self.freight


@dataclass(frozen=True, slots=True, kw_only=True)
class ReceivedOrder(ActionOutcome):
    """A delivery against an order as booked."""

    order: str
    state: str
    """Of the order, after it."""
    lots: tuple[ReceivedLot, ...]
    open: tuple[str, ...]
    """What is still to come, in words."""
    notes: tuple[str, ...]

    @property
    def value(self) -> int:
        return sum(lot.value for lot in self.lots)

    def as_plan(self) -> Self:
        lots = tuple(replace(lot, code=None) for lot in self.lots)
        return replace(self, lots=lots, action=None)


def receive_order(
    store: Store,
    occasion: Occasion,
    code: str,
    came: Sequence[Came] = (),
    *,
    freight: int = 0,
    more: bool = False,
    place: str | None = None,
    dry_run: bool = False,
    confirmed: ReceivedOrder | None = None,
) -> ReceivedOrder:
    """Book in what came of an order: the lines told, or everything still to come where none is.

    More than is still to come is refused unless `more` says that it really came. Raises Refused for an order that
    was not placed or is closed, NotFound for what does not stand on it, Unreadable, BadInput.
    """
    if freight < 0:
        raise BadInput("Freight cannot be less than nothing.")

    def build(booked_at: datetime) -> ReceivedOrder:
        order = find_order(store, code)
        _refuse_not_open(order, occasion)
        told = came or [Came(line=str(line.position)) for line in order.lines if line.open]
        parts = read_parts(store, occasion, order, told, place)
        notes = compare(order, parts, told, more)
        arriving = _arriving(parts, freight)
        posted = post(store, _draft(occasion, order, parts, arriving, freight), booked_at)
        follow_order(store, order.id)
        after = find_order(store, order.code)
        return ReceivedOrder(
            order=order.code,
            state=after.state,
            lots=tuple(replace(lot, code=posted.lots[key]) for key, (_, lot) in arriving.items()),
            open=tuple(
                f"{goods(line.offer.material, line.open)} of {line.offer.material.name}"
                for line in after.lines
                if line.open
            ),
            notes=notes,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _arriving(parts: Sequence[Part], freight: int) -> dict[int, tuple[Part, ReceivedLot]]:
    """Return each lot about to begin by its key, with the part it belongs to and its share of the freight."""
    lots = [
        (part, quantity, value) for part in parts for quantity, value in zip(part.quantities, part.values, strict=True)
    ]
    alike = len({part.material.dimension for part in parts}) == 1
    shares = share_freight(freight, [value for *_, value in lots], [quantity for _, quantity, _ in lots], alike)
    return {
        -number: (
            part,
            ReceivedLot(
                code=None,
                line=part.line.position,
                material=part.material.key,
                name=part.material.name,
                quantity=part.material.quantity(quantity),
                cost=value,
                freight=share,
                use_by=None if part.fields["use_by"] is None else str(part.fields["use_by"]),
            ),
        )
        for number, ((part, quantity, value), share) in enumerate(zip(lots, shares, strict=True), 1)
    }


def _draft(
    occasion: Occasion,
    order: Order,
    parts: Sequence[Part],
    arriving: Mapping[int, tuple[Part, ReceivedLot]],
    freight: int,
) -> Draft:
    return Draft(
        kind="receive",
        occasion=occasion,
        order_id=order.id,
        new_lots=tuple(
            NewLot(key=key, material=part.material, kind="bought", fields=dict(part.fields))
            for key, (part, _) in arriving.items()
        ),
        movements=tuple(
            Movement(lot=key, quantity=lot.quantity.quanta, value=lot.value, other_end="supplier", effect="base")
            for key, (_, lot) in arriving.items()
        ),
        details={
            "order": order.code,
            "came": [{"line": part.line.position, "quanta": part.quanta, "cost": sum(part.values)} for part in parts],
            "freight": freight,
        },
    )


def _refuse_not_open(order: Order, occasion: Occasion) -> None:
    if order.state == "drafted":
        raise Refused(f"{order.code} is a draft. Place it first: stockroom order place {order.code}.")
    if order.state == "closed":
        raise Refused(
            f"{order.code} is closed: {order.ended_why or 'all of it has come'}. What came all the same is received "
            "by itself: stockroom receive MATERIAL QTY --cost M."
        )
    if order.placed_on and occasion.day.isoformat() < order.placed_on:
        raise Refused(f"{order.code} was placed on {order.placed_on}; nothing of it can have come on {occasion.day}.")
