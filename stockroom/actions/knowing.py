"""What is known of a jar before it is read: its solid, its temperature, its recipe's check, and what went before."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.actions.jar_balance import ASSUMED_CELSIUS, FILLS, SOLID
from stockroom.actions.jar_history import balance_or_none, kept_range
from stockroom.actions.judging import LIME, Before, Known, Readings
from stockroom.actions.studio_choices import humidity_used, limit_used
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.planning.fitness import reached
from stockroom.science.humidity import salt_in
from stockroom.science.ranges import Used, show_range
from stockroom.science.temperature import read_celsius
from stockroom.store import ledger
from stockroom.store.checks import CheckDone, checks_of, kept_references
from stockroom.store.history import actions_of_lot, recipe_of_lot
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store

SAME_CELSIUS = 1.0
"""Temperatures closer than this are taken as the same: 1 °C is about 1 % of strength (common practice, no source)."""


def what_is_known(store: Store, lot: Lot, readings: Readings, occasion: Occasion) -> Known:
    """Gather what a check of a lot is judged by. Raises Unreadable for a temperature that is none."""
    checks = [one for one in checks_of(store, lot.id) if one.at <= occasion.at_text]
    typed = readings.values.get("temperature")
    jar = balance_or_none(store, lot)
    celsius = read_celsius(typed) if typed else jar.celsius if jar else ASSUMED_CELSIUS
    sources = made_of(store, lot)
    fillings = [one for one in actions_of_lot(store, lot.id) if one.kind in FILLS and one.in_effect]
    settling = lot.over_solid and lot.ready_on and not reached(lot.ready_on, occasion.local)
    return Known(
        celsius=celsius,
        assumed=not typed and (jar is None or jar.assumed),
        settled_celsius=jar.celsius if jar and not jar.assumed and abs(jar.celsius - celsius) > SAME_CELSIUS else None,
        solid_left=jar.balance.undissolved if jar else None,
        solid=_solid(lot, sources),
        limit=limit_used(store),
        tolerance=humidity_used(store),
        reference=_reference(store, "titration", celsius, sources),
        fresh_conductivity=_reference(store, "conductivity", celsius, sources),
        settling_until=lot.ready_on if settling else None,
        refilled=len(fillings) > 1,
        before=_before(checks, celsius, max((one.at for one in fillings), default="")),
        check=recipe_of_lot(store, lot.id).check,
        spoilt=seen_spoilt(checks),
    )


def made_of(store: Store, lot: Lot) -> tuple[Lot, ...]:
    """Return the lots that went into one and stand."""
    return tuple(lot_by_id(store, number) for number in {one.lot for one in ledger.entries_into_lot(store, lot.id)})


def _solid(lot: Lot, sources: Iterable[Lot]) -> str | None:
    if not lot.over_solid:
        return None
    if any(one.material.key == SOLID for one in sources):
        return LIME
    return next((salt for one in sources if (salt := salt_in(one.material.name))), None)


def seen_spoilt(checks: Iterable[CheckDone]) -> str | None:
    """Say when a lot was seen to be spoilt, and how; None where it never was."""
    for one in checks:
        if one.check.method == "looks" and one.check.verdict == "unfit":
            return (
                f"on {one.day} it was seen to be spoilt ({one.check.why.removeprefix('It is spoilt: ').split('.')[0]})"
            )
    return None


def powders(sources: Iterable[Lot]) -> list[str]:
    """Return the codes of the lots of solid that a jar was made from."""
    return sorted(one.code for one in sources if one.material.key == SOLID)


def _reference(store: Store, method: str, celsius: float, sources: Iterable[Lot]) -> Used | None:
    """Return the newest reference of the studio's own for the same lot of solid and temperature."""
    own = set(powders(sources))
    for kept in reversed(kept_references(store, method)):
        reference = kept.details["reference"]
        figure = kept_range(reference)
        if figure and own & set(reference["powders"]) and abs(reference["celsius"] - celsius) <= SAME_CELSIUS:
            return Used(
                what=f"the studio's own reference at {reference['celsius']:g} °C",
                figure=figure,
                own=f"{show_range(figure)}, {reference['why']}, {kept.initials} on {kept.day} ({kept.action})",
            )
    return None


def _before(checks: Iterable[CheckDone], celsius: float, since: str) -> Before | None:
    """Return the newest titration over the present filling at the same temperature."""
    for one in reversed(list(checks)):
        strength, at = kept_range(one.details.get("strength")), one.details.get("celsius")
        told = one.check.method == "titration" and one.check.verdict != "not ready" and one.at >= since
        if told and strength and at is not None and abs(at - celsius) <= SAME_CELSIUS:
            return Before(day=one.day, strength=strength)
    return None
