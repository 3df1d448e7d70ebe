"""`calc reorder`: below which amount to order, from a typed history or rate; without a stockroom."""

from __future__ import annotations

import re
from fractions import Fraction
from math import ceil, floor, lcm, log10
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import Output, json_option
from stockroom.errors import BadInput, Unreadable

if TYPE_CHECKING:
    from stockroom.planning.demand import Foretold

_DAYS = {"hour": 1 / 24, "day": 1.0, "week": 7.0, "month": 365.25 / 12, "year": 365.25}
_RATE = r"(?i)(.+?) ?(?:/|an? |per ) ?(day|week|month|year)"
_EVERY = click.Choice(["day", "week", "month", "year"])


@click.command()
@click.option("--history", metavar="NUMBERS", help="Used in each period, oldest first, as '0 0 5 0 4'.")
@click.option("--every", type=_EVERY, default="month", show_default=True, help="The period of --history.")
@click.option("--uses", metavar="NUMBERS", help="The size of each use, as '2 3 1'; with --over.")
@click.option("--over", metavar="TIME", help="In what time those uses were, such as 24 months.")
@click.option("--rate", metavar="RATE", help="What is used, such as '30 a day'.")
@click.option("--spread", metavar="NUMBER", help="Standard deviation of --rate, in the same period.")
@click.option("--size", metavar="NUMBER", help="Of one use, for a --rate without --spread (1).")
@click.option("--delivery", required=True, metavar="TIME", help="The delivery time, such as 10 days.")
@click.option("--delivery-spread", metavar="TIME", help="Its standard deviation; with --spread.")
@click.option("--chance", default="5 %", metavar="PERCENT", show_default=True, help="Of running out, for each order.")
@json_option
@click.pass_obj
def reorder(
    output: Output,
    history: str | None,
    every: str,
    uses: str | None,
    over: str | None,
    rate: str | None,
    spread: str | None,
    size: str | None,
    delivery: str,
    delivery_spread: str | None,
    chance: str,
) -> None:
    """Say below which amount to order, and which rule that rests on.

    Give one of --history, --uses with --over, or --rate. Numbers are in whatever unit you count in.

    Example: stockroom calc reorder --uses "2 3 1" --over "24 months" --delivery "10 days"
    """
    if [history, uses, rate].count(None) != 2:
        raise BadInput("Give one of --history, --uses with --over, or --rate.")
    for option, given, needs, needed in (
        ("--over", over, "--uses", uses),
        ("--spread", spread, "--rate", rate),
        ("--size", size, "--rate", rate),
        ("--delivery-spread", delivery_spread, "--spread", spread),
    ):
        if given is not None and needed is None:
            raise BadInput(f"{option} goes with {needs}.")
    if uses is not None and over is None:
        raise BadInput("In what time were those uses? Say --over, such as '24 months'.")
    if spread is not None and size is not None:
        raise BadInput("--size is for a rate without --spread: give one of the two.")
    ahead, odds = _days(delivery), _chance(chance)
    if history is not None:
        from stockroom.planning.demand import foretell

        sizes, scale = _whole(history)
        found = foretell(sizes, ahead / _DAYS[every], odds)
        _tell(output, found, scale, _DAYS[every], delivery, odds)
    elif uses is not None:
        from stockroom.planning.demand import foretell_plainly

        sizes, scale = _whole(uses)
        if 0 in sizes:
            raise BadInput("A use of nothing is none: leave it out.")
        found = foretell_plainly(sizes, _days(over or "") / _DAYS["year"], ahead / _DAYS["year"], odds)
        _tell(output, found, scale, _DAYS["year"], delivery, odds)
    elif spread is not None:
        _tell_steady(output, rate or "", spread, ahead, _days(delivery_spread) if delivery_spread else 0.0, odds)
    else:
        _tell_rate(output, rate or "", size or "1", ahead, delivery, odds)


def _tell(output: Output, found: Foretold, scale: int, period_days: float, delivery: str, chance: float) -> None:
    from stockroom.planning.demand import DAYS_IN_A_YEAR, TOO_LITTLE, likely, say_point
    from stockroom.science.numerals import counted

    per_year = found.per_period.times(DAYS_IN_A_YEAR / period_days, "a year")
    why = [f"{counted(found.uses, 'use') if found.uses else 'No use'}: {likely(per_year)}."]
    point, below = (None if n is None else Fraction(n, scale) for n in (found.point, found.order_when_below))
    if point is None or below is None:
        why.append(TOO_LITTLE)
    else:
        why.append(say_point(found.rule, delivery, chance, f"{_number(point)}", f"{_number(below)}"))
    limits = {"low": per_year.low, "best": per_year.best, "high": per_year.high, "unit": "uses a year"}
    _say(output, found.rule, chance, _days(delivery), point, below, why, uses=found.uses, per_year=limits)


def _tell_rate(output: Output, typed: str, size: str, days: float, delivery: str, chance: float) -> None:
    from stockroom.planning.demand import say_point
    from stockroom.science.delivery_demand import Uses, likely_at_most
    from stockroom.science.numerals import read_numeral

    one = read_numeral(size)
    if one == 0:
        raise BadInput("A use of nothing is none. Write a --size greater than nothing.")
    uses = Uses(mean=_per_day(typed) * days / float(one), shape=None)
    point, below = (one * likely_at_most(uses, [1], chance, with_one=with_one) for with_one in (False, True))
    why = [say_point("rate as told", delivery, chance, f"{_number(point)}", f"{_number(below)}")]
    _say(output, "rate as told", chance, days, point, below, why)


def _tell_steady(output: Output, typed: str, spread: str, days: float, days_spread: float, chance: float) -> None:
    from stockroom.science.delivery_demand import Steady
    from stockroom.science.numerals import read_numeral

    period = _DAYS[_read_rate(typed)[1]]
    steady = Steady(
        per_day=_per_day(typed),
        per_day_spread=float(read_numeral(spread)) / period**0.5,
        days=days,
        days_spread=days_spread,
    )
    point = steady.order_point(chance)
    below = _rounded_up(point)
    why = [
        f"By the steady rate, about {steady.mean:.4g} is used in the delivery time, give or take {steady.spread:.4g}, "
        f"and more than {point:.6g} at most once in {1 / chance:.3g} orders: order when below {_number(below)}."
    ]
    spreads = {"mean": steady.mean, "spread": steady.spread}
    _say(output, "steady rate", chance, days, Fraction(point), below, why, used_in_delivery=spreads)


def _say(
    output: Output,
    rule: str,
    chance: float,
    days: float,
    point: Fraction | None,
    below: Fraction | None,
    why: list[str],
    **more: Any,
) -> None:
    output.document(
        {
            "rule": rule,
            "point": None if point is None else _number(point),
            "order_when_below": None if below is None else _number(below),
            "chance": chance,
            "delivery_days": days,
            **more,
            "why": why,
        }
    )
    for sentence in why:
        output.say(sentence)


def _days(typed: str) -> float:
    from stockroom.science.lives import read_life

    life = read_life(typed)
    return life.number * _DAYS[life.unit[:-1]]


def _chance(typed: str) -> float:
    from stockroom.science.delivery_demand import check_chance
    from stockroom.science.numerals import read_numeral

    chance = float(read_numeral(typed.strip().removesuffix("%").strip())) / 100
    check_chance(chance)
    return chance


def _whole(typed: str) -> tuple[list[int], int]:
    """Read numbers apart by spaces or semicolons; return them as whole ones, and by what they were multiplied."""
    from stockroom.science.numerals import read_numeral

    read = [read_numeral(word) for word in re.split(r"[;\s]+|,\s+", typed.strip()) if word]
    if not read:
        raise Unreadable("No number was given. Write them apart, such as '0 0 5 0 4'.", read=typed)
    scale = lcm(*(one.denominator for one in read))
    return [int(one * scale) for one in read], scale


def _read_rate(typed: str) -> tuple[Fraction, str]:
    from stockroom.science.numerals import quoted, read_numeral

    match = re.fullmatch(_RATE, " ".join(typed.split()))
    if not match:
        raise Unreadable(f"{quoted(typed)} is not a rate. Write it like '30 a day' or '4 a month'.", read=typed)
    return read_numeral(match[1]), match[2].lower()


def _per_day(typed: str) -> float:
    number, period = _read_rate(typed)
    return float(number) / _DAYS[period]


def _rounded_up(point: float) -> Fraction:
    """Round a point up to a whole number; below ten to two digits."""
    place = min(0, floor(log10(point)) - 1) if point > 0 else 0
    return Fraction(ceil(round(Fraction(point) / Fraction(10) ** place, 6))) * Fraction(10) ** place


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else float(value)
