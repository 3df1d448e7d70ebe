"""When to order what no booked treatment asks for, from what was used so far; and by which rule that was found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from stockroom.domain.materials import Material
from stockroom.errors import BadInput
from stockroom.science.delivery_demand import Uses, check_chance, likely_at_most
from stockroom.science.event_counts import exact_limits, upper_limit
from stockroom.science.intermittent import fade, smooth
from stockroom.science.numerals import counted
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.ranges import Range

LEAST_USES = 3
"""With fewer uses there is nothing to reckon with. The number is a judgement; no source gives one."""
ENOUGH_TO_SMOOTH = 10
"""With so many uses their sizes and intervals are smoothed. The number is a judgement; no source gives one."""
LOOK_BACK_DAYS = 3 * 365
"""Older use says little of the next."""
FADED = 0.5
"""The share of the lasting forecast below which the fading one shows that use is ending. A judgement."""

DAYS_IN_A_YEAR = 365.25
_MONTH_DAYS = 30

TOO_LITTLE = "Too little to reckon with: set by hand below which amount to order."
BY_HAND, PLAIN_RATE, SMOOTHED = "by hand", "plain rate", "smoothed rate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What was used of a material on one day, without having been booked ahead."""

    day: date
    quanta: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Foretold:
    """What a history of use foretells of the time until a delivery comes. Sizes are whole numbers of one unit."""

    rule: str
    """`by hand`, `plain rate` or `smoothed rate`."""
    uses: int
    per_period: Range
    """Uses in a period, between limits that hold in 95 of 100 cases."""
    point: int | None
    """What is used until the delivery comes is more only with the stated chance; None where nothing can be said."""
    order_when_below: int | None
    """The same with the use that brings the stock below it, so that the chance holds although uses are large."""


def foretell(series: Sequence[int], periods_ahead: float, chance: float) -> Foretold:
    """Say what a series of use, oldest period first, foretells of a time ahead, by the rule its length allows.

    Fewer than three uses: no statistic. Fewer than ten: their plain rate. From ten on sizes and intervals are
    smoothed, and the rate corrected for the bias that this has. Raises BadInput for a chance or a time that is none.
    """
    sizes = [size for size in series if size]
    if len(sizes) < ENOUGH_TO_SMOOTH:
        return foretell_plainly(sizes, len(series), periods_ahead, chance)
    return _foretold(SMOOTHED, sizes, len(series), smooth(series).uses, periods_ahead, chance)


def foretell_plainly(sizes: Sequence[int], periods: float, periods_ahead: float, chance: float) -> Foretold:
    """Say what uses of these sizes within so many periods foretell of a time ahead, whenever in them they were.

    Raises BadInput for a chance or a time that is none.
    """
    rule = PLAIN_RATE if len(sizes) >= LEAST_USES else BY_HAND
    # the half is that of Jeffreys' prior; without periods the refusal is below
    rate = (len(sizes) + 0.5) / periods if periods > 0 else 0.0
    return _foretold(rule, sizes, periods, rate, periods_ahead, chance)


def _foretold(
    rule: str, sizes: Sequence[int], periods: float, rate: float, periods_ahead: float, chance: float
) -> Foretold:
    check_chance(chance)
    if periods_ahead < 0 or periods <= 0:
        raise BadInput("A forecast needs some time to look back on, and a delivery time that is not less than nothing.")
    count = len(sizes)
    low, high = exact_limits(count) if count else (0.0, upper_limit(0))
    limits = Range(low=low / periods, best=count / periods, high=high / periods, unit="uses")
    bare = Foretold(rule=rule, uses=count, per_period=limits, point=None, order_when_below=None)
    if rule == BY_HAND:
        return bare
    ahead = Uses(mean=rate * periods_ahead, shape=count + 0.5)
    return replace(
        bare,
        point=likely_at_most(ahead, sizes, chance),
        order_when_below=likely_at_most(ahead, sizes, chance, with_one=True),
    )


def is_fading(series: Sequence[int]) -> bool:
    """Say whether use in these periods is ending: the fading forecast has fallen far below the lasting one."""
    return fade(series) < FADED * smooth(series).use


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderWhenBelow:
    """When to order a material, and why."""

    rule: str
    """`by hand`, `plain rate` or `smoothed rate`: what a computed amount was made from."""
    uses: int
    per_year: Range
    """Uses a year, between limits that hold in 95 of 100 cases."""
    delivery_days: int
    chance: float
    point: Quantity | None
    """What is used until the delivery comes is more only with the stated chance; None by hand."""
    below: Quantity | None
    """Order when less than this is left: the higher of the computed amount and the least set by hand."""
    fading: bool
    """Whether it is used less and less."""
    why: tuple[str, ...]
    """Sentences for people."""


def order_when_below(
    material: Material,
    uses: Sequence[Use],
    since: date,
    today: date,
    delivery_days: int,
    chance: float,
) -> OrderWhenBelow:
    """Say below which amount a material is to be ordered so that it lasts until a delivery comes.

    `uses` are those that were not booked ahead, `since` the day from which the material could have been used (its
    first delivery). What is booked comes on top. Raises BadInput for a chance or a time that is none.
    """
    first = max(since, today - timedelta(days=LOOK_BACK_DAYS))
    series = [0] * max(1, (today - first).days + 1)
    for use in uses:
        if first <= use.day <= today:
            series[(use.day - first).days] += use.quanta
    found = foretell(series, delivery_days, chance)
    computed = _in_whole(material, found.order_when_below) if found.order_when_below else None
    least = material.low_quanta
    below = max((one for one in (computed, least) if one is not None), default=None)
    per_year = found.per_period.times(DAYS_IN_A_YEAR, "a year")
    fading = found.uses >= LEAST_USES and is_fading(_monthly(series))
    why = [_say_history(found.uses, len(series), per_year)]
    if found.point is not None and computed is not None:
        delivery = counted(delivery_days, "day")
        why.append(say_point(found.rule, delivery, chance, _show(material, found.point), _show(material, computed)))
        if least is not None and least > computed:
            why.append(f"The least amount set by hand is more and holds: order when below {_show(material, least)}.")
    elif least is not None:
        why.append(f"Too little to reckon with: order when below {_show(material, least)}, as set by hand.")
    else:
        why.append(TOO_LITTLE)
    if fading:
        why.append("It is used less and less: is it still needed?")
    return OrderWhenBelow(
        rule=found.rule,
        uses=found.uses,
        per_year=per_year,
        delivery_days=delivery_days,
        chance=chance,
        point=None if found.point is None else material.quantity(found.point),
        below=None if below is None else material.quantity(below),
        fading=fading,
        why=tuple(why),
    )


def likely(per_time: Range) -> str:
    """Write between which numbers of uses the truth lies: `likely 0.3 to 4.4 a year`, `fewer than 1.5 a year`."""
    low, high = (f"{end:.0f}" if per_time.high >= 10 else f"{end:.1f}" for end in (per_time.low, per_time.high))
    return f"likely {low} to {high} {per_time.unit}" if per_time.best else f"fewer than {high} {per_time.unit}"


def say_point(rule: str, delivery: str, chance: float, point: str, below: str) -> str:
    """Say by which rule what may be used until a delivery comes, and below which amount to order."""
    return (
        f"By the {rule}, in a delivery time of {delivery} more than {point} is used at most once in {1 / chance:.3g} "
        f"orders; with the use that brings the stock down, order when below {below}."
    )


def _say_history(uses: int, days: int, per_year: Range) -> str:
    months = round(days / DAYS_IN_A_YEAR * 12)
    over = counted(months, "month") if months else counted(days, "day")
    return f"{counted(uses, 'use') if uses else 'No use'} not booked ahead in {over}: {likely(per_year)}."


def _monthly(series: Sequence[int]) -> list[int]:
    """Sum days to months of 30 days, counted back from the last day."""
    backwards = series[::-1]
    return [sum(backwards[at : at + _MONTH_DAYS]) for at in range(0, len(series), _MONTH_DAYS)][::-1]


def _in_whole(material: Material, quanta: int) -> int:
    """Round an amount up to whole sheets or pieces, or to two digits: it is never a matter of less."""
    sheet = material.packs.get("sheet")
    if sheet is not None:
        step = sheet.quanta
    elif material.dimension in (Dimension.PIECES, Dimension.USES):
        step = 1_000
    else:
        step = 10 ** max(0, len(str(quanta)) - 2)
    return -(-quanta // step) * step


def _show(material: Material, quanta: int) -> str:
    sheet = material.packs.get("sheet")
    if sheet is not None and quanta % sheet.quanta == 0:
        return counted(quanta // sheet.quanta, "sheet")
    return show(material.quantity(quanta))
