"""What the stock was worth on a day, where it lay, what was written off and why. Queries; nothing is booked."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from stockroom.domain.ledger import NO_REASON
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import utc_text
from stockroom.planning.moving_average import Averages, at_moving_average
from stockroom.science.quantities import Quantity
from stockroom.store import valuing
from stockroom.store.lots import all_lots
from stockroom.store.open import Store
from stockroom.store.valuing import AsOf, Late
from stockroom.store.verification import Sums, one_moment, where_value_is

NO_PLACE = "no place stated"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldLot:
    """What one lot held, what that was worth in minor units, and where it was."""

    lot: Lot
    quantity: Quantity
    value: int
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StockValue:
    """What the stock was worth at the end of a day; each lot at its own cost, the earliest bought used first."""

    day: str
    as_booked: bool
    """Whether it is what the books said on that day; else by when things happened, as the books say now."""
    lots: tuple[HeldLot, ...]
    sums: Sums
    """Where the value of everything bought until then was."""
    written_off: dict[str, int]
    """What was wasted since `since`, by reason, dearest first."""
    since: str
    late: tuple[Late, ...]
    """What was booked since then for days that were closed."""
    complete: bool
    """False where the cost of some lot is not known, so that the value is "at least"."""

    @property
    def total(self) -> int:
        return sum(one.value for one in self.lots)

    @property
    def by_place(self) -> dict[str, int]:
        return _added((one.place, one.value) for one in self.lots)

    @property
    def by_kind(self) -> dict[str, int]:
        return _added((one.lot.material.kind, one.value) for one in self.lots)


@dataclass(frozen=True, slots=True, kw_only=True)
class AverageLine:
    """One material in the books and at its moving average."""

    material: Material
    quantity: Quantity
    value: int
    at_average: int


def stock_value(
    store: Store, day: date, zone: ZoneInfo, *, as_booked: bool = False, since: date | None = None
) -> StockValue:
    """Return what the stock was worth at the end of a day, and what was written off from `since` (or New Year) on."""
    first = (since or date(day.year, 1, 1)).isoformat()
    as_of = _as_of(day, zone, as_booked)
    with one_moment(store):
        sums = valuing.sums_as_of(store, as_of)
        places = valuing.places_as_of(store, as_of)
        lots = {lot.id: lot for lot in all_lots(store)}
        lately = valuing.sums_as_of(store, as_of, first)
        late = valuing.booked_late(store, first, day.isoformat())
    held: dict[int, list[int]] = defaultdict(lambda: [0, 0])
    for one in sums:
        held[one.lot_id][0] += one.quantity
        held[one.lot_id][1] += one.value
    there = [
        HeldLot(
            lot=lots[lot_id],
            quantity=lots[lot_id].material.quantity(quantity),
            value=value,
            place=places.get(lot_id, NO_PLACE),
        )
        for lot_id, (quantity, value) in held.items()
        if quantity or value
    ]
    return StockValue(
        day=day.isoformat(),
        as_booked=as_booked,
        lots=tuple(
            sorted(there, key=lambda one: (one.place == NO_PLACE, one.place, one.lot.material.name, one.lot.id))
        ),
        sums=where_value_is((one.other_end, one.value) for one in sums),
        written_off=_added((one.reason or NO_REASON, -one.value) for one in lately if one.other_end == "waste"),
        since=first,
        late=tuple(late),
        complete=all(one.lot.cost_known for one in there),
    )


def averages(store: Store, day: date, zone: ZoneInfo, *, as_booked: bool = False) -> tuple[Averages, list[AverageLine]]:
    """Return the stock at the moving average of each material beside what the books say, and the averages' sums."""
    with one_moment(store):
        lots = {lot.id: lot for lot in all_lots(store)}
        entries = valuing.entries_as_of(store, _as_of(day, zone, as_booked))
    found = at_moving_average(entries, {lot.id: lot.material.id for lot in lots.values()})
    values: dict[int, int] = defaultdict(int)
    for entry in entries:
        values[lots[entry.lot].material.id] += entry.value
    materials = {lot.material.id: lot.material for lot in lots.values()}
    lines = [
        AverageLine(
            material=materials[key],
            quantity=materials[key].quantity(pool.quantity),
            value=values[key],
            at_average=pool.value,
        )
        for key, pool in found.pools.items()
        if pool.quantity or pool.value or values[key]
    ]
    return found, sorted(lines, key=lambda one: (-one.at_average, one.material.name))


def _as_of(day: date, zone: ZoneInfo, as_booked: bool) -> AsOf:
    if not as_booked:
        return AsOf(day=day.isoformat())
    return AsOf(before=utc_text(datetime.combine(day + timedelta(days=1), time(0), zone)))


def _added(pairs: Iterable[tuple[str, int]]) -> dict[str, int]:
    """Add up by name, dearest first; what comes to nothing is left out."""
    sums: dict[str, int] = defaultdict(int)
    for name, value in pairs:
        sums[name] += value
    return dict(sorted(((name, value) for name, value in sums.items() if value), key=lambda one: (-one[1], one[0])))
