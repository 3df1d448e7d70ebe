"""Keep every count as counted: a count pins what a lot held at its moment.

Whatever is booked, undone or put right before a count changes what the books said there; the count's difference is
then reversed and booked anew in the same action, so that the counted amount stays.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from stockroom.domain.ledger import Count, Counted, Movement, Reworked
from stockroom.errors import Refused
from stockroom.science.quantities import Quantity, show
from stockroom.store import counts
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store


def count_differences(store: Store, counted: Iterable[Counted], movements: Sequence[Movement]) -> list[Movement]:
    """Return the movement that brings each counted lot from what the books say to what was found.

    What else the action moves before the count (found first, then counted) is part of what the books say. Raises
    Refused where they say less than nothing at that moment.
    """
    differences: list[Movement] = []
    for one in counted:
        said = counts.held_at(store, one.lot, one.at)
        said += sum(m.quantity for m in movements if m.lot == one.lot and m.at <= one.at)
        _refuse_less_than_nothing(store, one.lot, said, one.at)
        if one.quantity != said:
            differences.append(
                _difference(
                    one.lot, one.quantity - said, one.other_end, reason=one.reason, day=one.day, at=one.at, count=0
                )
            )
    return differences


def count_again(store: Store, count: Count, movements: Sequence[Movement]) -> list[Movement]:
    """Return the movement that brings back a count that was undone, with the amount that was counted."""
    said = counts.held_at(store, count.lot, count.at, count.action)
    said += sum(m.quantity for m in movements if m.lot == count.lot and _before(m, count))
    _refuse_less_than_nothing(store, count.lot, said, count.at)
    return [_difference_of(count, count.quantity - said)] if count.quantity != said else []


def take_back_count(store: Store, count: Count) -> list[Movement]:
    """Return the movement that reverses a count's difference as it stands now."""
    quantity, value = counts.count_difference(store, count.lot, count.action)
    if not quantity and not value:
        return []
    return [
        Movement(
            lot=count.lot,
            quantity=-quantity,
            value=-value,
            effect="base",
            other_end="found" if quantity > 0 else count.loss_end,
            reason=count.reason,
            day=count.day,
            at=count.at,
            standing=count.action,
            count_action=count.action,
        )
    ]


def keep_counts(store: Store, movements: Sequence[Movement]) -> tuple[list[Movement], tuple[Reworked, ...]]:
    """Reverse and book anew the difference of the first later count of each lot that moves before it.

    Raises Refused where the books would say less than nothing just before a count.
    """
    moved: dict[tuple[int, int], int] = defaultdict(int)
    later: dict[tuple[int, int], Count] = {}
    for movement in movements:
        if movement.lot < 0 or not movement.quantity:
            continue
        count = counts.first_count_after(store, movement.lot, movement.at, movement.standing)
        if count is not None:
            moved[count.lot, count.action] += movement.quantity
            later[count.lot, count.action] = count
    kept: list[Movement] = []
    reworked: list[Reworked] = []
    for key, quantity in moved.items():
        if not quantity:
            continue
        count = later[key]
        was, _ = counts.count_difference(store, count.lot, count.action)
        became = was - quantity
        _refuse_less_than_nothing(store, count.lot, count.quantity - became, count.at)
        kept += take_back_count(store, count)
        if became:
            kept.append(_difference_of(count, became))
        reworked.append(Reworked(count=count, was=was, became=became))
    return kept, tuple(reworked)


def _before(movement: Movement, count: Count) -> bool:
    """Say whether a movement lies before a count: earlier, or in its moment and standing no later."""
    if movement.at != count.at:
        return movement.at < count.at
    return movement.standing is not None and movement.standing <= count.action


def _difference_of(count: Count, quantity: int) -> Movement:
    return _difference(
        count.lot, quantity, count.loss_end, reason=count.reason, day=count.day, at=count.at, count=count.action
    )


def _difference(
    lot: int, quantity: int, loss_end: str, *, reason: str | None, day: str, at: str, count: int
) -> Movement:
    """A count's difference: less found goes to waste with its value, more found brings quantity and no value."""
    priced = quantity < 0 and loss_end != "evaporated"
    return Movement(
        lot=lot,
        quantity=quantity,
        value=None if priced else 0,
        effect="draw" if priced else "base",
        other_end="found" if quantity > 0 else loss_end,
        reason=reason,
        day=day,
        at=at,
        standing=count or None,
        count_action=count,
    )


def _refuse_less_than_nothing(store: Store, lot_id: int, said: int, at: str) -> None:
    if said < 0:
        lot = lot_by_id(store, lot_id)
        missing = show(Quantity(lot.material.dimension, -said))
        raise Refused(
            f"Just before the count of {at[:10]} the books would say {missing} less than nothing in {lot.code} "
            f"({lot.material.name}). Nothing was changed. Where a delivery or a draw of that day has the wrong time, "
            "say the clock time with --day DATETHH:MM.",
            lot=lot.code,
        )
