"""The lots behind a materials statement: what each solution was made of, and what each thing bought is."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable

from stockroom.actions.tracing import Weave
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.statement import Bought, Solution
from stockroom.planning.fitness import is_withdrawn, spoken
from stockroom.science.quantities import show
from stockroom.store.ledger import entries_of_lot
from stockroom.store.materials import materials_named
from stockroom.store.open import Store
from stockroom.store.records import version_used
from stockroom.store.suppliers import bought_from
from stockroom.store.tracing import draws_into, draws_of_bath


def lots_behind_all(store: Store, weave: Weave, lot_ids: Iterable[int]) -> list[Lot]:
    """Return some lots and all that they were made from, to any depth, each once, in the order they are met."""
    found: dict[int, Lot] = {}
    waiting = list(lot_ids)
    while waiting:
        lot_id = waiting.pop(0)
        if lot_id not in found:
            found[lot_id] = weave.lot(lot_id)
            waiting += [draw.lot for draw in (*draws_into(store, lot_id), *draws_of_bath(store, lot_id))]
    return list(found.values())


def say_solution(store: Store, weave: Weave, lot: Lot) -> Solution:
    """Tell what a jar was made of: what was drawn for it, and the water that is not metered."""
    begun = weave.action(lot.begun_by)
    by_recipe = version_used(store, begun.version_id)
    amounts: dict[int, int] = defaultdict(int)
    for draw in (*draws_into(store, lot.id), *draws_of_bath(store, lot.id)):
        amounts[draw.lot] += draw.quanta
    parts = []
    for other, quanta in amounts.items():
        drawn = weave.lot(other)
        parts.append(f"{show(drawn.material.quantity(quanta))} of {drawn.material.name} ({drawn.code})")
    if begun.kind == "make":
        keys = json.loads(begun.details).get("lines", {})
        water = [one.name for one in materials_named(store, set(keys)).values() if not one.metered]
        parts += [f"{name} (not metered)" for name in water]
    return Solution(
        code=lot.code,
        name=lot.material.name,
        kind=lot.kind,
        amount=lot.material.quantity(
            sum(entry.quantity for entry in entries_of_lot(store, lot.id) if entry.place[0] == lot.begun_by)
        ),
        made=spoken(lot.made_at[:16]) if lot.made_at else begun.day,
        by=lot.initials,
        recipe=by_recipe.name if by_recipe else None,
        version=by_recipe.number if by_recipe else None,
        parts=tuple(parts),
        withdrawn=lot.unfit if is_withdrawn(lot) else None,
    )


def say_bought(store: Store, lot: Lot) -> Bought:
    return Bought(
        code=lot.code,
        name=lot.material.name,
        identity=identity_of(lot.material, lot.purity),
        maker_lot=lot.maker_lot,
        supplier=bought_from(store, lot).supplier,
        withdrawn=lot.unfit if is_withdrawn(lot) else None,
    )


def identity_of(material: Material, purity: str | None) -> str:
    """Say what a material is whatever it is sold as: as the studio says it, else its kind; its grade and purity."""
    return "; ".join(filter(None, (material.identity or material.kind, material.grade, purity or material.purity)))
