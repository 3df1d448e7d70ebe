"""What to buy: how much of a material lacks, in which supplier's packs, and by when it must be ordered.

The net need is what booked treatments lack, and what lacks to the amount below which to order. It is rounded up to
packs, but not beyond what will be used before the goods go past their date. Cheaper packs, price breaks and the
economic quantity are advice: nothing is bought for their sake.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from stockroom.domain.materials import Material
from stockroom.domain.open_days import ALWAYS_OPEN, OpenDays
from stockroom.domain.orders import USUAL_DELIVERY_DAYS, DeliveryTime, Offer, goods
from stockroom.planning.buying_advice import Economy, advise
from stockroom.planning.needs import Need
from stockroom.planning.ways import HowBought, life_day
from stockroom.science.money import show_money
from stockroom.science.quantities import Dimension, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """An offer that stands, with how long its supplier takes."""

    offer: Offer
    time: DeliveryTime
    open_days: OpenDays = ALWAYS_OPEN
    """The supplier's."""
    studio: OpenDays = ALWAYS_OPEN

    @property
    def days(self) -> int:
        return USUAL_DELIVERY_DAYS if self.time.days is None else self.time.days

    def order_by(self, needed: date) -> date:
        """Return the last day, open here and at the supplier's, to order what must be here on a day."""
        return HowBought(delivery_days=self.days, open_days=self.open_days).begin_by(needed, self.studio)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How a material stands: what is here and on order, what bookings take, what they lack. Amounts in quanta."""

    material: Material
    here: int
    """Fit to use, or ready before long, and not past its date before a delivery comes."""
    coming: int
    """On order, or drafted."""
    notes: tuple[str, ...] = ()
    """What is not counted, and what is on order, in words."""
    taken: tuple[tuple[date, int], ...] = ()
    """What bookings take of it, by day."""
    needs: tuple[Need, ...] = ()
    """What they lack, the first first."""
    below: int | None = None
    """Order when below this; None where nothing says so."""
    below_why: str = ""
    yearly: int | None = None
    """Used a year without being booked; None where there was too little use to say."""

    @property
    def booked_lack(self) -> int:
        return sum(need.quantity for need in self.needs)

    @property
    def left(self) -> int:
        """What is left of what is here and coming when the bookings have taken theirs."""
        return self.here + self.coming - sum(quantity for _, quantity in self.taken)

    @property
    def floor_lack(self) -> int:
        return max(0, (self.below or 0) - self.left)

    @property
    def net(self) -> int:
        """What lacks in all."""
        return self.booked_lack + self.floor_lack

    def falls_below(self, today: date) -> date:
        """Return the day on which what is here and coming falls below the amount to order at."""
        left = self.here + self.coming
        for day, quantity in sorted(self.taken):
            if left < (self.below or 0):
                break
            left -= quantity
            if left < (self.below or 0):
                return max(day, today)
        return today


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyLine:
    """One thing to buy, or one that lacks and that nobody is known to offer."""

    material: Material
    net: Quantity
    """What lacks, before packs."""
    choice: Choice | None
    packs: int | None
    cost: int | None
    """In minor units of the stockroom's currency."""
    order_by: date
    late: bool
    """Whether it should have been ordered before today."""
    why: tuple[str, ...]
    advice: tuple[str, ...] = ()
    bookings: tuple[str, ...] = ()

    @property
    def offer(self) -> Offer | None:
        return self.choice.offer if self.choice else None


def plan_buying(
    standing: Standing, choices: Sequence[Choice], today: date, economy: Economy | None = None
) -> BuyLine | None:
    """Say what to buy of a material; None where nothing lacks."""
    if not standing.net:
        return None
    material = standing.material
    why = _why(standing)
    bookings = tuple(dict.fromkeys(code for need in standing.needs for code in need.bookings))
    if not choices:
        by = standing.needs[0].by if standing.needs else standing.falls_below(today)
        return BuyLine(
            material=material, net=material.quantity(standing.net), choice=None, packs=None, cost=None,
            order_by=by, late=False, why=why, advice=("no offer kept",), bookings=bookings,
        )  # fmt: skip
    sized = [(choice, *_packs(standing, choice, today)) for choice in choices]
    choice, packs, capped = _best(sized, standing, today)
    order_by = _order_by(standing, choice, today)
    late = order_by < today
    if late:
        why += (f"late: it should have been ordered by {order_by}",)
    advice = (*capped, *_others(sized, choice, packs))
    if not capped:
        advice += tuple(
            advise(choice.offer, packs, standing.yearly, economy, _used_before_date(standing, choice, today))
        )
    return BuyLine(
        material=material, net=material.quantity(standing.net), choice=choice, packs=packs,
        cost=choice.offer.cost(packs), order_by=order_by, late=late, why=why, advice=advice, bookings=bookings,
    )  # fmt: skip


def _why(standing: Standing) -> tuple[str, ...]:
    material = standing.material
    words = [
        f"{goods(material, need.quantity)} lacking on {need.by} for {', '.join(need.bookings)}"
        for need in standing.needs
    ]
    if standing.floor_lack:
        below = goods(material, standing.below or 0)
        left = goods(material, max(0, standing.left))
        when = "when the bookings have taken theirs" if standing.taken or standing.needs else "fit to use or on order"
        words.append(f"{left} {when}, order when below {below} ({standing.below_why})")
    words += standing.notes
    return tuple(words)


def _packs(standing: Standing, choice: Choice, today: date) -> tuple[int, tuple[str, ...]]:
    """Return how many packs of an offer to buy, and what a person should know where a date limits them."""
    offer, material = choice.offer, standing.material
    wanted = offer.packs_for(standing.net)
    firm = offer.packs_for(standing.booked_lack) if standing.booked_lack else offer.minimum_packs
    used = _used_before_date(standing, choice, today)
    if used is None or wanted * offer.pack_quanta <= used:
        return wanted, ()
    packs = max(firm, min(wanted, used // offer.pack_quanta))
    within = goods(material, _rough(max(0, used)))
    limit = f"about {within} will be used before it is past its date ({material.life_closed} closed)"
    if packs < wanted:
        return packs, (f"{packs} rather than {wanted} packs: only {limit}",)
    return packs, (f"of {goods(material, packs * offer.pack_quanta)} only {limit}",)


def _used_before_date(standing: Standing, choice: Choice, today: date) -> int | None:
    """Return how much of what is bought now will be used while it keeps; None where nothing tells.

    What is here and on order is used first.
    """
    life = standing.material.life_closed
    if not life or standing.yearly is None:
        return None
    arrives = today + timedelta(days=choice.days)
    last = life_day(arrives, life)
    booked = sum(quantity for day, quantity in standing.taken if day <= last)
    booked += sum(need.quantity for need in standing.needs if need.by <= last)
    unbooked = standing.yearly * (last - today).days // 365
    return max(standing.booked_lack, booked + unbooked - standing.here - standing.coming)


def _order_by(standing: Standing, choice: Choice, today: date) -> date:
    days = [choice.order_by(need.by) for need in standing.needs]
    if standing.floor_lack:
        days.append(standing.falls_below(today))
    return min(days)


def _best(
    sized: Sequence[tuple[Choice, int, tuple[str, ...]]], standing: Standing, today: date
) -> tuple[Choice, int, tuple[str, ...]]:
    """Choose what comes in time for the first booked need before what comes late; then what costs least."""
    first = min((need.by for need in standing.needs), default=None)

    def rank(one: tuple[Choice, int, tuple[str, ...]]) -> tuple[bool, int, int, int]:
        choice, packs, _ = one
        late = first is not None and choice.order_by(first) < today
        return (late, choice.offer.cost(packs), choice.days, choice.offer.id)

    return min(sized, key=rank)


def _others(sized: Sequence[tuple[Choice, int, tuple[str, ...]]], chosen: Choice, packs: int) -> tuple[str, ...]:
    """Say where another offer is cheaper by the unit, or costs less but would come too late."""
    words: list[str] = []
    for choice, number, _ in sized:
        if choice is chosen:
            continue
        offer = choice.offer
        price = show_money(offer.cost(number), offer.own_currency)
        what = f"{offer.supplier.name}, {number} x {offer.pack_words} for {price}"
        if offer.cost(number) < chosen.offer.cost(packs):
            words.append(f"{what} costs less but would come too late")
        elif unit_price(offer, number) < unit_price(chosen.offer, packs):
            words.append(f"{what} is cheaper per {per_unit(offer.material)}")
    return tuple(words)


def per_unit(material: Material) -> str:
    """Write the unit by which prices of a material are compared."""
    return UNITS[material.dimension][0].replace("m2", "m²")


def unit_price(offer: Offer, packs: int) -> Decimal:
    """Return what so many packs cost by the unit of UNITS, in minor units of the stockroom's currency."""
    return Decimal(offer.cost(packs)) * UNITS[offer.material.dimension][1] / (packs * offer.pack_quanta)


UNITS = {
    Dimension.MASS: ("kg", 10**9),
    Dimension.VOLUME: ("L", 10**6),
    Dimension.AREA: ("m2", 10**6),
    Dimension.LENGTH: ("m", 10**6),
    Dimension.PIECES: ("piece", 10**3),
    Dimension.USES: ("use", 10**3),
}
"""By which unit prices are compared, and how many quanta it has."""


def _rough(quanta: int) -> int:
    """Round down to two digits: it is an estimate."""
    step: int = 10 ** max(0, len(str(quanta)) - 2)
    return quanta // step * step
