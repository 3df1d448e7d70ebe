"""Receive what was ordered: one action for the whole delivery, a lot a pack, freight shared to the last minor unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import carry_out
from stockroom.actions.posting import post
from stockroom.actions.receiving import Delivery, lot_fields, refuse_not_received
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import NewLot
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Order, OrderLine, goods, share_freight
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.science.quantities import Quantity
from stockroom.science.reading import MOST_PACKS, read_packs
from stockroom.science.sharing import share_out
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.orders import find_order, follow_order


@dataclass(frozen=True, slots=True, kw_only=True)
class Came:
    """What came of one line, as a person tells it; every text as typed."""

    line: str
    """The line's number, or its material."""
    quantity: str | None = None
    """`2 x 1 L`, in packs of any size; None for all that is still to come."""
    cost: int | None = None
    """What was billed for it, in minor units; None for the order's price."""
    lot_number: str | None = None
    use_by: str | None = None
    place: str | None = None
    purity: str | None = None
    strength: str | None = None
    as_one: bool = False


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
class ReceivedOrder:
    """A delivery against an order as booked."""

    order: str
    state: str
    """Of the order, after it."""
    lots: tuple[ReceivedLot, ...]
    open: tuple[str, ...]
    """What is still to come, in words."""
    notes: tuple[str, ...]
    action: str | None = None

    @property
    def value(self) -> int:
        return sum(lot.value for lot in self.lots)

    def as_plan(self) -> ReceivedOrder:
        lots = tuple(replace(lot, code=None) for lot in self.lots)
        return replace(self, lots=lots, action=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """What came of one line, read."""

    line: OrderLine
    quantities: list[int]
    values: list[int]
    fields: dict[str, str | int | None]

    @property
    def quanta(self) -> int:
        return sum(self.quantities)


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
        parts = _read(store, occasion, order, told, place)
        notes = _compare(order, parts, told, more)
        quantities = [quantity for part in parts for quantity in part.quantities]
        values = [value for part in parts for value in part.values]
        alike = len({part.line.offer.material.dimension for part in parts}) == 1
        freights = share_freight(freight, values, quantities, alike)
        lot_parts = [part for part in parts for _ in part.quantities]
        keys = range(-1, -len(quantities) - 1, -1)
        draft = Draft(
            kind="receive",
            occasion=occasion,
            order_id=order.id,
            new_lots=tuple(
                NewLot(key=key, material=part.line.offer.material, kind="bought", fields=dict(part.fields))
                for key, part in zip(keys, lot_parts, strict=True)
            ),
            movements=tuple(
                Movement(lot=key, quantity=quantity, value=value + share, other_end="supplier", effect="base")
                for key, quantity, value, share in zip(keys, quantities, values, freights, strict=True)
            ),
            details={
                "order": order.code,
                "came": [
                    {"line": part.line.position, "quanta": part.quanta, "cost": sum(part.values)} for part in parts
                ],
                "freight": freight,
            },
        )
        posted = post(store, draft, booked_at)
        follow_order(store, order.id)
        after = find_order(store, order.code)
        return ReceivedOrder(
            order=order.code,
            state=after.state,
            lots=tuple(
                ReceivedLot(
                    code=posted.lots[key],
                    line=part.line.position,
                    material=part.line.offer.material.key,
                    name=part.line.offer.material.name,
                    quantity=part.line.offer.material.quantity(quantity),
                    cost=value,
                    freight=share,
                    use_by=None if part.fields["use_by"] is None else str(part.fields["use_by"]),
                )
                for key, part, quantity, value, share in zip(keys, lot_parts, quantities, values, freights, strict=True)
            ),
            open=tuple(
                f"{goods(line.offer.material, line.open)} of {line.offer.material.name}"
                for line in after.lines
                if line.open
            ),
            notes=notes,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


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


def _read(store: Store, occasion: Occasion, order: Order, told: Sequence[Came], place: str | None) -> list[_Part]:
    parts: list[_Part] = []
    for one in told:
        line = _line_meant(store, order, one.line)
        if any(part.line.position == line.position for part in parts):
            raise BadInput(f"Line {line.position} is told twice. Tell all that came of it at once.")
        material = line.offer.material
        refuse_not_received(material)
        quantities, about = _quantities(line, one)
        value = line.cost_of(sum(quantities)) if one.cost is None else one.cost
        delivery = Delivery(
            material=material.key,
            quantity=one.quantity or "",
            cost=value,
            lot_number=one.lot_number,
            use_by=one.use_by,
            place=one.place or place,
            purity=one.purity,
            strength=one.strength,
        )
        fields = lot_fields(store, occasion, delivery, material, about=about)
        fields["supplier_id"] = order.supplier.id
        parts.append(_Part(line=line, quantities=quantities, values=share_out(value, quantities), fields=fields))
    return parts


def _line_meant(store: Store, order: Order, words: str) -> OrderLine:
    """Find a line by its number or its material; of several of one material, the only one still open."""
    typed = words.strip()
    if typed.isdecimal():
        found = [line for line in order.lines if line.position == int(typed)]
    else:
        material = find_material(store, typed)
        found = [line for line in order.lines if line.offer.material.id == material.id]
        found = [line for line in found if line.open] or found
    if not found:
        listed = "; ".join(f"{line.position}: {line.words}" for line in order.lines)
        raise NotFound(
            f"'{words}' does not stand on {order.code} ({listed}). If the wrong goods came, leave the order open and "
            "send them back, or keep them: stockroom receive MATERIAL QTY --cost M --supplier "
            f"'{order.supplier.name}'.",
            order=order.code,
        )
    if len(found) > 1:
        listed = "; ".join(f"{line.position}: {line.words}" for line in found)
        raise BadInput(f"{order.code} has several lines of '{words}' ({listed}). Name the line by its number.")
    return found[0]


def _quantities(line: OrderLine, one: Came) -> tuple[list[int], bool]:
    material = line.offer.material
    if one.quantity is None:
        if not line.open:
            raise Refused(f"All of line {line.position} ({line.words}) has come. Say how much more came.")
        whole, rest = divmod(line.open, line.offer.pack_quanta)
        quantities, about = [line.offer.pack_quanta] * whole + ([rest] if rest else []), False
    else:
        packs = read_packs(
            one.quantity, expect=material.dimension, packs=material.packs, density_g_per_ml=material.liquid_density
        )
        quantities, about = [pack.quantity.quanta for pack in packs], packs[0].about
    if one.as_one:
        return [sum(quantities)], about
    if len(quantities) > MOST_PACKS:
        raise BadInput(f"{len(quantities)} packs would be as many lots. Receive them as one: --as-one.")
    return quantities, about


def _compare(order: Order, parts: Sequence[_Part], told: Sequence[Came], more: bool) -> tuple[str, ...]:
    """Say where a delivery differs from what was ordered; refuse more than that unless it was said."""
    notes: list[str] = []
    for part, one in zip(parts, told, strict=True):
        line, material = part.line, part.line.offer.material
        over = part.quanta - line.open
        if over > 0:
            words = (
                f"{goods(material, part.quanta)} of {material.name} is {goods(material, over)} more "
                f"than is still to come of {line.words}"
            )
            if not more:
                raise Refused(
                    f"{words}. If that really came and is kept, say --more; otherwise put the amount right.",
                    order=order.code,
                    line=line.position,
                )
            notes.append(f"{words}; it is booked all the same.")
        if one.cost is not None and one.cost != line.cost_of(part.quanta):
            notes.append(f"{material.name}: billed otherwise than ordered; booked as billed.")
    return tuple(notes)
