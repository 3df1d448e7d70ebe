"""Opening a bottle: its life once opened begins, by itself or with the first draw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.lots_here import lot_here, refuse_waste_can
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Fact, fact_text
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import Refused
from stockroom.planning.shelf_life import opened_limits
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened(ActionOutcome):
    """A bottle that was opened."""

    code: str
    name: str
    opened_on: str
    use_by: str | None
    use_by_rule: str | None


def open_lot(
    store: Store, occasion: Occasion, code: str, *, dry_run: bool = False, confirmed: Opened | None = None
) -> Opened:
    """Start a lot's life once opened. Raises Refused where it is open already, has ended or came later."""

    def build(booked_at: datetime) -> Opened:
        lot = lot_here(store, occasion, code)
        refuse_waste_can(lot)
        if lot.opened_on:
            raise Refused(f"{lot.code} ({lot.material.name}) was opened on {lot.opened_on} already.")
        facts = opening_facts(lot, occasion)
        posted = post(store, Draft(kind="open", occasion=occasion, facts=facts), booked_at)
        values = {name: value for _, name, value in facts}
        return Opened(
            code=lot.code,
            name=lot.material.name,
            opened_on=occasion.day.isoformat(),
            use_by=fact_text(values.get("use_by", lot.use_by)),
            use_by_rule=fact_text(values.get("use_by_rule", lot.use_by_rule)),
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def opening_facts(lot: Lot, occasion: Occasion) -> tuple[Fact, ...]:
    """Return the facts that change when a lot is opened."""
    facts: list[Fact] = [(lot.id, "opened_on", occasion.day.isoformat())]
    use_by, rule = opened_limits(lot, occasion.local)
    if use_by != lot.use_by:
        facts += [(lot.id, "use_by", use_by), (lot.id, "use_by_rule", rule)]
    return tuple(facts)


def opened_by_drawing(lots: Sequence[Lot], occasion: Occasion) -> list[Fact]:
    """Return the facts for lots that a draw opens: what was taken from a closed bottle opened it."""
    closed = [lot for lot in lots if lot.life_opened and lot.opened_on is None]
    return [fact for lot in closed for fact in opening_facts(lot, occasion)]
