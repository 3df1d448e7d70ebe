"""Below how much an offered material is to be ordered: reckoned from its use and the delivery times."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from stockroom.actions.delivery_times import delivery_time
from stockroom.actions.reorder_points import order_point_of
from stockroom.domain.materials import Material
from stockroom.domain.open_days import ALWAYS_OPEN
from stockroom.domain.orders import USUAL_DELIVERY_DAYS, DeliveryTime
from stockroom.planning.buying import Choice
from stockroom.planning.demand import LOOK_BACK_DAYS, SMOOTHED
from stockroom.science.numerals import counted
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.open_days import calendars
from stockroom.store.use_history import first_here, used_without_booking

_YEAR = 365
_LEAST_DAYS = 90
"""Use of fewer days is not taken for more than a quarter's. A judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPoint:
    """When to order a material, with the least amount set by hand left aside. Amounts in quanta."""

    below: int | None
    """None where there was too little use to reckon with."""
    why: str
    yearly: int | None
    """Used a year without being booked; None where there was too little use to say."""


def choices_by_material(store: Store) -> dict[int, list[Choice]]:
    """Return the offers that stand, by material, with how long their suppliers take."""
    times: dict[int, DeliveryTime] = {}
    days = calendars(store)
    found: dict[int, list[Choice]] = defaultdict(list)
    for offer in current_offers(store):
        supplier = offer.supplier
        if supplier.id not in times:
            times[supplier.id] = delivery_time(store, supplier)
        choice = Choice(
            offer=offer,
            time=times[supplier.id],
            open_days=days.get(supplier.id, ALWAYS_OPEN),
            studio=days.get(None, ALWAYS_OPEN),
        )
        found[offer.material.id].append(choice)
    return dict(found)


def longest_days(choices: Sequence[Choice]) -> int:
    """Return how long the slowest of some suppliers takes: stock must last until even that one delivers."""
    return max((choice.days for choice in choices), default=USUAL_DELIVERY_DAYS)


def reckon_point(store: Store, material: Material, choices: Sequence[Choice], today: date) -> OrderPoint:
    """Reckon below how much a material is to be ordered, the least amount set by hand left aside."""
    point = order_point_of(store, replace(material, low_quanta=None), today, longest_days(choices))
    if point.point is None or point.below is None:
        return OrderPoint(below=None, why="too little use to reckon with", yearly=None)
    weighed = " (later ones count more)" if point.rule == SMOOTHED else ""
    return OrderPoint(
        below=point.below.quanta,
        why=f"reckoned from {counted(point.uses, 'use')}{weighed}, {counted(point.delivery_days, 'day')} delivery",
        yearly=_yearly(store, material, today),
    )


def order_below(store: Store, material: Material, choices: Sequence[Choice], today: date) -> OrderPoint:
    """Return below how much to order a material: the amount reckoned or the one set by hand, whichever is more."""
    point, low = reckon_point(store, material, choices, today), material.low_quanta
    if low is None or (point.below is not None and low < point.below):
        return point
    why = "set by hand" if point.below is None else f"set by hand, more than {point.why}"
    return replace(point, below=low, why=why)


def _yearly(store: Store, material: Material, today: date) -> int:
    """Return what was used a year without being booked, in quanta, by what the reckoned amount looks back on."""
    since = (today - timedelta(days=LOOK_BACK_DAYS)).isoformat()
    first = date.fromisoformat(first_here(store, material.id, since) or today.isoformat())
    days = max(_LEAST_DAYS, (today - first).days)
    return sum(quanta for _, quanta in used_without_booking(store, material.id, since)) * _YEAR // days
