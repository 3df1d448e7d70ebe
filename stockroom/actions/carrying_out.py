"""Carry an action out, all or nothing; or show the very plan that would be booked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Protocol, Self, TypeVar

from stockroom.errors import PlanChanged
from stockroom.store.open import Store


class Outcome(Protocol):
    """What carrying something out gives back: everything a person confirms, and what only a booking has."""

    def as_plan(self) -> Self:
        """Return the same without the codes that only a booking gives."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class ActionOutcome:
    """What an action of the ledger gives back."""

    action: str | None = None
    """Its code; None while it is only a plan."""

    def as_plan(self) -> Self:
        """Return the same without the codes that only a booking gives."""
        return replace(self, action=None)


Kind = TypeVar("Kind", bound=Outcome)


class _NotBooked(Exception):
    """Ends the transaction of a dry run; never leaves this file."""

    def __init__(self, outcome: Outcome) -> None:
        super().__init__()
        self.outcome = outcome


def carry_out(
    store: Store,
    build: Callable[[datetime], Kind],
    *,
    dry_run: bool = False,
    confirmed: Kind | None = None,
    together: bool = False,
) -> Kind:
    """Run `build` under the write lock and keep what it booked; with `together`, actions of its own are steps of it.

    A dry run goes through the same steps and takes all of it back, so that what it shows is what would be booked.
    With `confirmed`, the plan a person has agreed to, nothing is booked unless it comes out the same: otherwise
    PlanChanged carries the new plan. `build` has no effect outside the database.
    """
    try:
        with store.write_together() if together else store.write() as booked_at:
            outcome = build(booked_at)
            if confirmed is not None and outcome.as_plan() != confirmed.as_plan():
                raise PlanChanged(
                    "The shelf changed since this plan was shown. Nothing was booked; here is the plan as it is now.",
                    plan=outcome.as_plan(),
                )
            if dry_run:
                raise _NotBooked(outcome)
    except _NotBooked as ending:
        plan: Kind = ending.outcome.as_plan()  # type: ignore[assignment]
        return plan
    return outcome
