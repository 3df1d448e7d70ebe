"""When jars must be made afresh: their dates, bookings, solid and measured strength, brought together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import TYPE_CHECKING

from stockroom.actions.studio_choices import limit_percent
from stockroom.domain.lots import Lot
from stockroom.errors import BadInput, Refused
from stockroom.planning.due import Due
from stockroom.planning.fitness import spoken
from stockroom.planning.remake import (
    Needed,
    Reason,
    Remake,
    date_reasons,
    plan_remake,
    solid_reason,
    volume_reason,
)
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.forecasts import KeptForecast, percents_of
from stockroom.store.lots import shelf
from stockroom.store.open import Store
from stockroom.store.open_days import calendars
from stockroom.store.recipes import recipe_making

if TYPE_CHECKING:
    from stockroom.actions.jar_balance import JarBalance
    from stockroom.planning.booked_needs import Worked
    from stockroom.science.ranges import Range
    from stockroom.science.saturation import Fill
    from stockroom.science.trend import Trend

USUAL_REFILL_UL = 1_000_000
"""Taken where a recipe has no usual batch."""


def remake_of(store: Store, lot: Lot, local: datetime) -> Remake | None:
    """Say when a jar must be made afresh, by all that is known of it. None for what is no jar, or nothing ends."""
    if lot.kind != "jar" or lot.ended:
        return None
    lots = [one for one in shelf(store) if one.material.id == lot.material.id]
    needed = booked_of(store, lot.material.id, local)
    recipe = recipe_making(store, lot.material.key)
    short = volume_reason(lots, needed, local)
    reasons = date_reasons(lot, local) + ([short] if short else [])
    if lot.over_solid:
        reasons += _measured(store, lot, short.by if short else None, local)
    version = recipe.version if recipe else None
    return plan_remake(lot, reasons, lots, needed, version, local, calendars(store)[None])


def booked_of(store: Store, material: int, local: datetime) -> list[Needed]:
    """Return what is booked of a material from today on."""
    from stockroom.actions.booked import load_booked

    return needed_by_material(load_booked(store, local)).get(material, [])


def needed_by_material(worked: Sequence[Worked]) -> dict[int, list[Needed]]:
    """Return what bookings need, by material."""
    found: dict[int, list[Needed]] = {}
    for one, needs in worked:
        for need, total in needs:
            needed = Needed(booking=one.booking.code, day=one.booking.for_day, quantity=total.quanta)
            found.setdefault(need.material.id, []).append(needed)
    return found


def _measured(store: Store, lot: Lot, short_on: str | None, local: datetime) -> list[Reason]:
    """Return what the solid's balance and the titrations of a jar say against it."""
    from stockroom.science.ranges import show_range

    reasons: list[Reason] = []
    refills = next_refills(store, lot)
    if refills is not None and refills.low < 1:
        words = f"{show_range(replace(refills, unit=''))} refills of {show(usual_refill(store, lot))}"
        reasons.append(solid_reason(lot, words, short_on, local))
    trend = trend_of(store, lot)
    if trend is not None and trend.likeliest:
        reasons.append(Reason(reason="trend", by=trend.likeliest.isoformat(), why=trend.why))
    return reasons


def next_refills(store: Store, lot: Lot, then: Fill | None = None) -> Range | None:
    """Return how many refills of the usual batch the solid can still saturate. None where no balance can be made."""
    from stockroom.actions.jar_balance import jar_balance

    try:
        jar: JarBalance = jar_balance(store, lot, then)
        return jar.refills(usual_refill(store, lot).quanta).refills
    except (Refused, BadInput):
        return None


def usual_refill(store: Store, lot: Lot) -> Quantity:
    """Return how much a refill usually is: the recipe's batch, else a litre."""
    recipe = recipe_making(store, lot.material.key)
    batch = recipe.version.batch if recipe else None
    return batch if batch and batch.dimension is Dimension.VOLUME else lot.material.quantity(USUAL_REFILL_UL)


def trend_of(store: Store, lot: Lot, just_now: tuple[date, Range] | None = None) -> Trend | None:
    """Fit a line through a jar's titrations, and one about to be booked. None with fewer than three."""
    from stockroom.science.ranges import Range, exactly
    from stockroom.science.trend import LEAST_CHECKS, Measured, fit_trend

    kept = [
        (date.fromisoformat(day), Range(low=one["low"], best=one["best"], high=one["high"], unit=one["unit"]))
        for day, one in percents_of(store, lot.id)
    ]
    measured = [Measured(day=day, figure=figure) for day, figure in kept + ([just_now] if just_now else [])]
    return fit_trend(measured, exactly(limit_percent(store), "%")) if len(measured) >= LEAST_CHECKS else None


def due_remakes(
    store: Store,
    lots: Sequence[Lot],
    needed: dict[int, list[Needed]],
    kept: dict[int, KeptForecast],
    local: datetime,
    horizon: str,
) -> list[Due]:
    """Tell the jars to be made afresh, without any table: solid and trend as checks and toppings-up kept them.

    A date alone makes no due where nothing booked would lack the jar. A failed check is told with the lots.
    """
    items: list[Due] = []
    told: set[int] = set()
    studio = calendars(store)[None]
    jars = [lot for lot in lots if lot.kind == "jar"]
    by_material = {key: [one for one in lots if one.material.id == key] for key in {jar.material.id for jar in jars}}
    shorts = {key: volume_reason(same, needed.get(key, []), local) for key, same in by_material.items()}
    for lot in sorted(jars, key=lambda one: one.use_by or "9999"):
        if lot.material.id in told:
            continue
        same, needs, short = by_material[lot.material.id], needed.get(lot.material.id, []), shorts[lot.material.id]
        reasons = [one for one in date_reasons(lot, local) if one.reason != "failed check"]
        reasons += [short] if short else []
        reasons += _kept(store, lot, kept.get(lot.id), short.by if short else None, local)
        if not any(one.by and one.by[:10] <= horizon for one in reasons):
            continue
        recipe = recipe_making(store, lot.material.key)
        plan = plan_remake(lot, reasons, same, needs, recipe.version if recipe else None, local, studio)
        if plan is None or not (plan.make or plan.reason in ("solid", "trend")):
            continue
        if plan.make:
            told.add(lot.material.id)  # one making serves all its jars
        # what is to be done is to begin, on the day that the plan says
        by = (plan.make and plan.start_by) or plan.by
        items.append(Due(kind="remake", code=lot.code, name=lot.material.name, by=by, why=told_in_a_line(plan)))
    return items


def _kept(store: Store, lot: Lot, kept: KeptForecast | None, short_on: str | None, local: datetime) -> list[Reason]:
    reasons: list[Reason] = []
    if kept and kept.refills_low is not None and kept.refills_low < 1:
        reasons.append(solid_reason(lot, f"{max(0.0, kept.refills_low):.1f} of a refill for sure", short_on, local))
    limit, falls_on = limit_percent(store), kept.remake_on if kept else None
    if kept and kept.limit not in (None, limit):
        # the studio has chosen another limit since: the line through the checks is drawn again
        trend = trend_of(store, lot)
        falls_on = trend.likeliest.isoformat() if trend and trend.likeliest else None
    if falls_on:
        why = f"its measured strength likely falls to {limit:g} % of saturation on {falls_on}"
        reasons.append(Reason(reason="trend", by=falls_on, why=why))
    return reasons


def told_in_a_line(plan: Remake) -> str:
    """Write reason, amount and day to begin in one line."""
    make = f"; make {show(plan.make)}" if plan.make else ""
    start = f", begin by {spoken(plan.start_by)}" if plan.make and plan.start_by else ""
    return f"{plan.why}{make}{start}"
