"""Carry a difference in value on: to what is left of a lot and to all that was drawn from it, jar by jar.

The entries written here are value alone. They follow the entries in order of booking and are dated the day they are
booked; a closed job keeps its figure, and what would have changed it stands as a difference.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass

from stockroom.domain.ledger import Entry, Movement, Place
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.science.sharing import share_out
from stockroom.store import ledger
from stockroom.store.jobs import job_by_id
from stockroom.store.open import Store

_TAKES_VALUE = ("lot", "job", "studio", "waste", "difference", "supplier")


@dataclass(slots=True, kw_only=True)
class Draw:
    """A draw as it stands now: net of what came back and of reversals, value put right later included."""

    first: Entry
    quantity: int = 0
    value: int = 0


def standing_draws(entries: Iterable[Entry]) -> list[Draw]:
    """Return what stands of each draw among a lot's entries, in order of booking; a count's loss is one draw.

    What evaporated took no value along, so it is none.
    """
    draws: dict[Place | int, Draw] = {}
    for entry in entries:
        draw = draws.setdefault(entry.count_action or entry.refers or entry.place, Draw(first=entry))
        if entry.effect == "draw" and draw.first.effect != "draw":
            draw.first = entry
        draw.quantity -= entry.quantity
        draw.value -= entry.value
    return [draw for draw in draws.values() if draw.quantity > 0 and draw.first.other_end in _TAKES_VALUE]


def carry_value(store: Store, occasion: Occasion, lot_id: int, difference: int, since: int) -> list[Movement]:
    """Return the movements that pass a difference on from a lot that action `since` brought it into.

    It is shared by quantity (largest remainder) over what is left and every draw booked since then, and on through
    each jar to any depth. No draw and no lot ends below nothing; what cannot be taken back is a difference.
    """
    day, at = occasion.today.isoformat(), utc_text(occasion.now)
    movements: list[Movement] = []
    left: dict[int, list[int]] = {}
    draws: dict[int, list[Draw]] = {}
    waiting = deque([(lot_id, difference, since)])
    while waiting:
        lot, amount, booked = waiting.popleft()
        if lot not in left:
            balance = ledger.balances(store, [lot])[lot]
            left[lot] = [balance.quantity, balance.value]
            draws[lot] = standing_draws(ledger.entries_of_lot(store, lot))
        later = [draw for draw in draws[lot] if draw.first.standing >= booked]
        weights = [left[lot][0], *(draw.quantity for draw in later)]
        shares, lost = _shares(amount, weights, [left[lot][1], *(draw.value for draw in later)])
        left[lot][1] += shares[0]
        for draw, share in zip(later, shares[1:], strict=True):
            if share:
                draw.value += share
                movements.append(_passed_on(store, draw.first, share, day, at))
                if draw.first.other_lot is not None:
                    movements.append(taken_up(draw.first.other_lot, lot, share, day, at))
                    waiting.append((draw.first.other_lot, share, draw.first.standing))
        if lost:
            end = Movement(lot=lot, quantity=0, value=-lost, other_end="difference", effect="base", day=day, at=at)
            movements.append(end)
    return movements


def reached_from(store: Store, lot_id: int) -> set[int]:
    """Return the lots that something drawn from a lot went into, to any depth, the lot itself among them."""
    reached, waiting = {lot_id}, [lot_id]
    while waiting:
        for draw in standing_draws(ledger.entries_of_lot(store, waiting.pop())):
            other = draw.first.other_lot
            if other is not None and other not in reached:
                reached.add(other)
                waiting.append(other)
    return reached


def _shares(amount: int, weights: list[int], held: list[int]) -> tuple[list[int], int]:
    """Share an amount out by weight, leaving none below nothing; return the shares and what none could bear."""
    if not any(weights):
        return [0] * len(weights), amount
    shares = share_out(amount, weights)
    lost = 0
    for index, value in enumerate(held):
        lost += min(0, value + shares[index])
        shares[index] = max(shares[index], -value)
    for index, value in enumerate(held):
        more = max(lost, -(value + shares[index])) if weights[index] else 0
        shares[index] += more
        lost -= more
    return shares, lost


def _passed_on(store: Store, first: Entry, share: int, day: str, at: str) -> Movement:
    other_end, job_id = first.other_end, first.job_id
    if job_id is not None and job_by_id(store, job_id).state == "closed":
        other_end, job_id = "difference", None
    if other_end == "supplier":
        # what went back to the supplier is settled by its credit; the rest of its value was lost
        other_end = "waste"
    return Movement(
        lot=first.lot,
        quantity=0,
        value=-share,
        other_end=other_end,
        other_lot=first.other_lot,
        job_id=job_id,
        reason=first.reason,
        effect="base",
        day=day,
        at=at,
        refers=None if first.count_action else first.place,
        count_action=first.count_action,
    )


def taken_up(lot: int, source: int, value: int, day: str, at: str, standing: int | None = None) -> Movement:
    """Return the value alone that a lot takes up of what was drawn for it from another."""
    return Movement(
        lot=lot,
        quantity=0,
        value=value,
        other_end="lot",
        other_lot=source,
        effect="base",
        day=day,
        at=at,
        standing=standing,
    )
