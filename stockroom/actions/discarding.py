"""Throw some of a lot away, all of it, or what is left of it: down the drain, into the bin or into a waste can."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from stockroom.actions.carrying_out import carry_out
from stockroom.actions.contents import thing_of
from stockroom.actions.lots_here import refuse_ended, refuse_not_yet_here
from stockroom.actions.taking import Taking, beyond_the_books, read_amount_of, taken
from stockroom.actions.waste_cans import refuse_against, refuse_full, room_for
from stockroom.domain.ledger import Draft, Fact, Movement
from stockroom.domain.occasion import Occasion
from stockroom.domain.waste import BIN, DRAIN, WasteCan
from stockroom.errors import BadInput, Refused
from stockroom.science.cautions import cautions_for_waste
from stockroom.store import ledger
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.store.waste_cans import find_waste_can, poured_into


def discard(
    store: Store,
    occasion: Occasion,
    code: str,
    typed: str | None = None,
    *,
    to: str | None = None,
    room: str | None = None,
    all_the_same: str | None = None,
    dry_run: bool = False,
    confirmed: Taking | None = None,
) -> Taking:
    """Throw some of a lot away, or all of it and end it. The reason is the occasion's.

    `to` is drain, bin, or a waste can by its code or the words on it; its value is wasted in any case. `room` is what
    it takes up in a can, where it is not measured by volume or mass. Raises BadInput, NotFound for a can that is not
    there, Short, and Refused for a can too full, or against a caution without a reason (`all_the_same`).
    """
    if not occasion.reason:
        raise BadInput("Why is it thrown away? Say --why, for example --why 'past its date'.")

    def build(booked_at: datetime) -> Taking:
        lot = find_lot(store, code)
        refuse_ended(lot)
        if lot.kind == "waste can":
            raise Refused(
                f"{lot.code} ({lot.material.name}) is a waste can: it is not poured out or into another. When it was "
                f"emptied or collected by local rules: 'stockroom waste-can collected {lot.code}'."
            )
        refuse_not_yet_here(store, lot, occasion)
        day = occasion.day.isoformat()
        held = ledger.available(store, lot.id, occasion)
        quantity = read_amount_of(lot, typed).quantity.quanta if typed else held
        if quantity > held:
            beyond_the_books(store, occasion, lot, quantity)
        can = _can(store, to)
        in_can = [thing_of(store, one.lot) for one in poured_into(store, can)] if can else []
        cautions = cautions_for_waste([thing_of(store, lot)], in_can, can_is_vented=can is None or can.vented)
        details: dict[str, object] = {"to": can.lot.code if can else to.strip().casefold()} if to else {}
        movements = [Movement(lot=lot.id, quantity=-quantity, other_end="waste", reason=occasion.reason)]
        if can:
            takes_up = room_for(lot, quantity, room)
            refuse_full(can, takes_up, occasion)
            details |= refuse_against(cautions, all_the_same)
            movements.append(
                Movement(
                    lot=can.lot.id,
                    quantity=takes_up.quanta,
                    value=0,
                    other_end="found",
                    effect="base",
                    reason=f"poured in from {lot.code}",
                )
            )
        ending: tuple[Fact, ...] = (
            (lot.id, "state", "ended"),
            (lot.id, "ended_on", day),
            (lot.id, "ended_why", f"discarded: {occasion.reason}"),
        )
        draft = Draft(
            kind="discard",
            occasion=occasion,
            movements=tuple(movements) if quantity else (),
            facts=ending if typed is None else (),
            details=details,
        )
        gone = taken(store, draft, lot, None, None, booked_at)
        return replace(gone, to=str(details["to"]) if to else None, cautions=cautions)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _can(store: Store, to: str | None) -> WasteCan | None:
    """Return the can that is meant; None for drain, bin, and where nobody said."""
    if to is None or to.strip().casefold() in (DRAIN, BIN):
        return None
    return find_waste_can(store, to)
