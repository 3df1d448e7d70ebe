"""What has to be done: gathered from the shelf, the least amounts, loans and bookings."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from stockroom.planning.due import Due, due_loans, due_lots, due_materials, in_urgency
from stockroom.planning.fitness import fitness
from stockroom.store.forecasts import kept_forecasts, settling_again
from stockroom.store.left_open import has_open_bookings, loans_out
from stockroom.store.lots import shelf
from stockroom.store.materials import materials_with_a_least
from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.domain.lots import Lot
    from stockroom.planning.remake import Needed


def due_items(store: Store, local: datetime, within: int = 14, *, away_until: date | None = None) -> list[Due]:
    """Return what has to be done, most urgent first; `within` days ahead for what has a day.

    `local` is the moment taken as now, in the stockroom's zone. `away_until` is the last day of a break: where no
    closed time is kept for it, the studio counts as closed from tomorrow on, and what gives off gas is to be emptied.
    """
    if away_until is not None:
        within = (away_until - local.date()).days
    lots = shelf(store)
    items = due_lots(lots, local, within)
    items += due_materials(materials_with_a_least(store), lots, local)
    items += due_loans(loans_out(store))
    year_ago = (local.date() - timedelta(days=365)).isoformat()
    if any((lot.received_on or lot.made_at or year_ago) < year_ago for lot in lots):
        from stockroom.actions.unused import unused

        items += unused(store, lots, local)
    if away_until is not None:
        items = _with_vented(items, lots, local)
    kept = kept_forecasts(store) if any(lot.over_solid for lot in lots) else {}
    if any(item.kind == "not-ready" for item in items):
        from stockroom.planning.due_jars import settling

        items = settling(items, settling_again(store))
    if kept:
        from stockroom.actions.studio_choices import refills_allowed
        from stockroom.planning.due_jars import JarState, due_jars

        states = {lot: JarState(refills=one.refills, proved=one.proved, unsure=one.unsure) for lot, one in kept.items()}
        items += due_jars(lots, states, refills_allowed(store))
    needed: dict[int, list[Needed]] = {}
    if has_open_bookings(store):
        # recipes and their sums are loaded only where something is booked
        from stockroom.actions.booked import load_booked, passed_due
        from stockroom.actions.forecast import needed_by_material
        from stockroom.actions.planned import due_planned

        worked = load_booked(store, local)
        items += passed_due(store, local)
        items += due_planned(store, local, within, worked, lots, away_until)
        needed = needed_by_material(worked)
    if needed or kept:
        from stockroom.actions.forecast import due_remakes

        failed = {item.code for item in items if item.kind == "remake"}
        horizon = (local.date() + timedelta(days=within)).isoformat()
        # a jar past its date is discarded; what bookings lack then is begun as a making
        current = [lot for lot in lots if fitness(lot, local).kind != "past-use-by"]
        found = due_remakes(store, current, needed, kept, local, horizon)
        found = [item for item in found if item.code not in failed]
        # one jar is made afresh once, whether its date or a booking asks for it
        told = {lot.material.key for lot in lots if lot.code in {item.code for item in found}}
        items = [item for item in items if item.kind != "make-by" or item.code not in told] + found
    return in_urgency(items, local.date())


def _with_vented(items: list[Due], lots: list[Lot], local: datetime) -> list[Due]:
    """Say of what gives off gas that it is to be emptied before a break."""
    words = "gives off gas in a vented bottle: empty it before the break"
    vented = {lot.code: lot for lot in lots if lot.material.vented and fitness(lot, local).fit}
    told = {item.code for item in items if item.kind == "use-first"}
    return [
        replace(item, why=f"{item.why}; {words}") if item.kind == "use-first" and item.code in vented else item
        for item in items
    ] + [
        Due(
            kind="use-first",
            code=code,
            name=lot.material.name,
            by=local.date().isoformat(),
            why=f"{lot.amount_words}, {words}",
        )
        for code, lot in vented.items()
        if code not in told
    ]
