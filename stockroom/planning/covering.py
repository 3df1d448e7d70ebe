"""How the dated needs of one material are met: from what is there or on order, oldest date first, then anew.

Of what counts on a day, the earliest use-by is taken first (WHO, Good Distribution Practices, Annex 5). Since needs
are met in order of their days, nothing else would leave less uncovered. Only what then lacks is made or bought.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from heapq import heappop, heappush
from itertools import accumulate


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """So much of one material, to be there on a day."""

    quantity: int
    on: date
    what: str
    """What needs it, in words."""
    bookings: tuple[str, ...] = ()
    """Codes of the bookings it is needed for."""
    making: tuple[int, int] | None = None
    """Which making draws it, by material and number; None for a booking's own need."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """So much of one material that counts from one day to another; for ever where `until` is None."""

    quantity: int
    start: date
    until: date | None = None
    source: str | None = None
    """Code of the lot; None for what is on order."""
    order: tuple[bool, str, int] = (True, "", 0)
    """Among those of one use-by: what is open first, then what came first, then the lower number."""
    once_opened: Callable[[date], date] | None = None
    """For what is closed still: the last day of use when it is opened on a day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """So much taken for one demand, from a lot, from what is on order, or from what is made or bought for it."""

    demand: Demand
    quantity: int
    source: str | None = None
    receipt: int | None = None
    """Which of the receipts it comes from; None where it was there or on order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What a receipt that is there on a day is good for."""

    gathers: date
    """The last day whose needs are planned into it."""
    until: date | None
    """The last day on which what is left of it counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """How something is made or bought anew."""

    window: Callable[[date], Window]
    rounded: Callable[[int], tuple[int, int]]
    """From what lacks to how much is made or bought, and how much of that can be used."""
    keep: int = 0
    """How much is to be left after every need, for use that nobody booked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Receipt:
    """So much to be made or bought so that it is there on a day."""

    on: date
    quantity: int
    missing: int
    """What lacks without it, before rounding."""
    first: Demand
    """The first need it is for."""
    there: int
    """What of that first need is there without it."""
    bookings: tuple[str, ...] = ()


@dataclass(slots=True)
class _Met:
    """A demand after what is there was taken for it."""

    demand: Demand
    missing: int
    still_there: int


@dataclass(slots=True)
class _Pool:
    receipt: int
    left: int
    until: date | None


@dataclass(slots=True)
class Covered:
    """How the needs of one material are met."""

    takings: list[Taking] = field(default_factory=list)
    receipts: list[Receipt] = field(default_factory=list)


def cover(demands: Sequence[Demand], supplies: Sequence[Supply], rule: Rule) -> Covered:
    """Meet the demands of one material; what nothing there covers becomes receipts, none of them after its day."""
    covered = Covered()
    met = _from_what_is_there(sorted(demands, key=lambda one: one.on), supplies, rule.keep, covered.takings)
    days = [one.demand.on for one in met]
    lacking = [0, *accumulate(one.missing for one in met)]
    pool: deque[_Pool] = deque()
    for index, one in enumerate(met):
        while pool and (not pool[0].left or _ended(pool[0].until, one.demand.on)):
            pool.popleft()
        left = _from_receipts(one.demand, one.missing, pool, covered.takings)
        short = left
        if rule.keep:
            usable = sum(each.left for each in pool if not _ended(each.until, one.demand.on))
            short += max(0, rule.keep - one.still_there - usable)
        if not short:
            continue
        window = rule.window(one.demand.on)
        end = max(index + 1, bisect_right(days, window.gathers))
        missing = short + lacking[end] - lacking[index + 1]
        quantity, usable = rule.rounded(missing)
        covered.receipts.append(
            Receipt(
                on=one.demand.on,
                quantity=quantity,
                missing=missing,
                first=one.demand,
                there=one.demand.quantity - left,
            )
        )
        pool.append(_Pool(len(covered.receipts) - 1, usable, window.until))
        _from_receipts(one.demand, left, pool, covered.takings)
    covered.receipts = _with_bookings(covered)
    return covered


def _with_bookings(covered: Covered) -> list[Receipt]:
    """Name with each receipt all bookings that take of it, those served from what rounding left over too."""
    served: list[dict[str, None]] = [{} for _ in covered.receipts]
    for taking in covered.takings:
        if taking.receipt is not None:
            served[taking.receipt].update(dict.fromkeys(taking.demand.bookings))
    return [replace(one, bookings=tuple(codes)) for one, codes in zip(covered.receipts, served, strict=True)]


def _ended(until: date | None, day: date) -> bool:
    return until is not None and until < day


def _from_receipts(demand: Demand, wanted: int, pool: deque[_Pool], takings: list[Taking]) -> int:
    """Take from receipts that still count; return what lacks."""
    for each in pool:
        if not wanted:
            break
        if each.left and not _ended(each.until, demand.on):
            quantity = min(wanted, each.left)
            each.left -= quantity
            wanted -= quantity
            takings.append(Taking(demand=demand, quantity=quantity, receipt=each.receipt))
    return wanted


def _from_what_is_there(
    demands: Sequence[Demand], supplies: Sequence[Supply], keep: int, takings: list[Taking]
) -> list[_Met]:
    """Take for each demand, by day, what is there, earliest use-by first."""
    waiting = deque(sorted(supplies, key=lambda one: one.start))
    heap: list[tuple[date, tuple[bool, str, int], int, Supply]] = []
    left: dict[int, int] = {}
    met: list[_Met] = []
    for demand in demands:
        while waiting and waiting[0].start <= demand.on:
            supply = waiting.popleft()
            number = len(left)
            left[number] = supply.quantity
            heappush(heap, (supply.until or date.max, supply.order, number, supply))
        wanted = demand.quantity
        while heap and wanted:
            until, order, number, supply = heap[0]
            if until < demand.on or not left[number]:
                heappop(heap)
                continue
            quantity = min(wanted, left[number])
            left[number] -= quantity
            wanted -= quantity
            takings.append(Taking(demand=demand, quantity=quantity, source=supply.source))
            if order[0] and supply.once_opened is not None:
                # from here on its life once opened rules
                heappop(heap)
                opened = min(until, supply.once_opened(demand.on))
                heappush(heap, (opened, (False, *order[1:]), number, supply))
        still = sum(left[number] for until, _, number, _ in heap if until >= demand.on) if keep else 0
        met.append(_Met(demand, wanted, still))
    return met
