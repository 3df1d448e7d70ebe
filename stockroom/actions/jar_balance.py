"""The mass balance of a jar kept over solid, from what the ledger says was done to it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from stockroom.domain.ledger import Entry
from stockroom.domain.lots import Lot
from stockroom.errors import Refused
from stockroom.science.ranges import exactly, show_range
from stockroom.science.saturation import (
    Balance,
    Counted,
    Drawn,
    Event,
    Fill,
    PouredIn,
    Refills,
    Shaken,
    Solid,
    balance_jar,
    refills_left,
)
from stockroom.science.strengths import read_strength
from stockroom.store import ledger
from stockroom.store.counts import counts_of_action
from stockroom.store.history import WorkDone, actions_of_lot
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store

SOLID = "calcium-hydroxide"
"""Key of the material whose solubility the tables tell."""

FILLS = ("make", "top-up")

ASSUMED_CELSIUS = 20.0
"""Taken where nobody wrote a temperature down; the answer says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JarBalance:
    """A jar's balance, how it was last filled, and whether some temperature had to be assumed."""

    balance: Balance
    celsius: float
    """At which it was last shaken over solid and settled."""
    assumed: bool
    hardness_mg_per_l: float
    """Of the water of the last filling, as calcium carbonate; later water is taken to be the same."""

    def refills(self, volume_ul: int) -> Refills:
        """Say how many refills of a size the solid can still saturate. Raises BadInput off the table."""
        return refills_left(self.balance, volume_ul, self.celsius, self.hardness_mg_per_l)

    def words(self) -> list[str]:
        """Say what lies undissolved, and how many litres it can still saturate."""
        litres = self.refills(1_000_000).refills
        taken = " (assumed: nobody wrote it down)" if self.assumed else ""
        lines = [
            f"{show_range(self.balance.undissolved)} undissolved, settled at {self.celsius:g} °C{taken}",
            f"saturates {show_range(litres).replace('refills', 'L')} more",
        ]
        return lines


def jar_balance(store: Store, lot: Lot, then: Fill | None = None) -> JarBalance:
    """Fold what was done to a jar, and a filling about to be booked, into its balance.

    Raises Refused for a jar that no balance can be made of.
    """
    if not lot.over_solid:
        raise Refused(f"{lot.code} ({lot.material.name}) is not kept over solid: it has no balance of solid.")
    standing = standing_entries(ledger.entries_of_lot(store, lot.id))
    celsius, hardness, assumed, held = ASSUMED_CELSIUS, 0.0, False, 0
    events: list[Event] = []
    for done in sorted(actions_of_lot(store, lot.id), key=lambda one: (one.at, one.number)):
        own = [entry for entry in standing if entry.place[0] == done.number]
        if not done.in_effect and not own:
            continue
        details = json.loads(done.details)
        if done.kind in FILLS and done.in_effect:
            assumed = assumed or "celsius" not in details
            celsius = float(details.get("celsius", ASSUMED_CELSIUS))
            hardness = float(details.get("hardness_mg_per_l", 0))
            events += _solids(store, lot, done)
            events += [
                Fill(volume_ul=entry.quantity, celsius=celsius, hardness_mg_per_l=hardness)
                for entry in own
                if entry.quantity > 0 and entry.count_action is None
            ]
        poured = sum(entry.quantity for entry in own if entry.quantity > 0) if done.kind == "pour" else 0
        if poured:
            # what is not alike may be as weak as water: the solid is then reckoned to restore all of it
            alike = details["alike"] == "alike"
            events.append(PouredIn(volume_ul=poured) if alike else Fill(volume_ul=poured, celsius=celsius))
        found = sum(entry.quantity for entry in own if _is_found(entry)) if done.kind not in FILLS else 0
        if found:
            # more than the books held was in the jar: what was dissolved is the same
            events.append(Counted(volume_ul=held + found))
        if done.in_effect and _was_shaken(done, details):
            celsius, assumed = float(details["celsius"]), False
            events.append(Shaken(celsius=celsius))
        counted = [count for count in counts_of_action(store, done.number) if count.lot == lot.id]
        if counted and done.in_effect:
            events.append(Counted(volume_ul=counted[0].quantity))
        # what came back is netted against its draw; a count's difference is told by the count itself
        events += [
            Drawn(volume_ul=gone)
            for entry in own
            if entry.quantity < 0 and entry.count_action is None
            if (gone := -entry.quantity - sum(one.quantity for one in standing if one.refers == entry.place)) > 0
        ]
        held += sum(entry.quantity for entry in own)
    if not any(isinstance(event, Solid) for event in events):
        raise Refused(f"{lot.code} ({lot.material.name}) was not made from {SOLID}: no table tells its solubility.")
    if then is not None:
        events.append(then)
        celsius, hardness = then.celsius, then.hardness_mg_per_l
    return JarBalance(balance=balance_jar(events), celsius=celsius, assumed=assumed, hardness_mg_per_l=hardness)


def _was_shaken(done: WorkDone, details: dict[str, Any]) -> bool:
    """Say whether the jar was shaken over its solid at a temperature that was written down."""
    shaken = details.get("shaken") if done.kind == "check" else details.get("after") == "shaking"
    return done.kind in ("check", "settle") and bool(shaken) and "celsius" in details


def _is_found(entry: Entry) -> bool:
    """Say whether an entry books what the books did not hold, beside any count."""
    return entry.other_end == "found" and entry.quantity > 0 and entry.count_action is None


def standing_entries(entries: list[Entry]) -> list[Entry]:
    """Return the entries that stand: those reversed by nothing, or by something that was itself reversed."""
    reversed_by = {entry.reverses: entry.place for entry in entries if entry.reverses}

    def stands(entry: Entry) -> bool:
        place, times = entry.place, 0
        while place in reversed_by:
            place, times = reversed_by[place], times + 1
        return times % 2 == 0

    return [entry for entry in entries if entry.reverses is None and stands(entry)]


def _solids(store: Store, lot: Lot, done: WorkDone) -> list[Event]:
    """Return the solid that an action put into a jar, at its purity in %."""
    solids: list[Event] = []
    for entry in ledger.entries_of_action(store, done.number):
        if entry.effect == "draw" and entry.other_lot == lot.id:
            solid = lot_by_id(store, entry.lot)
            if solid.material.key == SOLID:
                purity = read_strength(solid.purity or solid.material.purity or "100 % w/w")
                solids.append(Solid(mass_ug=-entry.quantity, purity=exactly(float(purity.number), "%")))
    return solids
