"""Move a lot, or all of a place, to another place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.lots_here import refuse_ended, refuse_not_yet_here
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Fact
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused, StockroomError
from stockroom.science.lives import life_end, read_life
from stockroom.store.history import recipe_of_lot
from stockroom.store.lots import find_lot, lots_at
from stockroom.store.open import Store
from stockroom.store.studio import find_place


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved(ActionOutcome):
    """What was moved where."""

    codes: tuple[str, ...]
    to: str
    settling: tuple[str, ...]
    """Jars kept over solid that were carried shaken, and are settling again."""


def move(
    store: Store,
    occasion: Occasion,
    what: str,
    to: str,
    *,
    shaken: bool = False,
    dry_run: bool = False,
    confirmed: Moved | None = None,
) -> Moved:
    """Move a lot by its code, or everything at a place by the place's name.

    With `shaken`, jars kept over solid are settling again for as long as their recipe says. Raises NotFound for a
    place or lot that is not here, Refused where nothing is there to move, or some of it came later.
    """

    def build(booked_at: datetime) -> Moved:
        place = find_place(store, to)
        lots = [lot for lot in _named(store, what) if lot.place_id != place.id]
        if not lots:
            raise Refused(f"Nothing to move: all of it is at {place.name} already, or nothing is at {what}.")
        for lot in lots:
            refuse_not_yet_here(store, lot, occasion)
        facts: list[Fact] = [(lot.id, "place_id", place.id) for lot in lots]
        settling: list[str] = []
        for lot in lots:
            wait = recipe_of_lot(store, lot.id).ready_after if shaken and lot.over_solid else None
            if wait:
                facts.append((lot.id, "ready_on", life_end(occasion.local, read_life(wait)).text()))
                settling.append(lot.code)
        posted = post(
            store,
            Draft(kind="move", occasion=occasion, facts=tuple(facts), details={"to": place.name}),
            booked_at,
        )
        return Moved(codes=tuple(lot.code for lot in lots), to=place.name, settling=tuple(settling), action=posted.code)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _named(store: Store, what: str) -> list[Lot]:
    try:
        lot = find_lot(store, what)
    except StockroomError as not_a_lot:
        try:
            return lots_at(store, find_place(store, what).id)
        except StockroomError:
            raise BadInput(f"'{what}' is neither a lot nor a place here. {not_a_lot.message}") from not_a_lot
    refuse_ended(lot)
    return [lot]
