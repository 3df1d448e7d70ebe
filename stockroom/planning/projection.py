"""How much of one material will be there in the coming days, and what changes it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.planning.needs import Coming, Plan
from stockroom.planning.supplies import supply_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """What is there at the end of a day, and what changed it."""

    day: date
    quantity: int
    """Quanta fit to use, ready, within their dates."""
    changes: tuple[tuple[str, str, int], ...] = ()
    """What happened: kind (booking, making, expiry, ready, arrival, made, bought), what in words, quanta."""


def project(
    material: Material, lots: Iterable[Lot], coming: Iterable[Coming], plan: Plan, local: datetime, days: int
) -> list[Point]:
    """Follow one material from now on: the first point is what is fit now, then one for each day that changes it.

    What a lot still holds on its last day is gone the day after. Whatever is planned to be made or bought comes on the
    day it will be there.
    """
    today = local.date()
    last = today + timedelta(days=days)
    left: dict[str | None, int] = {}
    changes: dict[date, list[tuple[str, str, int]]] = {}
    takings = plan.takings.get(material.id, [])
    start = 0
    for lot in lots:
        supply = supply_of(lot, local)
        if supply is None:
            continue
        left[lot.code] = supply.quantity - sum(one.quantity for one in takings if one.source == lot.code)
        if supply.start <= today:
            start += supply.quantity
        else:
            changes.setdefault(supply.start, []).append(("ready", lot.code, supply.quantity))
        if supply.until is not None and left[lot.code] > 0:
            changes.setdefault(max(supply.until, supply.start) + timedelta(days=1), []).append(
                ("expiry", lot.code, -left[lot.code])
            )
    for order in coming:
        changes.setdefault(max(order.on, today), []).append(("arrival", "on order", order.quantity))
    for need in plan.receipts.get(material.id, []):
        kind = "made" if need.recipe else "bought"
        changes.setdefault(need.there_from, []).append((kind, need.why, need.quantity))
    for one in takings:
        kind = "booking" if one.demand.making is None else "making"
        changes.setdefault(one.demand.on, []).append((kind, one.demand.what, -one.quantity))
    return _points(start, changes, today, last)


def _points(start: int, changes: dict[date, list[tuple[str, str, int]]], today: date, last: date) -> list[Point]:
    points = [Point(day=today, quantity=start)]
    there = start
    for day in sorted(changes):
        if day <= last:
            there += sum(quantity for _, _, quantity in changes[day])
            points.append(Point(day=day, quantity=there, changes=tuple(changes[day])))
    return points
