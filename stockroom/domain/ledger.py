"""The ledger's values: movements of a lot, the action they belong to, and how a draw is priced."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from stockroom.domain.lots import Balance, NewLot
from stockroom.domain.occasion import Occasion
from stockroom.errors import Refused

Place = tuple[int, int]
"""An entry's address: action number and position within the action."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """So much of one lot, in or out, with both ends of its value.

    `value` is None for a draw (priced when it is posted) and for a jar that takes the value of what was drawn for
    it. A lot about to begin is named by its negative key.
    """

    lot: int
    quantity: int
    other_end: str
    value: int | None = None
    other_lot: int | None = None
    job_id: int | None = None
    reason: str | None = None
    effect: str = "draw"
    day: str = ""
    at: str = ""
    standing: int | None = None
    """The action in whose order it stands among entries of one moment; None for the action being posted."""
    reverses: Place | None = None
    refers: Place | None = None
    count_action: int | None = None
    """The count whose difference this is; 0 for the action being posted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the ledger as it stands."""

    place: Place
    lot: int
    quantity: int
    value: int
    other_end: str
    other_lot: int | None
    job_id: int | None
    reason: str | None
    effect: str
    day: str
    at: str
    standing: int
    reverses: Place | None
    refers: Place | None
    count_action: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What was counted in one lot, and how."""

    lot: int
    quantity: int
    method: str
    other_end: str = "waste"
    """Where a loss goes: waste, or evaporated where only water went."""
    reason: str | None = None
    day: str = ""
    at: str = ""
    """When it was counted, where that is not when the action happened: a line of a round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A count as it is kept: it pins what a lot held at its moment."""

    action: int
    code: str
    """Of the action."""
    lot: int
    day: str
    at: str
    quantity: int
    loss_end: str
    reason: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reworked:
    """A count whose difference changed because something before it was booked, undone or put right."""

    count: Count
    was: int
    became: int
    """Counted less what the books said: below nothing for a loss."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """How a lot stands, as far as its state follows from what it holds."""

    id: int
    kind: str
    state: str
    over_solid: bool
    look_for: str | None
    quantity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class JarCheck:
    """A check of one lot as it is kept: what was read (JSON), the verdict and its reasoning."""

    lot: int
    method: str
    readings: str
    verdict: str
    why: str


NO_REASON = "no reason given"
"""How an entry without a reason is told among others."""
Fact = tuple[int, str, str | int | None]
"""Lot, field, new value."""


def fact_text(value: str | int | None) -> str | None:
    """Write the value of a fact, such as a date."""
    return None if value is None else str(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """An action about to be posted: what moves, what begins, what changes."""

    kind: str
    occasion: Occasion
    movements: tuple[Movement, ...] = ()
    new_lots: tuple[NewLot, ...] = ()
    facts: tuple[Fact, ...] = ()
    """Lot, field, new value."""
    counted: tuple[Counted, ...] = ()
    checks: tuple[JarCheck, ...] = ()
    objects: tuple[int, ...] = ()
    job_id: int | None = None
    version_id: int | None = None
    booking_id: int | None = None
    order_id: int | None = None
    undoes: int | None = None
    loan: tuple[str, str | None] | None = None
    details: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Posted:
    """An action as it was booked."""

    number: int
    code: str
    lots: dict[int, str]
    """Key of each lot that began, and its code."""
    entries: tuple[Entry, ...]
    reworked: tuple[Reworked, ...] = ()
    """The counts that had to be kept as counted."""


def price_draw(balance: Balance, quantity: int) -> int:
    """Return the value, in minor units, that a draw of `quantity` takes from a lot.

    V x D / Q to the nearest unit, less what the draws since the base have taken already, where Q and V are the lot's
    quantity and value at its base and D is all drawn since, this draw included; the draw that empties takes what is
    left. Never more than is held, never less than nothing.

    Halves go up, always: then equal draws differ by at most one unit whatever was drawn between them. Halves to even
    would not hold that (20 pieces worth 10: after a draw of 1, two draws of 2 would cost 2 and 0).
    """
    if quantity >= balance.quantity:
        return balance.value
    drawn = balance.base_quantity - balance.quantity + quantity
    taken = balance.base_value - balance.value
    due = (2 * balance.base_value * drawn + balance.base_quantity) // (2 * balance.base_quantity)
    return max(0, min(due - taken, balance.value))


class Tally:
    """Balances as they change while an action is put together, by the same rules as the database's trigger."""

    def __init__(self, balances: dict[int, Balance]) -> None:
        self._balances = dict(balances)

    def balance(self, lot: int) -> Balance:
        return self._balances.get(lot, Balance())

    def draw(self, lot: int, quantity: int) -> int:
        """Take a positive quantity out; return the value that goes with it."""
        before = self.balance(lot)
        value = price_draw(before, quantity)
        self.apply(lot, -quantity, -value, "draw")
        return value

    def apply(self, lot: int, quantity: int, value: int, effect: str) -> None:
        """Move a lot's balance. Raises Refused when it would hold less than nothing."""
        before = self.balance(lot)
        after_quantity, after_value = before.quantity + quantity, before.value + value
        if after_quantity < 0 or after_value < 0:
            raise Refused(
                "That would leave a lot with less than nothing. Nothing was changed.",
                lot_id=lot,
            )
        if effect == "draw":
            base_quantity, base_value = before.base_quantity, before.base_value
        else:
            base_quantity, base_value = after_quantity, after_value
        self._balances[lot] = Balance(
            quantity=after_quantity, value=after_value, base_quantity=base_quantity, base_value=base_value
        )
