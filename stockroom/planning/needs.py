"""What booked treatments need, to any depth, and what must be made or bought for them, how much and by when.

Needs are worked out from the treatments down: the needs of one material are gathered from everything that uses it
before they are met from the shelf, from open orders and then anew; what is made anew needs its ingredients on the day
its making begins. What should have begun before today keeps its day and is marked late.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from stockroom.domain.lots import Lot
from stockroom.domain.materials import CUT_ONE, Material
from stockroom.domain.open_days import ALWAYS_OPEN, OpenDays
from stockroom.domain.orders import USUAL_DELIVERY_DAYS, goods
from stockroom.errors import BadInput
from stockroom.planning.booked_needs import Worked
from stockroom.planning.covering import Demand, Receipt, Supply, Taking, cover
from stockroom.planning.levels import from_the_top
from stockroom.planning.requirements import Book, Scale, needs_of
from stockroom.planning.sheets import gives_all
from stockroom.planning.supplies import supply_of
from stockroom.planning.ways import HowBought, HowMade, life_day
from stockroom.science.numerals import counted
from stockroom.science.quantities import Dimension, Quantity, show


@dataclass(frozen=True, slots=True, kw_only=True)
class Coming:
    """What is on order: so many quanta of a material, expected on a day."""

    material_id: int
    quantity: int
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """So much of one material to be made or bought."""

    material: Material
    quantity: int
    by: date
    """The day it must be there, ready to use."""
    begin_by: date
    """The last open day to begin making it, or to order it."""
    why: str
    bookings: tuple[str, ...]
    """Codes of the bookings it is for."""
    there_from: date
    """The day it will be there: later than `by` where it should have begun before today."""
    recipe: str | None = None
    """Key of the recipe that makes it; None for what is bought."""
    supplier: str | None = None

    @property
    def late(self) -> bool:
        """Whether it will not be there in time."""
        return self.there_from > self.by

    @property
    def material_id(self) -> int:
        return self.material.id

    @property
    def amount(self) -> Quantity:
        return self.material.quantity(self.quantity)

    @property
    def verb(self) -> str:
        """What is done to have it there: make, cut or order."""
        return "make" if self.recipe else "cut" if self.material.dimension is Dimension.USES else "order"

    @property
    def amount_words(self) -> str:
        """How much, for people; whole sheets in their number as well."""
        sheet = self.material.packs.get("sheet")
        if sheet is None or self.quantity % sheet.quanta:
            return show(self.amount)
        number = self.quantity // sheet.quanta
        return f"{show(self.amount)}, {counted(number, 'sheet')}"


@dataclass(slots=True, kw_only=True)
class Plan:
    """What is to be made and bought, what is to begin first first, and where every need is taken from."""

    make: list[Need] = field(default_factory=list)
    buy: list[Need] = field(default_factory=list)
    takings: dict[int, list[Taking]] = field(default_factory=dict)
    """By material: how each of its needs is met."""
    receipts: dict[int, list[Need]] = field(default_factory=dict)
    """By material: what is made or bought of it, numbered as the takings name it."""
    troubles: list[str] = field(default_factory=list)
    """What could not be worked out, in words."""

    def for_booking(self, code: str) -> list[Need]:
        """Return what must be made or bought for one booking, what is to begin first first."""
        needs = [need for need in (*self.make, *self.buy) if code in need.bookings]
        return sorted(needs, key=lambda need: need.begin_by)


def plan_needs(
    worked: Sequence[Worked],
    lots: Iterable[Lot],
    coming: Iterable[Coming],
    made: Mapping[int, HowMade],
    bought: Mapping[int, HowBought],
    book: Book,
    local: datetime,
    studio: OpenDays = ALWAYS_OPEN,
) -> Plan:
    """Plan what must be made and bought for booked treatments, at a local moment.

    `made` and `bought` say by material how it is made or bought; what is in neither is bought without anything known
    about its delivery. `book` holds every recipe and material that they name. Nothing is changed by it.

    Raises BadInput, naming the ring, where recipes need each other in a ring.
    """
    cuts = [(need.material.id, need.pieces) for _, needs in worked for need, _ in needs if need.pieces]
    counted_on = [lot for lot in lots if gives_all(lot, cuts)]
    return _Planner(made, bought, book, local, studio).plan(worked, counted_on, coming)


class _Planner:
    """Goes from the treatments down to meet every need, then up again to say what is late."""

    def __init__(
        self,
        made: Mapping[int, HowMade],
        bought: Mapping[int, HowBought],
        book: Book,
        local: datetime,
        studio: OpenDays,
    ) -> None:
        self._made, self._bought, self._book = made, bought, book
        self._local, self._today, self._studio = local, local.date(), studio
        self._materials = {material.id: material for material in book.materials.values()}
        self._demands: dict[int, list[Demand]] = {}
        self._receipts: dict[int, list[Receipt]] = {}
        self._plan = Plan()

    def plan(self, worked: Sequence[Worked], lots: Iterable[Lot], coming: Iterable[Coming]) -> Plan:
        self._gather(worked)
        supplies = self._supplies(lots, coming)
        order = from_the_top(self._demands, self._made, self._book)
        for key in order:
            self._meet(key, supplies.get(key, []))
        delayed: dict[tuple[int, int], date] = {}
        for key in reversed(order):
            needs = self._needs(key, delayed)
            self._plan.receipts[key] = needs
            (self._plan.make if key in self._made else self._plan.buy).extend(needs)
            for taking in self._plan.takings[key]:
                making = taking.demand.making
                if taking.receipt is not None and making is not None:
                    there = needs[taking.receipt].there_from
                    delayed[making] = max(delayed.get(making, there), there)
        for needs in (self._plan.make, self._plan.buy):
            needs.sort(key=lambda need: (need.begin_by, need.material.name))
        return self._plan

    def _gather(self, worked: Sequence[Worked]) -> None:
        """Gather what each booking needs of each material, several lines of it together."""
        for one, needs in worked:
            code, day = one.booking.code, date.fromisoformat(one.booking.for_day)
            self._materials.update((need.material.id, need.material) for need, _ in needs)
            for key, quantity in _together((need.material.id, total.quanta) for need, total in needs).items():
                demand = Demand(quantity=quantity, on=day, what=code, bookings=(code,))
                self._demands.setdefault(key, []).append(demand)

    def _supplies(self, lots: Iterable[Lot], coming: Iterable[Coming]) -> dict[int, list[Supply]]:
        supplies: dict[int, list[Supply]] = {}
        for lot in lots:
            how = self._made.get(lot.material.id)
            supply = supply_of(lot, self._local, how.left_behind if how else 0)
            if supply is not None:
                supplies.setdefault(lot.material.id, []).append(supply)
        for one in coming:
            # what was expected and did not come is taken to come today; that it is late is told with the orders
            start = max(one.on, self._today)
            material = self._materials.get(one.material_id)
            keeps = material.life_closed if material else None
            until = life_day(start, keeps) if keeps else None
            supply = Supply(quantity=one.quantity, start=start, until=until)
            supplies.setdefault(one.material_id, []).append(supply)
        return supplies

    def _meet(self, key: int, supplies: Sequence[Supply]) -> None:
        how = self._made.get(key)
        if how is None:
            rule = self._buying(key).rule(self._materials[key], self._today, self._studio)
        else:
            rule = how.rule(self._today, self._studio)
        covered = cover(self._demands.get(key, []), supplies, rule)
        self._plan.takings[key], self._receipts[key] = covered.takings, covered.receipts
        if how is not None:
            for number, receipt in enumerate(covered.receipts):
                self._explode(key, number, receipt, how)

    def _explode(self, key: int, number: int, receipt: Receipt, how: HowMade) -> None:
        """Add what a making draws to the needs of the day on which it begins."""
        total = self._materials[key].quantity(receipt.quantity)
        try:
            lines = needs_of(how.recipe, Scale(total=total), self._book)
        except BadInput as error:
            self._plan.troubles.append(f"{how.recipe.name}: {error.message}")
            return
        metered = [(line.material.id, line.total.quanta) for line in lines if line.material.metered and line.total]
        for ingredient, quantity in _together(metered).items():
            demand = Demand(
                quantity=quantity,
                on=max(how.begin_by(receipt.on, self._studio), self._today),
                what=f"making {self._materials[key].name}",
                bookings=receipt.bookings,
                making=(key, number),
            )
            self._demands.setdefault(ingredient, []).append(demand)

    def _buying(self, key: int) -> HowBought:
        return self._bought.get(key) or HowBought()

    def _needs(self, key: int, delayed: Mapping[tuple[int, int], date]) -> list[Need]:
        how = self._made.get(key)
        receipts = enumerate(self._receipts[key])
        if how is None:
            return [self._to_buy(self._materials[key], one) for _, one in receipts]
        return [self._to_make(self._materials[key], one, how, delayed.get((key, number))) for number, one in receipts]

    def _to_make(self, material: Material, receipt: Receipt, how: HowMade, delayed: date | None) -> Need:
        begin = how.begin_by(receipt.on, self._studio)
        start = self._studio.first_open(max(self._today, delayed or self._today))
        there = how.ready_if_begun(self._local if start == self._today else start)
        if start <= begin and there <= receipt.on:
            there = receipt.on
        words = [_lacking(material, receipt, "will be fit to use")]
        if how.recipe.version.ready_after:
            words.append(f"ready {how.recipe.version.ready_after} after making")
        if not how.keeps(begin, receipt.on):
            words.append("keeps for less than that")
        elif not self._studio.is_open(begin):
            words.append("closed that day, and made earlier it would be past its date")
        return _need(material, receipt, begin, there, words, recipe=how.recipe.key)

    def _to_buy(self, material: Material, receipt: Receipt) -> Need:
        how = self._buying(material.id)
        cut = material.dimension is Dimension.USES
        begin = receipt.on if cut else how.begin_by(receipt.on, self._studio)
        words = [_lacking(material, receipt, "will be here")]
        if cut:
            words.append(CUT_ONE)
        elif how.delivery_days is None:
            # a guess brings the order forward, but calls nothing late
            begin = min(max(begin, self._today), receipt.on)
            words.append(f"how long delivery takes is not known, {USUAL_DELIVERY_DAYS} days are taken")
        else:
            words.append(f"delivery takes {counted(how.delivery_days, 'day')}")
        there = how.there_from(self._today, self._studio) if self._today > begin else receipt.on
        return _need(material, receipt, begin, there, words, supplier=how.supplier)


def _need(
    material: Material, receipt: Receipt, begin_by: date, there_from: date, words: Sequence[str], **by: str | None
) -> Need:
    """Return what is needed; `by` names the `recipe` that makes it or the `supplier`."""
    late = f"late: {'ready' if 'recipe' in by else 'here'} {there_from} at the earliest"
    return Need(
        material=material,
        quantity=receipt.quantity,
        by=receipt.on,
        begin_by=begin_by,
        there_from=there_from,
        why="; ".join([*words, late] if there_from > receipt.on else words),
        bookings=receipt.bookings,
        **by,
    )


def _together(amounts: Iterable[tuple[int, int]]) -> dict[int, int]:
    """Add up amounts by material, leaving out what is nothing."""
    found: dict[int, int] = {}
    for key, quanta in amounts:
        if quanta:
            found[key] = found.get(key, 0) + quanta
    return found


def _lacking(material: Material, receipt: Receipt, there: str) -> str:
    """Write what the first need lacks, and how much lacks in all where others are gathered into it."""
    first = receipt.first
    words = (
        f"{first.what} on {first.on} needs {goods(material, first.quantity)}, {goods(material, receipt.there)} {there}"
    )
    if receipt.missing > first.quantity - receipt.there:
        words += f"; with what follows {goods(material, receipt.missing)} lacking"
    return words
