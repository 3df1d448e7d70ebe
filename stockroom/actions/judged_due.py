"""What has to be done, judged anew: from the shelf, the least amounts, loans, bookings and orders."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from stockroom.domain.lots import Lot
from stockroom.planning.due import Due, due_loans, in_urgency
from stockroom.planning.due_shelf import due_cans, due_lots, due_materials
from stockroom.planning.fitness import fitness
from stockroom.store.left_open import has_open_bookings, has_register, loans_out
from stockroom.store.materials import materials_with_a_least
from stockroom.store.open import Store
from stockroom.store.orders import any_order_or_offer


def judge(store: Store, lots: Sequence[Lot], local: datetime, within: int, away_until: date | None) -> list[Due]:
    """Return what has to be done, most urgent first; `lots` are those on the shelf, and see `due_items`."""
    items = due_lots(lots, local, within)
    items += due_materials(materials_with_a_least(store), lots, local)
    if any(lot.kind == "waste can" for lot in lots):
        from stockroom.store.waste_cans import waste_cans

        items += due_cans(waste_cans(store), local.date())
    items += due_loans(loans_out(store))
    items += _losses(store)
    year_ago = (local.date() - timedelta(days=365)).isoformat()
    if any((lot.received_on or lot.made_at or year_ago) < year_ago for lot in lots):
        from stockroom.actions.unused import unused

        items += unused(store, lots, local)
    if away_until is not None:
        items = _with_vented(items, lots, local)
    if any(item.kind == "not-ready" for item in items):
        from stockroom.planning.due_jars import settling
        from stockroom.store.forecasts import settling_again

        items = settling(items, settling_again(store))
    if any(lot.over_solid for lot in lots) or has_open_bookings(store) or any_order_or_offer(store):
        from stockroom.actions.reckoned_due import reckon

        items += reckon(store, lots, local, within, away_until)
    return in_urgency(items, local.date())


def _losses(store: Store) -> list[Due]:
    """Return what is missing of materials under a register, where there are any."""
    if not has_register(store):
        return []
    from stockroom.actions.registers import due_losses
    from stockroom.store.registers import unexplained_losses

    return due_losses(unexplained_losses(store))


def _with_vented(items: list[Due], lots: Sequence[Lot], local: datetime) -> list[Due]:
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
