"""Withdraw a lot, or every lot of a maker's lot number, and release it: what depends on it is unfit with it, at once.

The mark is one fact of each lot, which picking, plans and procedures all ask: none of them offers it any more.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.posting import post
from stockroom.actions.tracing import trace_lots
from stockroom.domain.edits import LeftOpen
from stockroom.domain.ledger import Draft, Fact
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.domain.trace import Trace
from stockroom.errors import BadInput, Refused
from stockroom.planning.fitness import HOLDS_WITHDRAWN, WITHDRAWN, is_withdrawn
from stockroom.store.left_open import loans_out
from stockroom.store.lots import find_lot, lots_of_maker
from stockroom.store.open import Store
from stockroom.store.tracing import said_over_time


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall(ActionOutcome):
    """What was withdrawn or released, and what it reached."""

    kind: str
    """withdraw or release."""
    lots: tuple[Lot, ...]
    """The lots themselves."""
    marked: tuple[Lot, ...]
    """Every lot whose mark changed, those themselves first; as they are now."""
    trace: Trace
    lent: tuple[LeftOpen, ...] = ()
    """Loans of any of it that are not back."""

    @property
    def to_pull(self) -> tuple[Lot, ...]:
        """What holds some, if only its solid, and has to be taken off the shelf, or may go back there."""
        return tuple(
            lot for lot in self.marked if not lot.ended and (lot.balance.quantity or lot.state == "solid only")
        )


def withdraw(
    store: Store,
    occasion: Occasion,
    code: str | None = None,
    *,
    maker_lot: str | None = None,
    material: str | None = None,
    dry_run: bool = False,
    confirmed: Recall | None = None,
) -> Recall:
    """Mark lots unfit, used-up ones too, and all that holds some of them.

    Raises BadInput without a reason or where not exactly one of code and maker's lot number is given, NotFound,
    Refused where all of it is withdrawn already.
    """
    if not (occasion.reason or "").strip():
        raise BadInput("Why is it withdrawn? Say --why, for example --why 'recalled by the maker'.")

    def build(booked_at: datetime) -> Recall:
        named = _named(store, code, maker_lot, material)
        return _recalled(store, occasion, "withdraw", *_to_withdraw(store, occasion, named), booked_at)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def release(
    store: Store,
    occasion: Occasion,
    code: str | None = None,
    *,
    maker_lot: str | None = None,
    material: str | None = None,
    dry_run: bool = False,
    confirmed: Recall | None = None,
) -> Recall:
    """Take the mark off lots that were withdrawn and off what holds some of them, save what another one still marks.

    What spoke against a lot before speaks against it again. Raises BadInput without a reason, NotFound, Refused for
    what is not withdrawn itself.
    """
    if not (occasion.reason or "").strip():
        raise BadInput("Why is it released? Say --why, for example --why 'tested, as labelled'.")

    def build(booked_at: datetime) -> Recall:
        named = _named(store, code, maker_lot, material)
        return _recalled(store, occasion, "release", *_to_release(store, named), booked_at)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


Marks = dict[int, str | None]
"""By a lot's id, why it is unfit from now on."""


def _to_withdraw(store: Store, occasion: Occasion, named: list[Lot]) -> tuple[list[Lot], Marks]:
    """Return which of the named lots are withdrawn by this, and the marks of all that change theirs."""
    fresh = [lot for lot in named if not _itself(lot)]
    if not fresh:
        raise Refused(f"{_codes(named)}: withdrawn already. 'stockroom release' ends that, with a reason.")
    marks: Marks = {lot.id: f"{WITHDRAWN}{occasion.reason}" for lot in fresh}
    for lot in fresh:
        for one in trace_lots(store, [lot], lot.code).lots_reached:
            if not is_withdrawn(one.lot) and one.lot.id not in marks:
                marks[one.lot.id] = f"{HOLDS_WITHDRAWN}{lot.code}, {WITHDRAWN}{occasion.reason}"
    return fresh, marks


def _to_release(store: Store, named: list[Lot]) -> tuple[list[Lot], Marks]:
    """Return which of the named lots are released by this, and the marks of all that change theirs."""
    lots = [lot for lot in named if _itself(lot)]
    if not lots:
        hint = next((lot.unfit for lot in named if is_withdrawn(lot)), None)
        why = f" It is unfit, since it {hint}: release that one." if hint else ""
        raise Refused(f"{_codes(named)}: not withdrawn.{why}")
    released = {lot.id for lot in lots}
    touched = {one.lot.id: one.lot for one in trace_lots(store, lots, "").lots_reached}
    touched |= {lot.id: lot for lot in lots}
    return lots, {
        lot.id: _still_held(store, lot, released) or _before(store, lot)
        for lot in touched.values()
        if is_withdrawn(lot) and (lot.id in released or not _itself(lot))
    }


def _named(store: Store, code: str | None, maker_lot: str | None, material: str | None) -> list[Lot]:
    if (code is None) == (maker_lot is None):
        raise BadInput("Which? Say the code of a lot, or --maker-lot NUMBER.")
    return [find_lot(store, code)] if code is not None else lots_of_maker(store, maker_lot or "", material)


def _itself(lot: Lot) -> bool:
    return (lot.unfit or "").startswith(WITHDRAWN)


def _still_held(store: Store, lot: Lot, released: set[int]) -> str | None:
    """Return the mark of another lot behind this one that is still withdrawn itself."""
    for one in trace_lots(store, [lot], "").lots_behind:
        if _itself(one.lot) and one.lot.id not in released:
            return f"{HOLDS_WITHDRAWN}{one.lot.code}, {one.lot.unfit}"
    return None


def _before(store: Store, lot: Lot) -> str | None:
    """Return what spoke against a lot before it was withdrawn."""
    said = reversed(said_over_time(store, lot.id, "unfit"))
    return next((text for text in said if not (text or "").startswith((WITHDRAWN, HOLDS_WITHDRAWN))), None)


def _recalled(
    store: Store, occasion: Occasion, kind: str, lots: list[Lot], marks: Marks, booked_at: datetime
) -> Recall:
    facts: Iterable[Fact] = ((lot, "unfit", mark) for lot, mark in marks.items())
    details = {"lots": [lot.code for lot in lots], "marked": len(marks)}
    draft = Draft(kind=kind, occasion=occasion, facts=tuple(facts), details=details)
    posted = post(store, draft, booked_at)
    now = [find_lot(store, lot.code) for lot in lots]
    traced = trace_lots(store, now, _codes(now))
    others = [one.lot for one in traced.lots_reached if one.lot.id in marks]
    marked = (*now, *others)
    codes = {lot.code for lot in marked}
    lent = tuple(loan for loan in loans_out(store) if loan.lot in codes)
    return Recall(kind=kind, lots=tuple(now), marked=marked, trace=traced, lent=lent, action=posted.code)


def _codes(lots: Iterable[Lot]) -> str:
    return ", ".join(f"{lot.code} {lot.material.name}" for lot in lots)
