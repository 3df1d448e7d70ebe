"""Which lots a need is taken from: oldest date first over what is fit, across several lots when one is not enough.

Order of taking: earliest use-by (WHO, Good Distribution Practices, Annex 5: the earliest expiry date goes first),
then offcuts before whole sheets, then what is open already, then what was received or made earlier, then the lower
code.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from stockroom.domain.lots import Lot
from stockroom.planning.fitness import Fitness, fitness
from stockroom.science.sharing import round_half_even_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A lot and how much of it can be taken at the moment in question."""

    lot: Lot
    available: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """So much to be taken from a lot; `override` is the reason against one that is used all the same."""

    lot: Lot
    quantity: int
    override: str | None = None
    found: int = 0
    """How much more than the books hold is being taken, to be booked as found first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked:
    """What a need is taken from, and what is missing."""

    draws: tuple[Draw, ...]
    missing: int
    available: int
    passed_over: tuple[tuple[Lot, Fitness], ...]
    """Lots that hold some but are not fit, each with its reason."""


def in_order(held: Sequence[Held]) -> list[Held]:
    """Sort lots in the order in which they are taken."""
    return sorted(held, key=lambda one: _rank(one.lot))


def _rank(lot: Lot) -> tuple[str, bool, bool, str, int]:
    begun = lot.received_on or lot.made_at or ""
    return (lot.use_by or "9999-12-31", lot.kind != "offcut", lot.opened_on is None, begun, lot.id)


def pick(
    held: Sequence[Held],
    needed: int,
    local: datetime,
    *,
    factor: Callable[[Lot], Fraction] = lambda _: Fraction(1),
    chosen: Sequence[str] = (),
    count_first: bool = False,
) -> Picked:
    """Take `needed` quanta from fit lots, or from the chosen ones in the order they were named.

    `factor` gives how much more or less of a lot does the work of one quantum as the need was reckoned (a lot of
    other purity). Chosen lots are used even when they are not fit; the draw then carries the reason against it, for
    the caller to refuse or record. With `count_first` the last chosen lot may be drawn beyond what the books hold.
    """
    by_code = {one.lot.code: one for one in held}
    named = [by_code[code] for code in chosen if code in by_code]
    candidates: list[tuple[Held, Fitness]] = []
    passed_over: list[tuple[Lot, Fitness]] = []
    for one in named or in_order(held):
        verdict = fitness(one.lot, local)
        if named or verdict.fit:
            candidates.append((one, verdict))
        elif verdict.kind not in ("ended", "empty") and one.available:
            passed_over.append((one.lot, verdict))
    draws: list[Draw] = []
    left, available = needed, 0
    for index, (one, verdict) in enumerate(candidates):
        ratio = factor(one.lot)
        worth = (
            one.available if ratio == 1 else round_half_even_ratio(one.available * ratio.denominator, ratio.numerator)
        )
        available += worth
        if left <= 0:
            continue
        wanted = left if ratio == 1 else round_half_even_ratio(left * ratio.numerator, ratio.denominator)
        last_named = bool(named) and index == len(candidates) - 1
        quantity = wanted if count_first and last_named else min(wanted, one.available)
        left = 0 if quantity >= wanted else left - worth
        if quantity:
            override = None if verdict.fit or verdict.kind == "empty" else verdict.why
            found = max(0, quantity - one.available)
            draws.append(Draw(lot=one.lot, quantity=quantity, override=override, found=found))
    return Picked(draws=tuple(draws), missing=max(0, left), available=available, passed_over=tuple(passed_over))
