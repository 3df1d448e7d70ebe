"""Whether something can be done with a lot at all: it is still here, and was on that day."""

from __future__ import annotations

from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import Refused
from stockroom.planning.fitness import fitness
from stockroom.store import ledger
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


def lot_here(store: Store, occasion: Occasion, code: str) -> Lot:
    """Find a lot that is there on the day. Raises NotFound, Unreadable, Refused where it has ended or came later."""
    lot = find_lot(store, code)
    refuse_ended(lot)
    refuse_not_yet_here(store, lot, occasion)
    return lot


def unfit_all_the_same(lot: Lot, occasion: Occasion) -> str | None:
    """Return why a lot is not fit, where a reason to use it was given all the same; raise Refused where none was."""
    verdict = fitness(lot, occasion.local)
    if verdict.fit or verdict.kind == "empty":
        return None
    if not occasion.reason:
        raise Refused(
            f"{lot.code} ({lot.material.name}) is not fit to use: {verdict.why}. Take another, or say why this one "
            "all the same with --why; the reason stays in the record.",
            lot=lot.code,
        )
    return verdict.why


def refuse_waste_can(lot: Lot) -> None:
    """Raise Refused for a waste can: it is neither stock that is opened nor a solution that is checked."""
    if lot.kind == "waste can":
        raise Refused(
            f"{lot.code} ({lot.material.name}) is a waste can, not stock: 'stockroom waste-can show {lot.code}' tells "
            "what is in it."
        )


def refuse_ended(lot: Lot) -> None:
    """Raise Refused where a lot has ended."""
    if lot.ended:
        raise Refused(
            f"{lot.code} ({lot.material.name}) ended on {lot.ended_on}: {lot.ended_why}. Take its label off, "
            "or put right what ended it."
        )


def refuse_not_yet_here(store: Store, lot: Lot, occasion: Occasion) -> None:
    """Raise Refused where a lot came only after the day on which something is said to have happened to it."""
    # what was booked late for a closed day came earlier than its first entry
    came = min(ledger.first_day(store, lot.id), (lot.received_on or lot.made_at or "9999")[:10])
    if occasion.day.isoformat() < came:
        raise Refused(
            f"{lot.code} ({lot.material.name}) came on {came} and was not here yet on {occasion.day}. Say when it "
            "happened with --day.",
            lot=lot.code,
        )
