"""Rounding that loses nothing: half-even division and the largest remainder."""

from __future__ import annotations

from collections.abc import Sequence


def round_half_even_ratio(numerator: int, denominator: int) -> int:
    """Divide two integers and round to the nearest one, ties to even.

    Raises ZeroDivisionError for a denominator of nothing.
    """
    if denominator < 0:
        numerator, denominator = -numerator, -denominator
    quotient, remainder = divmod(numerator, denominator)
    twice = 2 * remainder
    if twice > denominator or (twice == denominator and quotient % 2):
        quotient += 1
    return quotient


def share_out(total: int, weights: Sequence[int]) -> list[int]:
    """Share a whole number in proportion to weights, so that the shares add up to it exactly.

    Largest remainder; of equal remainders the earlier one gets the odd unit. Negative totals are shared like
    positive ones and negated. Raises ValueError when a weight is negative or all are nothing.
    """
    if any(weight < 0 for weight in weights):
        raise ValueError("weights cannot be negative")
    whole = sum(weights)
    if whole == 0:
        raise ValueError("nothing to share by: all weights are zero")
    if total < 0:
        return [-share for share in share_out(-total, weights)]
    shares = [total * weight // whole for weight in weights]
    left = total - sum(shares)
    by_remainder = sorted(range(len(weights)), key=lambda i: (-(total * weights[i] % whole), i))
    for index in by_remainder[:left]:
        shares[index] += 1
    return shares
