"""What a job used, added up: by treatment, by material, and by what everything was made of in the end."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stockroom.actions.cost_shares import ingredients_of
from stockroom.actions.costing import Used, treatment_name
from stockroom.domain.lots import Lot
from stockroom.science.quantities import Quantity
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """What one thing of a list cost."""

    key: str
    name: str
    value: int
    quantity: Quantity | None = None
    """None where it adds up things that are not measured alike."""


def by_treatment(store: Store, used: Iterable[Used]) -> list[Sum]:
    """Add up what a job used by treatment, in the order of its first use."""
    sums: dict[str | None, int] = defaultdict(int)
    for one in used:
        sums[one.treatment] += one.value
    return [Sum(key=key or "", name=treatment_name(store, key), value=value) for key, value in sums.items()]


def by_material(used: Sequence[Used]) -> list[Sum]:
    """Add up what a job used by material, dearest first."""
    materials = {one.lot.material.key: one.lot.material for one in used}
    return sorted(
        (
            Sum(
                key=key,
                name=material.name,
                value=sum(one.value for one in used if one.lot.material.key == key),
                quantity=material.quantity(sum(one.quantity.quanta for one in used if one.lot.material.key == key)),
            )
            for key, material in materials.items()
        ),
        key=lambda one: (-one.value, one.name),
    )


def by_ingredient(store: Store, used: Iterable[Used]) -> list[Sum]:
    """Add up what a job used by the lots that everything was made of in the end, dearest first."""
    sums: dict[int, int] = defaultdict(int)
    lots: dict[int, Lot] = {}
    for one in used:
        for part in ingredients_of(store, one.lot.id, one.value):
            sums[part.lot.id] += part.value
            lots[part.lot.id] = part.lot
    found = [Sum(key=lots[lot].code, name=lots[lot].material.name, value=value) for lot, value in sums.items()]
    return sorted((one for one in found if one.value), key=lambda one: (-one.value, one.key))
