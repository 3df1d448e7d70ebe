"""Post an action: price its draws, keep every count as counted, test every day, and seal it.

Everything here runs inside one `write()`. What a draft says about quantities is final; values of draws are worked
out here, in the order in which they are booked.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from stockroom.domain.ledger import Draft, Movement, Posted, Tally
from stockroom.domain.occasion import utc_text
from stockroom.errors import Refused
from stockroom.science.quantities import Quantity, show
from stockroom.store import ledger
from stockroom.store.codes import give_code
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store
from stockroom.store.seals import seal


def post(store: Store, draft: Draft, booked_at: datetime) -> Posted:
    """Book one action, whole, and return it as booked.

    Raises Refused when a lot would hold less than nothing on any day, in quantity or in value.
    """
    movements = [_dated(movement, draft) for movement in draft.movements]
    movements += _count_differences(store, draft, movements)
    movements = _keep_counts(store, movements)
    _test_days(store, movements)
    number, code = give_code(store, "A")
    ledger.insert_action(store, number, code, draft, utc_text(booked_at))
    ids, codes = _begin_lots(store, draft, number)
    priced = _price([_renamed(movement, ids) for movement in movements], store)
    ledger.insert_entries(store, number, priced)
    for counted in draft.counted:
        said = counted.quantity - sum(m.quantity for m in priced if m.count_action == 0 and m.lot == counted.lot)
        ledger.insert_count(store, number, draft.occasion.day.isoformat(), draft.occasion.at_text, counted, said)
    _record_facts(store, number, draft, ids, priced)
    seal(store, number)
    return Posted(number=number, code=code, lots=codes, entries=tuple(ledger.entries_of_action(store, number)))


def _dated(movement: Movement, draft: Draft) -> Movement:
    if movement.day:
        return movement
    return replace(movement, day=draft.occasion.day.isoformat(), at=draft.occasion.at_text)


def _count_differences(store: Store, draft: Draft, movements: list[Movement]) -> list[Movement]:
    """Return the movement that brings each counted lot from what the books say to what was found.

    What else this action moves before the count (found first, then counted) is part of what the books say.
    """
    differences: list[Movement] = []
    for counted in draft.counted:
        said = ledger.moved_before(store, counted.lot, draft.occasion.at_text)
        said += sum(m.quantity for m in movements if m.lot == counted.lot)
        difference = counted.quantity - said
        if difference:
            differences.append(
                _dated(_difference(counted.lot, difference, counted.other_end, counted.reason, 0), draft)
            )
    return differences


def _difference(lot: int, quantity: int, loss_end: str, reason: str | None, count: int) -> Movement:
    """A count's difference: less found goes to waste with its value, more found brings quantity and no value."""
    if quantity > 0:
        return Movement(
            lot=lot,
            quantity=quantity,
            value=0,
            other_end="found",
            effect="base",
            count_action=count,
            reason=reason,
        )
    if loss_end == "evaporated":
        return Movement(
            lot=lot,
            quantity=quantity,
            value=0,
            other_end="evaporated",
            effect="base",
            count_action=count,
            reason=reason,
        )
    return Movement(lot=lot, quantity=quantity, other_end=loss_end, count_action=count, reason=reason)


def _keep_counts(store: Store, movements: list[Movement]) -> list[Movement]:
    """Reverse and book anew the difference of the first later count of each lot that moves before it."""
    moved: dict[tuple[int, int], int] = defaultdict(int)
    counts: dict[tuple[int, int], tuple[str, str, str | None, str]] = {}
    for movement in movements:
        if movement.lot < 0 or not movement.quantity:
            continue
        found = ledger.first_count_after(store, movement.lot, movement.at)
        if found is not None:
            number, day, _, loss_end, reason = found
            moved[movement.lot, number] += movement.quantity
            counts[movement.lot, number] = (day, loss_end, reason, _count_moment(store, number))
    kept = list(movements)
    for (lot, number), quantity in moved.items():
        if not quantity:
            continue
        day, loss_end, reason, at = counts[lot, number]
        stands_at, value = ledger.count_difference(store, lot, number)
        if stands_at or value:
            kept.append(
                Movement(
                    lot=lot,
                    quantity=-stands_at,
                    value=-value,
                    effect="base",
                    day=day,
                    at=at,
                    count_action=number,
                    reason=reason,
                    other_end=_end_of(stands_at, loss_end),
                )
            )
        anew = stands_at - quantity
        if anew:
            kept.append(replace(_difference(lot, anew, loss_end, reason, number), day=day, at=at))
    return kept


def _end_of(difference: int, loss_end: str) -> str:
    return "found" if difference > 0 else loss_end


def _count_moment(store: Store, number: int) -> str:
    row = store.row("SELECT at FROM action WHERE number = :n", n=number)
    return str(row["at"]) if row else ""


def _test_days(store: Store, movements: list[Movement]) -> None:
    """Refuse what would leave a lot with less than nothing at the end of any day from the first it touches on."""
    by_lot: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for movement in movements:
        if movement.lot > 0:
            by_lot[movement.lot][movement.day] += movement.quantity
    for lot_id, moves in by_lot.items():
        if all(quantity >= 0 for quantity in moves.values()):
            continue
        first = min(moves)
        later = dict(ledger.later_days(store, lot_id, first))
        held = ledger.balances(store, [lot_id])[lot_id].quantity - sum(later.values())
        for day in sorted({*moves, *later}):
            held += moves.get(day, 0) + (later.get(day, 0) if day > first else 0)
            if held < 0:
                lot = lot_by_id(store, lot_id)
                missing = show(Quantity(lot.material.dimension, -held))
                raise Refused(
                    f"On {day} the books would hold {missing} less than nothing in {lot.code} ({lot.material.name}): "
                    f"{_standing_on(store, lot_id, day)} stands on it. Nothing was changed.",
                    lot=lot.code,
                    day=day,
                )


def _standing_on(store: Store, lot_id: int, day: str) -> str:
    """Name the first action that draws on a lot from a day on."""
    row = store.row(
        "SELECT action.code, action.kind FROM entry JOIN action ON action.number = entry.action_number "
        "WHERE entry.lot_id = :lot AND entry.day >= :day AND entry.quantity < 0 ORDER BY entry.action_number DESC",
        lot=lot_id,
        day=day,
    )
    return f"action {row['code']} ({row['kind']})" if row else "a later action"


def _begin_lots(store: Store, draft: Draft, number: int) -> tuple[dict[int, int], dict[int, str]]:
    ids: dict[int, int] = {}
    codes: dict[int, str] = {}
    for lot in draft.new_lots:
        _, code = give_code(store, "L")
        ids[lot.key] = ledger.insert_lot(store, lot, code, number, draft.occasion.by)
        codes[lot.key] = code
    return ids, codes


def _renamed(movement: Movement, ids: dict[int, int]) -> Movement:
    other = movement.other_lot
    return replace(
        movement,
        lot=ids.get(movement.lot, movement.lot),
        other_lot=other if other is None else ids.get(other, other),
    )


def _price(movements: list[Movement], store: Store) -> list[Movement]:
    """Give every movement its value, what comes in before what goes out, and leave no value in an empty lot."""
    tally = Tally(ledger.balances(store, {movement.lot for movement in movements}))
    drawn_for: dict[int, int] = defaultdict(int)
    priced: dict[int, Movement] = {}
    # An entry that brings in may take its value from draws of the same action, but never from its own lot: the order
    # in which they are priced is in before out for each lot, and draws before what is made of them.
    for index in _pricing_order(movements):
        movement = movements[index]
        if movement.value is None and movement.effect == "draw":
            movement = replace(movement, value=-tally.draw(movement.lot, -movement.quantity))
        else:
            value = drawn_for[movement.lot] if movement.value is None else movement.value
            movement = replace(movement, value=value)
            tally.apply(movement.lot, movement.quantity, value, movement.effect)
        if movement.other_lot is not None and movement.value is not None and movement.value < 0:
            drawn_for[movement.other_lot] -= movement.value
        priced[index] = movement
    ordered = [priced[index] for index in sorted(priced, key=lambda i: (_goes_out(movements[i]), i))]
    return ordered + _without_value(ordered, tally)


def _goes_out(movement: Movement) -> bool:
    return movement.quantity < 0 or (movement.quantity == 0 and (movement.value or 0) < 0)


def _pricing_order(movements: list[Movement]) -> Iterable[int]:
    def rank(index: int) -> tuple[int, int]:
        movement = movements[index]
        if movement.value is None and movement.effect == "base":
            return (2, index)
        return (1 if _goes_out(movement) else 0, index)

    return sorted(range(len(movements)), key=rank)


def _without_value(movements: list[Movement], tally: Tally) -> list[Movement]:
    """Carry what an emptied lot still holds in value to the differences, so that nothing is worth nothing."""
    last = {movement.lot: movement for movement in movements}
    left: list[Movement] = []
    for lot, movement in last.items():
        balance = tally.balance(lot)
        if balance.quantity == 0 and balance.value:
            left.append(
                replace(
                    movement,
                    quantity=0,
                    value=-balance.value,
                    effect="base",
                    other_end="difference",
                    other_lot=None,
                    job_id=None,
                    reverses=None,
                    refers=None,
                    count_action=None,
                )
            )
    return left


def _record_facts(store: Store, number: int, draft: Draft, ids: dict[int, int], movements: list[Movement]) -> None:
    """Record the draft's facts, and that a lot was used up or is back on the shelf."""
    facts = [(ids.get(lot, lot), name, value) for lot, name, value in draft.facts]
    spoken_for = {lot for lot, name, _ in facts if name == "state"}
    day = draft.occasion.day.isoformat()
    for lot_id in sorted({movement.lot for movement in movements} - spoken_for):
        lot = lot_by_id(store, lot_id)
        if lot.balance.quantity == 0 and lot.state == "on the shelf":
            if lot.over_solid:
                facts.append((lot_id, "state", "solid only"))
            else:
                facts += [
                    (lot_id, "state", "ended"),
                    (lot_id, "ended_on", day),
                    (lot_id, "ended_why", "used up"),
                ]
        elif lot.balance.quantity > 0 and lot.state != "on the shelf":
            facts.append((lot_id, "state", "on the shelf"))
            if lot.ended_on is not None:
                facts += [(lot_id, "ended_on", None), (lot_id, "ended_why", None)]
    for position, (lot_id, name, value) in enumerate(facts, 1):
        ledger.insert_fact(store, number, position, lot_id, name, value)
