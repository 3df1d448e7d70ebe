"""Post an action: price its draws, keep every count as counted, test every day, and seal it.

Everything here runs inside one `write()`. What a draft says about quantities is final; values of draws are worked
out here, in the order in which they are booked.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import TypeVar

from stockroom.actions.closed_days import out_of_closed_days
from stockroom.actions.keeping_counts import count_differences, keep_counts
from stockroom.domain.ledger import Counted, Draft, Fact, Holding, Movement, Posted, Tally
from stockroom.domain.lots import Balance
from stockroom.domain.occasion import utc_text
from stockroom.errors import Refused
from stockroom.science.quantities import Quantity, show
from stockroom.store import ledger
from stockroom.store.checks import insert_check
from stockroom.store.codes import give_code, keep_code
from stockroom.store.counts import insert_count
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store
from stockroom.store.seals import seal

Dated = TypeVar("Dated", Movement, Counted)


def post(store: Store, draft: Draft, booked_at: datetime) -> Posted:
    """Book one action, whole, and return it as booked.

    Raises Refused when a lot would hold less than nothing on any day, in quantity or in value.
    """
    day, at = draft.occasion.day.isoformat(), draft.occasion.at_text
    counted = [_dated(one, day, at) for one in draft.counted]
    movements = [_dated(movement, day, at) for movement in draft.movements]
    if any(movement.lot == movement.other_lot for movement in movements):
        raise Refused("A lot cannot be poured into itself. Nothing was changed.")
    movements += count_differences(store, counted, movements)
    kept, reworked = keep_counts(store, movements)
    movements += kept
    draft, movements = out_of_closed_days(store, draft, counted, movements)
    held = ledger.balances(store, {movement.lot for movement in movements})
    _test_days(store, movements, held)
    number, code = give_code(store, "A")
    ledger.insert_action(store, number, code, draft, utc_text(booked_at))
    ids, codes = _begin_lots(store, draft, number)
    priced = _price([_renamed(movement, ids) for movement in movements] if ids else movements, held, store)
    ledger.insert_entries(store, number, priced)
    for one in counted:
        difference = sum(m.quantity for m in priced if m.count_action == 0 and m.lot == one.lot)
        insert_count(store, number, one, one.quantity - difference)
    for check in draft.checks:
        insert_check(store, number, check)
    _record_facts(store, number, draft, ids, priced)
    seal(store, number)
    entries = tuple(ledger.entries_of_action(store, number))
    return Posted(number=number, code=code, lots=codes, entries=entries, reworked=reworked)


def _dated(thing: Dated, day: str, at: str) -> Dated:
    return thing if thing.day else replace(thing, day=day, at=at)


def _test_days(store: Store, movements: Sequence[Movement], balances: dict[int, Balance]) -> None:
    """Refuse what would leave a lot with less than nothing at the end of any day from the first it touches on.

    `balances` are those of the lots before anything moves.
    """
    by_lot: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for movement in movements:
        if movement.lot > 0:
            by_lot[movement.lot][movement.day] += movement.quantity
    for lot_id, moves in by_lot.items():
        if all(quantity >= 0 for quantity in moves.values()):
            continue
        first = min(moves)
        later = dict(ledger.later_days(store, lot_id, first))
        held = balances[lot_id].quantity - sum(later.values())
        for day in sorted({*moves, *later}):
            held += moves.get(day, 0) + (later.get(day, 0) if day > first else 0)
            if held < 0:
                _refuse_day(store, lot_id, day, -held)


def _refuse_day(store: Store, lot_id: int, day: str, missing: int) -> None:
    lot = lot_by_id(store, lot_id)
    standing = ledger.last_draw_on(store, lot_id, day)
    stands = f" Action {standing} stands on it." if standing else ""
    raise Refused(
        f"On {day} {lot.code} ({lot.material.name}) would hold {show(Quantity(lot.material.dimension, missing))} less "
        f"than nothing.{stands} Nothing was changed.",
        lot=lot.code,
        day=day,
    )


def _begin_lots(store: Store, draft: Draft, number: int) -> tuple[dict[int, int], dict[int, str]]:
    ids: dict[int, int] = {}
    codes: dict[int, str] = {}
    for lot in draft.new_lots:
        code = give_code(store, "L")[1] if lot.code is None else keep_code(store, lot.code)
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


def _price(movements: list[Movement], held: dict[int, Balance], store: Store) -> list[Movement]:
    """Give every movement its value, put what comes in before what goes out, and leave no value in an empty lot."""
    tally = Tally(held)
    priced = _with_values(movements, tally, store)
    ordered = [priced[index] for index in sorted(range(len(priced)), key=lambda i: (_goes_out(movements[i]), i))]
    ordered += _without_value(ordered, tally)
    if sum(movement.value or 0 for movement in ordered if movement.other_end == "lot"):
        raise RuntimeError("what went out of lots into lots is not what came in")
    return ordered


def price_ahead(store: Store, draft: Draft) -> list[Movement]:
    """Return a draft's movements with the values that posting them would give; refuse what posting would refuse."""
    day, at = draft.occasion.day.isoformat(), draft.occasion.at_text
    movements = [_dated(movement, day, at) for movement in draft.movements]
    kept, _ = keep_counts(store, movements)
    movements += kept
    _, movements = out_of_closed_days(store, draft, (), movements)
    held = ledger.balances(store, {movement.lot for movement in movements})
    _test_days(store, movements, held)
    tally = Tally(held)
    return _with_values(movements, tally, store)[: len(draft.movements)]


def _with_values(movements: list[Movement], tally: Tally, store: Store) -> list[Movement]:
    """Give every movement its value, in the order in which they were given.

    Raises Refused where a lot does not hold what goes out of it.
    """
    try:
        return _valued(movements, tally)
    except Refused as trouble:
        lot = lot_by_id(store, trouble.details["lot_id"])
        raise Refused(
            f"That would take more out of {lot.code} ({lot.material.name}) than it holds, in amount or in value: "
            "what was booked later has used it. Nothing was changed.",
            lot=lot.code,
        ) from trouble


def _valued(movements: list[Movement], tally: Tally) -> list[Movement]:
    drawn_for: dict[int, int] = defaultdict(int)
    priced = list(movements)
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
    return priced


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
    """Record how new lots stand, the draft's facts, and what follows from how much each lot holds now."""
    facts: list[Fact] = [
        (ids[new.key], name, new.fields[name])
        for new in draft.new_lots
        for name in ledger.LOT_FACTS
        if new.fields.get(name) is not None
    ]
    facts += [(ids.get(lot, lot), name, value) for lot, name, value in draft.facts]
    touched = {movement.lot for movement in movements} | {lot for lot, name, _ in facts if name == "state"}
    seen = _seen(draft, movements, facts)
    holdings = ledger.holdings(store, touched | seen)
    for lot_id in sorted(touched):
        facts = _with_state(holdings[lot_id], facts, draft.occasion.day.isoformat())
    facts += [(lot_id, "look_for", None) for lot_id in sorted(seen) if holdings[lot_id].look_for]
    for position, (lot_id, name, value) in enumerate(facts, 1):
        ledger.insert_fact(store, number, position, lot_id, name, value)


def _with_state(lot: Holding, facts: list[Fact], day: str) -> list[Fact]:
    """Keep the state that is spoken for where it agrees with what the lot holds; otherwise put the one that does."""
    holds = lot.quantity > 0
    spoken = [value for lot_id, name, value in facts if lot_id == lot.id and name == "state"]
    if spoken and (spoken[-1] == "on the shelf") == holds:
        return facts
    if lot.kind == "waste can" and not holds:
        return facts  # a can begins empty
    kept = [fact for fact in facts if fact[0] != lot.id or fact[1] not in ("state", "ended_on", "ended_why")]
    if holds and lot.state == "on the shelf":
        return kept
    if holds:
        return [*kept, (lot.id, "state", "on the shelf"), (lot.id, "ended_on", None), (lot.id, "ended_why", None)]
    if lot.state != "on the shelf":
        return kept
    if lot.over_solid:
        return [*kept, (lot.id, "state", "solid only")]
    return [*kept, (lot.id, "state", "ended"), (lot.id, "ended_on", day), (lot.id, "ended_why", "used up")]


def _seen(draft: Draft, movements: list[Movement], facts: list[Fact]) -> set[int]:
    """Return the lots that are found if they were looked for: counted, moved or drawn."""
    seen = {m.lot for m in movements if m.quantity and m.reverses is None and m.count_action in (None, 0)}
    seen |= {one.lot for one in draft.counted} | {lot for lot, name, _ in facts if name == "place_id"}
    return seen - {lot for lot, name, _ in facts if name == "look_for"}
