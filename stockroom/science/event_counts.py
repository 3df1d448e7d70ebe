"""How sure a count of events makes one of their rate: exact limits, with no more said than the count allows.

Events are taken to come independently of each other (a Poisson process). Estimates are floats; nothing here is booked.
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp, fsum, lgamma, log

from stockroom.errors import BadInput

MOST_EVENTS = 10_000
"""Above, a count is a slip of the keyboard; below, the sums lose nothing."""


_NOTHING = 1e-20
"""A term that is this part of the largest adds nothing that a float can hold, nor do all those beyond it."""


def chance_of_at_most(count: int, mean: float) -> float:
    """Return the chance of `count` events or fewer where `mean` are expected (the Poisson distribution).

    Each term is had from the one beside it, from the largest outwards both ways.
    """
    if mean == 0:
        return 1.0
    largest = min(count, int(mean))
    first = exp(largest * log(mean) - mean - lgamma(largest + 1))
    terms = [term := first]
    for k in range(largest, 0, -1):
        if (term := term * k / mean) < _NOTHING * first:
            break
        terms.append(term)
    term = first
    for k in range(largest + 1, count + 1):
        if (term := term * mean / k) < _NOTHING * first:
            break
        terms.append(term)
    return min(1.0, fsum(terms))


def exact_limits(count: int, sure: float = 0.95) -> tuple[float, float]:
    """Return the lowest and highest mean that go with an observed count, each missed with half of the rest's chance.

    The lower limit is the mean at which so many or more have a chance of (1 - sure) / 2, the upper the mean at which
    so few or fewer have it: F. Garwood, Biometrika 28 (1936) 437-442. They are half the quantiles of chi-square with
    2k and 2k + 2 degrees of freedom. Raises BadInput for a count or a chance that is none.
    """
    rest = (1 - _checked(count, sure)) / 2
    lower = _solve(lambda mean: chance_of_at_most(count - 1, mean) - (1 - rest), count) if count else 0.0
    return lower, _upper(count, rest)


def upper_limit(count: int) -> float:
    """Return the highest mean that goes with an observed count at 95 %, missed with all of the rest's chance.

    For none seen it is about three ("rule of three": E. Eypasch et al., BMJ 311 (1995) 619-620).
    """
    return _upper(count, 1 - _checked(count, 0.95))


def _upper(count: int, rest: float) -> float:
    return _solve(lambda mean: chance_of_at_most(count, mean) - rest, count)


def _checked(count: int, sure: float) -> float:
    if not 0 <= count <= MOST_EVENTS:
        raise BadInput(f"{count} is not a number of uses: it must be 0 to {MOST_EVENTS}.")
    if not 0 < sure < 1:
        raise BadInput(f"{sure:g} is no chance: it must lie between 0 and 1.")
    return sure


def _solve(falling: Callable[[float], float], count: int) -> float:
    """Find where a falling function is nothing, by halving until the floats meet."""
    low, high = 0.0, count + 20.0
    while falling(high) > 0:
        high *= 2
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if falling(middle) > 0 else (low, middle)
    return high
