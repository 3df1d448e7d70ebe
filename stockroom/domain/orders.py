"""Offers of suppliers, and orders: what one pack costs, what was ordered, what has come."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from stockroom.domain.materials import Material
from stockroom.domain.studio import Supplier
from stockroom.science.money import convert
from stockroom.science.numerals import counted
from stockroom.science.quantities import Quantity, show
from stockroom.science.sharing import round_half_even_ratio, share_out

USUAL_DELIVERY_DAYS = 14
"""Taken where nobody knows how long a delivery takes: a judgement, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One price of one pack of a material, as one supplier asked it on one day."""

    id: int = 0
    supplier: Supplier
    material: Material
    pack_quanta: int
    price: int
    """Of one pack, in minor units of `currency`."""
    currency: str
    own_currency: str
    """The stockroom's."""
    rate: Decimal | None = None
    """What one unit of `currency` costs in the stockroom's, as typed; None where it is the same."""
    tax_percent: Decimal | None = None
    minimum_packs: int = 1
    breaks: tuple[tuple[int, int], ...] = ()
    """From so many packs on, the price of one; ascending in packs."""
    catalogue_number: str | None = None
    seen_on: str = ""
    initials: str | None = None
    ended_on: str | None = None

    @property
    def pack(self) -> Quantity:
        return self.material.quantity(self.pack_quanta)

    @property
    def pack_words(self) -> str:
        return goods(self.material, self.pack_quanta)

    @property
    def foreign(self) -> bool:
        return self.currency != self.own_currency

    def price_at(self, packs: int) -> int:
        """Return the price of one pack, in minor units of the offer's currency, where so many are bought."""
        return next((price for least, price in reversed(self.breaks) if packs >= least), self.price)

    def cost(self, packs: int) -> int:
        """Return what so many packs cost, in minor units of the stockroom's currency."""
        return self.in_own(packs * self.price_at(packs))

    def in_own(self, minor: int) -> int:
        """Turn a sum in the offer's currency into the stockroom's, rounded once, half to even."""
        return minor if self.rate is None else convert(minor, self.rate, self.currency, self.own_currency)

    def packs_for(self, quanta: int) -> int:
        """Return the fewest packs that hold so much and may be ordered."""
        return max(self.minimum_packs, -(-quanta // self.pack_quanta))


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """So many packs at a price; what has come of them is told by the deliveries in effect."""

    position: int
    offer: Offer
    packs: int
    price: int
    """Of one pack, in minor units of the offer's currency; fixed when the order is placed."""
    came: int = 0
    """Quanta delivered so far."""

    @property
    def ordered(self) -> int:
        """Quanta ordered."""
        return self.packs * self.offer.pack_quanta

    @property
    def open(self) -> int:
        """Quanta still to come."""
        return max(0, self.ordered - self.came)

    @property
    def cost(self) -> int:
        """What the line costs, in minor units of the stockroom's currency."""
        return self.offer.in_own(self.packs * self.price)

    @property
    def words(self) -> str:
        return f"{self.packs} x {self.offer.pack_words} of {self.offer.material.name}"

    def cost_of(self, quanta: int) -> int:
        """Return what the next `quanta` to come cost: all that was ordered costs the line's cost, to the cent."""
        return self._cost_up_to(self.came + quanta) - self._cost_up_to(self.came)

    def _cost_up_to(self, quanta: int) -> int:
        return round_half_even_ratio(self.cost * quanta, self.ordered)


ON_THE_WAY = ("placed", "partly delivered")
"""States of an order of which something is still to come."""
OPEN_STATES = ("drafted", *ON_THE_WAY)
"""With those that are drafted: what is in them is not to be drafted twice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What was or is to be ordered from one supplier."""

    id: int
    code: str
    supplier: Supplier
    state: str
    """drafted, placed, partly delivered, closed."""
    drafted_on: str | None = None
    placed_on: str | None = None
    expected_on: str | None = None
    ended_on: str | None = None
    ended_why: str | None = None
    note: str | None = None
    lines: tuple[OrderLine, ...] = ()

    @property
    def open(self) -> bool:
        """Whether something is still to come."""
        return self.state in ON_THE_WAY

    @property
    def cost(self) -> int:
        return sum(line.cost for line in self.lines)


def state_words(order: Order, today: date) -> str:
    """Write an order's state with its days, and whether it is late."""
    words = order.state
    if order.placed_on and order.state != "drafted":
        words = f"placed {order.placed_on}" if words == "placed" else f"{words}, placed {order.placed_on}"
    if order.expected_on and order.open:
        late = "LATE, " if order.expected_on < today.isoformat() else ""
        words += f", {late}expected {order.expected_on}"
    if order.ended_why:
        words += f" ({order.ended_why})"
    return words


@dataclass(frozen=True, slots=True, kw_only=True)
class Incoming:
    """What is still to come of one line of an order."""

    order: str
    supplier: str
    state: str
    material: Material
    quantity: int
    expected_on: str | None


def share_freight(freight: int, values: Sequence[int], quantities: Sequence[int], alike: bool) -> list[int]:
    """Share freight out over lots, to the minor unit.

    By value; where nothing has a value by quantity, and evenly where quantities are not of one dimension (`alike`).
    """
    if any(values):
        return share_out(freight, values)
    return share_out(freight, quantities if alike else [1] * len(quantities))


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryTime:
    """How many days a supplier takes from order to delivery."""

    promised: int | None = None
    orders: int = 0
    """How many orders the experience rests on: those that came whole."""
    shortest: int | None = None
    usual: int | None = None
    """The middle one of them; of an even number the shorter of the two in the middle."""
    longest: int | None = None

    @property
    def days(self) -> int | None:
        """What to reckon with: the longer of promised and usual; None where neither is known."""
        return max((days for days in (self.promised, self.usual) if days is not None), default=None)

    @property
    def words(self) -> str:
        promised = "no delivery time promised" if self.promised is None else f"{counted(self.promised, 'day')} promised"
        if not self.orders:
            return f"{promised}, none experienced yet"
        apart = "" if self.shortest == self.longest else f" ({self.shortest} to {self.longest})"
        return f"{promised}, {counted(self.usual or 0, 'day')}{apart} experienced in {counted(self.orders, 'order')}"


def goods(material: Material, quanta: int) -> str:
    """Write an amount as it is bought: sheet goods in sheets, everything else by measure."""
    sheet = material.packs.get("sheet")
    if sheet is None:
        return show(material.quantity(quanta))
    if quanta % sheet.quanta == 0:
        return counted(quanta // sheet.quanta, "sheet")
    tenths = (20 * quanta + sheet.quanta) // (2 * sheet.quanta)
    return f"about {tenths // 10}.{tenths % 10} sheets" if tenths else "less than 0.1 sheets"
