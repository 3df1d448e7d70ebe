"""Tell an action in words: what a person did, with which lots, for whom, when."""

from __future__ import annotations

import json
from collections import defaultdict
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from stockroom.actions.closed_days import FOR_DAY
from stockroom.domain.ledger import Reworked
from stockroom.domain.occasion import from_utc_text
from stockroom.science.quantities import Quantity, show
from stockroom.store import ledger
from stockroom.store.counts import counts_of_action
from stockroom.store.history import WorkDone, action_by_number
from stockroom.store.jobs import job_by_id
from stockroom.store.lots import lot_by_id, lots_begun_by
from stockroom.store.open import Store
from stockroom.store.standing import changes_of_action

SEVERAL = 4
"""How many lots are named before the rest is only counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """An action in words."""

    code: str
    kind: str
    day: str
    when: str
    """Local day and time."""
    words: str
    in_effect: bool


def tell(store: Store, done: WorkDone, zone: ZoneInfo) -> Told:
    """Put an action into words."""
    local = from_utc_text(done.at).astimezone(zone)
    if done.undoes is not None:
        first = action_by_number(store, done.undoes)
        what = f"{first.code} ({first.kind.replace('-', ' ')})"
        words = f"undo {what}" if first.undoes is None else f"put back in effect what {what} undid"
    else:
        words = f"{done.kind.replace('-', ' ')} {_lots(store, done)}".strip()
        if done.job_id is not None:
            job = job_by_id(store, done.job_id)
            words += f" for {job.code} {job.title}"
    for_day = json.loads(done.details).get(FOR_DAY)
    if for_day:
        words += f", for {for_day}, which was closed"
    if done.reason:
        words += f" ({done.reason})"
    return Told(
        code=done.code,
        kind=done.kind,
        day=done.day,
        when=f"{local:%Y-%m-%d %H:%M}",
        words=words,
        in_effect=done.in_effect,
    )


def _lots(store: Store, done: WorkDone) -> str:
    amounts: dict[int, int] = defaultdict(int)
    for entry in ledger.entries_of_action(store, done.number):
        if entry.count_action is None:
            amounts[entry.lot] += entry.quantity
    named = [_amount(store, lot_id, abs(quantity)) for lot_id, quantity in amounts.items() if quantity]
    named += [_amount(store, count.lot, count.quantity) for count in counts_of_action(store, done.number)]
    if not named:
        lots = (
            {lot.id for lot in lots_begun_by(store, done.number)}
            or {*amounts}
            or {change.lot for change in changes_of_action(store, done.number)}
        )
        named = [_name(store, lot_id) for lot_id in sorted(lots)]
    more = f" and {len(named) - SEVERAL} more" if len(named) > SEVERAL else ""
    return ", ".join(named[:SEVERAL]) + more


def _name(store: Store, lot_id: int) -> str:
    lot = lot_by_id(store, lot_id)
    return f"{lot.material.name} ({lot.code})"


def _amount(store: Store, lot_id: int, quantity: int) -> str:
    lot = lot_by_id(store, lot_id)
    return f"{show(Quantity(lot.material.dimension, quantity))} of {_name(store, lot_id)}"


def tell_reworked(store: Store, reworked: tuple[Reworked, ...]) -> list[str]:
    """Say for each count that was kept as counted how its unexplained difference changed."""
    return [
        f"The count of {one.count.day} ({one.count.code}) stays: {_amount(store, one.count.lot, one.count.quantity)}; "
        f"its difference was {_difference(store, one.count.lot, one.was)} and is now "
        f"{_difference(store, one.count.lot, one.became)}."
        for one in reworked
    ]


def _difference(store: Store, lot_id: int, quantity: int) -> str:
    dimension = lot_by_id(store, lot_id).material.dimension
    if not quantity:
        return "nothing"
    return f"{show(Quantity(dimension, abs(quantity)))} {'more' if quantity > 0 else 'less'}"
