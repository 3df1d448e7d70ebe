"""What came against an order, as told, read line by line and compared with what was ordered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.actions.receiving import Delivery, lot_fields, refuse_not_received
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Order, OrderLine, goods
from stockroom.domain.typed_amounts import read_amounts
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.science.reading import MOST_PACKS
from stockroom.science.sharing import share_out
from stockroom.store.materials import find_material
from stockroom.store.open import Store


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
class Part:
    """What came of one line, read."""

    line: OrderLine
    quantities: list[int]
    values: list[int]
    fields: dict[str, str | int | None]

    @property
    def material(self) -> Material:
        return self.line.offer.material

    @property
    def quanta(self) -> int:
        return sum(self.quantities)


def read_parts(store: Store, occasion: Occasion, order: Order, told: Sequence[Came], place: str | None) -> list[Part]:
    """Read what came of each line. Raises NotFound for what is not on the order, Unreadable, BadInput."""
    parts: list[Part] = []
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
        parts.append(Part(line=line, quantities=quantities, values=share_out(value, quantities), fields=fields))
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
        packs = read_amounts(material, one.quantity)
        quantities, about = [pack.quantity.quanta for pack in packs], packs[0].about
    if one.as_one:
        return [sum(quantities)], about
    if len(quantities) > MOST_PACKS:
        raise BadInput(f"{len(quantities)} packs would be as many lots. Receive them as one: --as-one.")
    return quantities, about


def compare(order: Order, parts: Sequence[Part], told: Sequence[Came], more: bool) -> tuple[str, ...]:
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
