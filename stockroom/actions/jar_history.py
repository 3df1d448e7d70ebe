"""A jar over time: what its checks measured, how full it was, and what its strength is held against."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from stockroom.actions.forecast import next_refills, usual_refill
from stockroom.actions.jar_balance import JarBalance, jar_balance, standing_entries
from stockroom.actions.studio_choices import residue_of, studio_choices
from stockroom.domain.ledger import Entry
from stockroom.domain.lots import Lot
from stockroom.errors import BadInput, Refused
from stockroom.science.quantities import Quantity
from stockroom.science.ranges import Range
from stockroom.science.saturation import Fill
from stockroom.science.solubility import saturation_at
from stockroom.store import ledger
from stockroom.store.checks import CheckDone, checks_of
from stockroom.store.history import actions_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckPoint:
    """One check in effect; figures where it measured them."""

    action: str
    day: str
    at: str
    """UTC, ISO 8601."""
    by: str
    method: str
    verdict: str
    why: str
    next_step: str
    celsius: float | None
    strength: Range | None
    percent: Range | None
    """Of saturation."""
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """What the jar held after one action."""

    day: str
    at: str
    what: str
    """make, top-up, take, use …"""
    holds: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class JarHistory:
    """All that a drawing of a jar's strength and level over time needs. Days are ISO local."""

    code: str
    name: str
    made_at: str | None
    ready_on: str | None
    use_by: str | None
    use_by_rule: str | None
    check_by: str | None
    checks: tuple[CheckPoint, ...]
    levels: tuple[Level, ...]
    limit_percent: float
    limit_source: str
    saturation: Range | None
    """Strength of the saturated solution in g/L at `celsius`, where it is known; what 100 % stands for."""
    celsius: float | None
    """At which it was last shaken over solid and settled."""
    celsius_assumed: bool
    solid_left: Range | None
    """Grams of pure substance undissolved."""
    refill: Quantity | None
    refills_left: Range | None
    """Refills of `refill` that the solid can still saturate."""
    rewettings: int | None
    refills_allowed: int | None
    """How often the studio lets solid be watered again; None for any number."""
    residue_suspect: bool
    residue_words: str
    sources: tuple[str, ...]
    """Where every figure above comes from, once each."""


def jar_history(store: Store, code: str) -> JarHistory:
    """Return a jar over time. Raises Unreadable for a mistyped code, NotFound, Refused for what is no jar."""
    lot = find_lot(store, code)
    if not lot.is_jar:
        raise Refused(f"{lot.code} ({lot.material.name}) is not a jar: it has no strength over time.")
    points = tuple(_point(one) for one in checks_of(store, lot.id))
    jar = balance_or_none(store, lot)
    saturation = saturation_at(jar.celsius) if jar else None
    choices = studio_choices(store)
    residue = residue_of(store, jar.balance.rewettings) if jar else None
    sources = [source for point in points for source in point.sources]
    used = (*(jar.balance.used if jar else ()), *((saturation,) if saturation else ()))
    sources += [row.cite() for one in used for row in one.rows]
    return JarHistory(
        code=lot.code,
        name=lot.material.name,
        made_at=lot.made_at,
        ready_on=lot.ready_on,
        use_by=lot.use_by,
        use_by_rule=lot.use_by_rule,
        check_by=lot.check_by,
        checks=points,
        levels=_levels(store, lot),
        limit_percent=choices.limit_percent,
        limit_source=choices.limit_source,
        saturation=saturation.figure if saturation else None,
        celsius=jar.celsius if jar else None,
        celsius_assumed=jar.assumed if jar else False,
        solid_left=jar.balance.undissolved if jar else None,
        refill=usual_refill(store, lot) if jar else None,
        refills_left=next_refills(store, lot) if jar else None,
        rewettings=jar.balance.rewettings if jar else None,
        refills_allowed=choices.refills_allowed,
        residue_suspect=residue.suspect if residue else False,
        residue_words=residue.why if residue else "",
        sources=tuple(dict.fromkeys(sources)),
    )


def balance_or_none(store: Store, lot: Lot, then: Fill | None = None) -> JarBalance | None:
    """Return a jar's balance of solid, with a filling about to be booked; None where the ledger does not tell it."""
    if not lot.over_solid:
        return None
    try:
        return jar_balance(store, lot, then)
    except (Refused, BadInput):
        return None


def kept_range(kept: dict[str, Any] | None) -> Range | None:
    """Read a range as an action kept it."""
    return None if kept is None else Range(low=kept["low"], best=kept["best"], high=kept["high"], unit=kept["unit"])


def _point(done: CheckDone) -> CheckPoint:
    celsius = done.details.get("celsius")
    return CheckPoint(
        action=done.action,
        day=done.day,
        at=done.at,
        by=done.initials,
        method=done.check.method,
        verdict=done.check.verdict,
        why=done.check.why,
        next_step=done.details.get("next", ""),
        celsius=None if celsius is None else float(celsius),
        strength=kept_range(done.details.get("strength")),
        percent=kept_range(done.details.get("percent")),
        sources=tuple(done.details.get("sources", ())),
    )


def _levels(store: Store, lot: Lot) -> tuple[Level, ...]:
    standing: Sequence[Entry] = standing_entries(ledger.entries_of_lot(store, lot.id))
    held, levels = 0, []
    for done in sorted(actions_of_lot(store, lot.id), key=lambda one: (one.at, one.number)):
        moved = sum(entry.quantity for entry in standing if entry.place[0] == done.number)
        if moved:
            held += moved
            levels.append(Level(day=done.day, at=done.at, what=done.kind, holds=lot.material.quantity(max(0, held))))
    return tuple(levels)
