"""What has lain on the shelf for a year without any use."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import datetime, timedelta

from stockroom.domain.lots import Lot
from stockroom.planning.due import Due
from stockroom.planning.fitness import fitness
from stockroom.science.money import show_money
from stockroom.science.quantities import show

DAYS_WITHOUT_USE = 365


def year_ago(local: datetime) -> str:
    """Return the day from which on a use counts."""
    return (local.date() - timedelta(days=DAYS_WITHOUT_USE)).isoformat()


def long_here(lots: Sequence[Lot], local: datetime) -> list[list[Lot]]:
    """Return the lots that came or were made a year ago or earlier and are fit to use, those of a material together."""
    since = year_ago(local)
    found: dict[int, list[Lot]] = defaultdict(list)
    for lot in lots:
        came = lot.received_on or (lot.made_at or "")[:10]
        if came and came < since and lot.balance.quantity and fitness(lot, local).fit:
            found[lot.material.id].append(lot)
    return list(found.values())


def due_not_used(lots: Sequence[Lot], last_used: str | None, currency: str) -> Due:
    """Tell that the material of these lots is not used: how much lies there, and what it is worth.

    `last_used` is the last day of use, None where it was never used.
    """
    material = lots[0].material
    held = show(material.quantity(sum(lot.balance.quantity for lot in lots)))
    value = show_money(sum(lot.balance.value for lot in lots), currency)
    known = "" if all(lot.cost_known for lot in lots) else "at least "
    where = lots[0].code if len(lots) == 1 else f"{len(lots)} lots"
    since = f"not used since {last_used}" if last_used else "never used since it came, over a year ago"
    why = f"{since}: {held} in {where}, worth {known}{value}; keep it, give it away or discard it"
    return Due(kind="not-used", code=material.key, name=material.name, by=None, why=why)
