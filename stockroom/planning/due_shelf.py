"""What has to be done of the lots on the shelf, and of materials with a least amount, judged against a moment."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, datetime, timedelta

from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.orders import goods
from stockroom.domain.waste import WasteCan
from stockroom.planning.due import FAILED_CHECK, Due
from stockroom.planning.fitness import fitness, has_passed, is_withdrawn, spoken
from stockroom.science.quantities import show

CHECK_OVERDUE = "; until then it is still offered: whether an unchecked jar is used is the studio's choice"


def due_lots(lots: Sequence[Lot], local: datetime, within: int) -> list[Due]:
    """Judge every lot: past its date, to be used first, unfit, not ready, used up to the solid, to be looked for."""
    horizon = (local.date() + timedelta(days=within)).isoformat()
    today = local.date().isoformat()
    items: list[Due] = []
    for lot in lots:
        verdict = fitness(lot, local)
        held = lot.amount_words
        by: str | None = today
        match verdict.kind:
            case "unfit" if lot.kind == "jar" and (lot.unfit or "").startswith(FAILED_CHECK):
                first = "shake, settle and titrate again; if still weak, " if ": weak by" in verdict.why else ""
                kind, why = "remake", f"{verdict.why}; {held} left: {first}make it afresh"
            case "unfit" if is_withdrawn(lot):
                left = held if lot.balance.quantity else "its solid"
                kind, why = "withdrawn", f"{verdict.why}; {left} left: off the shelf, until released or discarded"
            case "unfit":
                kind, why = "withdrawn", f"{verdict.why}; {held} left: discard it or put it right"
            case "used-bath" if lot.kind == "used bath":
                kind, why = "discard-used-bath", f"{held} of used bath: discard it the same day"
                by = lot.use_by or today
            case "past-use-by":
                kind, by = "past-use-by", lot.use_by
                why = f"{held} left, {verdict.why}: not to be used; discard it by local rules"
            case "solid-only":
                kind, why = "solid-only", "only the solid is left: top up or make afresh"
            case "not-ready":
                kind, by = "not-ready", lot.ready_on
                why = f"ready {spoken(lot.ready_on or '')}; {held}"
            case "fit" if lot.use_by and lot.use_by[:10] <= horizon and lot.balance.quantity:
                kind, by = "use-first", lot.use_by
                why = f"{held} left, use by {spoken(lot.use_by)} ({lot.use_by_rule or 'its date'})"
            case _:
                continue
        items.append(Due(kind=kind, code=lot.code, name=lot.material.name, by=by, why=why))
    items += [
        Due(
            kind="check",
            code=lot.code,
            name=lot.material.name,
            by=lot.check_by,
            why=f"check by {spoken(lot.check_by)}; {lot.amount_words} to be tested"
            + (CHECK_OVERDUE if has_passed(lot.check_by, local) else ""),
        )
        for lot in lots
        if lot.check_by and lot.check_by[:10] <= horizon and lot.balance.quantity and not lot.unfit
    ]
    items += [
        Due(kind="look-for", code=lot.code, name=lot.material.name, by=None, why=lot.look_for)
        for lot in lots
        if lot.look_for
    ]
    return items


def due_cans(cans: Sequence[WasteCan], today: date) -> list[Due]:
    """Tell the waste cans that are nearly full."""
    return [
        Due(
            kind="can-full",
            code=can.lot.code,
            name=can.lot.material.name,
            by=today.isoformat(),
            why=f"{show(can.lot.amount)} of {show(can.capacity)}: have it collected by local rules, begin another can",
        )
        for can in cans
        if can.nearly_full
    ]


def due_materials(materials: Sequence[Material], lots: Sequence[Lot], local: datetime) -> list[Due]:
    """Judge every material that has a least amount set by hand against what is fit to use."""
    held: dict[int, int] = defaultdict(int)
    for lot in lots:
        if fitness(lot, local).kind in ("fit", "not-ready"):
            held[lot.material.id] += lot.balance.quantity
    items: list[Due] = []
    for material in materials:
        low = material.low_quanta
        if low is None or held[material.id] >= low:
            continue
        left, least = held[material.id], goods(material, low)
        why = f"{goods(material, left)} fit to use, order when below {least}" if left else f"none left; keep {least}"
        kind = "low" if left else "empty"
        items.append(Due(kind=kind, code=material.key, name=material.name, by=None, why=why))
    return items
