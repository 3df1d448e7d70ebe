"""Count what is in a lot: the difference is booked, never overwritten, and the count pins the amount at its moment."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.lots_here import refuse_ended
from stockroom.actions.posting import post
from stockroom.actions.restating import READING_ERROR, not_known_since, strength_after_evaporation
from stockroom.actions.taking import read_amount_of
from stockroom.actions.weighing import Weighed, weigh_lot
from stockroom.domain.ledger import Counted, Draft, Fact, Posted, Reworked
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.science.quantities import Quantity, show
from stockroom.store import counts
from stockroom.store.history import recipe_of_lot
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.open import Store
from stockroom.store.tracing import lots_behind

METHODS = ("measured", "weighed", "by eye")
EMPTY_REASONS = ("measured short", "evaporated", "not booked", "unknown")
"""Why a lot is empty although the books hold some; losses are reported by them."""
_COUNTED_AGAIN = ("used up", "empty")
"""How a lot ended that may turn out to hold some after all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counting(ActionOutcome):
    """What was found in one lot, and what the books said; the difference's value in minor units."""

    code: str
    name: str
    counted: Quantity
    books_said: Quantity
    value: int
    """Below nothing for a loss."""
    ended: bool
    strength: str | None
    weighed: Weighed | None = None
    """What the gross weight said, where it was counted by that."""
    reworked: tuple[Reworked, ...] = ()

    @property
    def difference(self) -> Quantity:
        return self.counted - self.books_said


def count(
    store: Store,
    occasion: Occasion,
    code: str,
    typed: str | None = None,
    *,
    method: str = "measured",
    evaporated: bool = False,
    empty: bool = False,
    gross: str | None = None,
    density: str | None = None,
    dry_run: bool = False,
    confirmed: Counting | None = None,
) -> Counting:
    """Book what was found in a lot, typed or by its gross weight; or, with `empty`, that nothing is left.

    Less than the books say is waste with its share of value, more is found without value. With `evaporated` only
    water went: the value stays and the strength is not known any more. Raises BadInput, Unreadable, Refused.
    """
    if (typed is not None) + (gross is not None) + empty != 1:
        raise BadInput("Say one of: how much was found, --gross with its weight, or --empty with its reason.")
    if density is not None and gross is None:
        raise BadInput("--density goes with --gross: it turns the weight into a volume.")
    if empty and occasion.reason not in EMPTY_REASONS:
        raise BadInput(f"Why is it empty? Say --why {' | '.join(repr(reason) for reason in EMPTY_REASONS)}.")
    check_method(method)

    def build(booked_at: datetime) -> Counting:
        lot = find_lot(store, code)
        refuse_uncountable(store, lot, occasion)
        if empty:
            refuse_ended(lot)
        weighed = weigh_lot(store, lot, gross, density) if gross is not None else None
        if weighed is not None:
            quantity = weighed.held(counts.held_at(store, lot.id, occasion.at_text))
        else:
            quantity = 0 if typed is None else _read(lot, typed)
        how = "weighed" if weighed else method
        facts: list[Fact] = []
        reckoned: dict[str, object] = {}
        loss_end, reason = "waste", occasion.reason
        if evaporated:
            _refuse_more(store, lot, occasion, quantity)
            reason = occasion.reason or "evaporated"
            stays = not empty and lot.is_jar and solute_stays(store, lot)
            if stays:
                loss_end = "evaporated"
            if lot.strength and not lot.over_solid:
                strength, reckoned = _strength(store, lot, occasion, quantity, how, stays=stays)
                facts.append((lot.id, "strength", strength))
        if empty:
            day = occasion.day.isoformat()
            facts += [(lot.id, "state", "ended"), (lot.id, "ended_on", day), (lot.id, "ended_why", f"empty: {reason}")]
        counted = Counted(lot=lot.id, quantity=quantity, method=how, other_end=loss_end, reason=reason)
        draft = Draft(
            kind="count",
            occasion=occasion,
            counted=(counted,),
            facts=tuple(facts),
            details={
                "typed": typed or gross or "",
                "method": how,
                **({"weighed": weighed.details()} if weighed else {}),
                **reckoned,
            },
        )
        return replace(_outcome(store, post(store, draft, booked_at), lot, quantity), weighed=weighed)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def check_method(method: str) -> None:
    if method not in METHODS:
        raise BadInput(f"'{method}' is not a way of counting. Accepted are {', '.join(METHODS)}.")


def refuse_uncountable(store: Store, lot: Lot, occasion: Occasion) -> None:
    """Raise Refused for a lot that was thrown away, or was not here yet at the moment of counting."""
    if lot.ended and not (lot.ended_why or "").startswith(_COUNTED_AGAIN):
        refuse_ended(lot)
    if not counts.was_here(store, lot.id, occasion.at_text):
        raise Refused(
            f"{lot.code} ({lot.material.name}) was not here yet at {occasion.local:%H:%M} on {occasion.day}. Say when "
            "it was counted with --day DATETHH:MM.",
            lot=lot.code,
        )


def _read(lot: Lot, typed: str) -> int:
    quantity = read_amount_of(lot, typed, allow_zero=True).quantity.quanta
    if not quantity:
        raise BadInput(f"Nothing left in {lot.code}? Then say --empty, and why: {', '.join(EMPTY_REASONS)}.")
    return quantity


def _refuse_more(store: Store, lot: Lot, occasion: Occasion, quantity: int) -> None:
    said = counts.held_at(store, lot.id, occasion.at_text)
    if quantity >= said:
        raise BadInput(
            f"The books say {show(lot.material.quantity(said))}, no more than was found: nothing evaporated. Count it "
            "without --evaporated."
        )


def _strength(
    store: Store, lot: Lot, occasion: Occasion, quantity: int, how: str, *, stays: bool
) -> tuple[str, dict[str, object]]:
    """Return a strength after evaporation: not known any more, or by mass balance where the recipe says so."""
    day, before = occasion.day.isoformat(), lot.strength or ""
    if not stays or recipe_of_lot(store, lot.id).evaporation is None:
        return not_known_since(before, day), {}
    said = counts.held_at(store, lot.id, occasion.at_text)
    strength, grown = strength_after_evaporation(before, said, quantity, how, day)
    if grown is None:
        return strength, {}
    figures = {"was": before, "books_said": said, "low": grown.low, "best": grown.best, "high": grown.high}
    return strength, {"mass_balance": figures | {"reading_error": READING_ERROR[how]}}


def solute_stays(store: Store, jar: Lot) -> bool:
    """Say whether only water leaves a jar: no solvent and nothing that gives off gas is behind it, to any depth."""
    inside = [lot_by_id(store, number) for number in lots_behind(store, jar.id)]
    return not jar.material.vented and not any(lot.material.kind == "solvent" or lot.material.vented for lot in inside)


def _outcome(store: Store, posted: Posted, lot: Lot, quantity: int) -> Counting:
    own = [entry for entry in posted.entries if entry.count_action == posted.number]
    after = lot_by_id(store, lot.id)
    return Counting(
        code=lot.code,
        name=lot.material.name,
        counted=lot.material.quantity(quantity),
        books_said=lot.material.quantity(quantity - sum(entry.quantity for entry in own)),
        value=sum(entry.value for entry in own),
        ended=after.ended,
        strength=after.strength,
        reworked=posted.reworked,
        action=posted.code,
    )
