"""Why a cost differs from what was expected of it: the price, the quantity, or what was used at all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stockroom.science.sharing import round_half_even_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """So much of something and what it costs, in quanta and minor units."""

    quantity: int = 0
    value: int = 0
    complete: bool = True
    """False where part of the cost is not known."""

    def __add__(self, other: Amounts) -> Amounts:
        return Amounts(
            quantity=self.quantity + other.quantity,
            value=self.value + other.value,
            complete=self.complete and other.complete,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Part of a difference, in minor units, and why."""

    kind: str
    """price, quantity, not expected, not used, still to come, price not known before, waste."""
    value: int


def causes(expected: Amounts | None, actual: Amounts | None, trim: Amounts | None = None) -> tuple[Cause, ...]:
    """Split actual less expected cost by cause; the parts add up to it. What was trimmed off is waste.

    The quantity's part is the difference in quantity at the expected price, rounded once, half to even; the price's
    part is the rest, so that nothing is lost (Horngren, Cost Accounting, ch. 7: flexible-budget variance = price
    variance + efficiency variance; from memory).
    """
    if expected is None or (not expected.quantity and not expected.value and expected.complete):
        return _only("not expected", actual.value) if actual else ()
    if actual is None or (not actual.quantity and not actual.value):
        return _only("not used", -expected.value)
    if trim is not None and trim.value:
        rest = Amounts(quantity=actual.quantity - trim.quantity, value=actual.value - trim.value)
        return (*_only("waste", trim.value), *causes(expected, rest))
    difference = actual.value - expected.value
    if not expected.complete or not expected.quantity:
        return _only("price not known before", difference)
    more = actual.quantity - expected.quantity
    by_quantity = round_half_even_ratio(expected.value * more, expected.quantity)
    return (*_only("quantity", by_quantity), *_only("price", difference - by_quantity))


def _only(kind: str, value: int) -> tuple[Cause, ...]:
    return (Cause(kind=kind, value=value),) if value else ()


def add_up(parts: Sequence[Cause]) -> dict[str, int]:
    """Add causes up by kind, the weightiest first; what cancels out is left out."""
    sums: dict[str, int] = {}
    for part in parts:
        sums[part.kind] = sums.get(part.kind, 0) + part.value
    return dict(sorted(((kind, value) for kind, value in sums.items() if value), key=lambda one: -abs(one[1])))


CAUSE_WORDS: Mapping[str, str] = {
    "price": "at another price",
    "quantity": "another quantity",
    "not expected": "not in the estimate",
    "not used": "expected and not used",
    "still to come": "still to come",
    "price not known before": "price not known before",
    "waste": "trimmed off or wasted",
}
