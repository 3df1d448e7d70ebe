"""Book that a jar kept over solid is settling again: it was shaken, carried or warmed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.lots_here import refuse_ended
from stockroom.actions.mixing import temperature_detail
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.science.lives import life_end, read_life
from stockroom.store.history import recipe_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store

SHAKING = "shaking"
AFTER = {
    SHAKING: "Strength follows the temperature at which it settles now: write it down with --temperature.",
    "carrying": "Draw only clear liquid.",
    "warming": "It may be weaker now, or supersaturated, or cloudy; nothing is spoilt. Shake it if that matters.",
}
"""After what a jar settles again, and what to know of it."""

USUAL_WAIT = "24 h"
"""Taken where the recipe names none: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settling(ActionOutcome):
    """A jar that is settling again."""

    code: str
    name: str
    after: str
    ready_on: str
    celsius: float | None
    advice: str


def settle(
    store: Store,
    occasion: Occasion,
    code: str,
    after: str,
    *,
    temperature: str | None = None,
    dry_run: bool = False,
    confirmed: Settling | None = None,
) -> Settling:
    """Let a jar over solid settle again for as long as its recipe says. Shaken at a temperature, it takes its strength.

    Raises Refused for what is not kept over solid, BadInput for another reason than those of AFTER.
    """
    if after not in AFTER:
        raise BadInput(f"'{after}' is not why a jar settles again. Say {', '.join(AFTER)}.")

    def build(booked_at: datetime) -> Settling:
        lot = find_lot(store, code)
        refuse_ended(lot)
        if not lot.over_solid:
            raise Refused(f"{lot.code} ({lot.material.name}) is not kept over solid: nothing settles in it.")
        wait = recipe_of_lot(store, lot.id).ready_after or USUAL_WAIT
        ready = life_end(occasion.local, read_life(wait)).text()
        details = {"after": after, **temperature_detail(temperature)}
        facts = ((lot.id, "ready_on", ready),)
        posted = post(store, Draft(kind="settle", occasion=occasion, facts=facts, details=details), booked_at)
        celsius = details.get("celsius")
        return Settling(
            code=lot.code,
            name=lot.material.name,
            after=after,
            ready_on=ready,
            celsius=None if celsius is None else float(str(celsius)),
            advice=AFTER[after],
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)
