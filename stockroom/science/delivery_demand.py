"""What may be used while a delivery is awaited: how many uses, how large each, all together by exact convolution.

Sizes are whole numbers of any one unit. Chances are floats; nothing here is booked.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from math import ceil, exp, gcd, log, sqrt
from statistics import NormalDist

from stockroom.errors import BadInput

_STEPS = 4_000
_LARGE = 1e200
_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Uses:
    """How many uses there may be: negative binomial, of a mean and a shape (Poisson where the shape is None).

    With the shape k + 1/2 and the mean (k + 1/2) L / n it is what k uses seen in a time n foretell of a time L, by
    Jeffreys' prior: wider than a Poisson distribution of the same mean, since the rate is not known.
    """

    mean: float
    shape: float | None

    def totals(self, sizes: Sequence[int], *, with_one: bool = False) -> Iterator[tuple[int, float]]:
        """Yield every total and its chance, from nothing on, each size seen being as likely as any other.

        H. H. Panjer, ASTIN Bulletin 12 (1981) 22-26: f(s) = sum over y of (a + b y / s) g(y) f(s - y). `with_one` adds
        one use for certain. Without end: the caller stops. Raises BadInput for a mean below nothing, or without sizes
        above nothing.
        """
        if self.mean < 0 or not sizes or min(sizes) <= 0:
            raise BadInput("What is used while a delivery is awaited needs a rate, and sizes above nothing.")
        step = _step(sizes, self.mean)
        of_size = [(size, n / len(sizes)) for size, n in sorted(Counter(-(-size // step) for size in sizes).items())]
        if self.shape is None:
            a, b, offset = 0.0, self.mean, -self.mean
        else:
            a = self.mean / (self.shape + self.mean)
            b, offset = (self.shape - 1) * a, self.shape * log(1 - a)
        found: list[float] = []  # times exp(offset): the chance of no use at all may be less than a float can hold
        for at in count():
            before = [(size, of, found[at - size]) for size, of in of_size if size <= at]
            found.append(sum((a + b * size / at) * of * chance for size, of, chance in before) if at else 1.0)
            chance = sum(of * chance for _, of, chance in before) if with_one else found[at]
            yield at * step, exp(offset + log(chance)) if chance else 0.0
            if found[at] > _LARGE:
                found = [value / _LARGE for value in found]
                offset += log(_LARGE)


def likely_at_most(uses: Uses, sizes: Sequence[int], chance: float, *, with_one: bool = False) -> int:
    """Return the least total that is passed with no more than a chance. Raises BadInput.

    `with_one` counts one use more: an order is placed when a use has brought the stock down, and that use is part of
    what has to last (R. H. Teunter, L. Duncan, J. Operational Research Society 60 (2009) 321-329).
    """
    check_chance(chance)
    passed = 1.0
    for total, of in uses.totals(sizes, with_one=with_one):
        passed -= of
        if passed <= chance + _ROUNDING:
            return total
    raise AssertionError("totals have no end")


@dataclass(frozen=True, slots=True, kw_only=True)
class Steady:
    """Use so frequent that it is told as a mean and a spread a day, and a delivery time told likewise, in days.

    All are taken as normal and independent: W. J. Stevenson, Operations Management, 14th ed., ch. 12.
    """

    per_day: float
    per_day_spread: float
    days: float
    days_spread: float

    def __post_init__(self) -> None:
        """Refuse what cannot be. Raises BadInput."""
        if min(self.per_day, self.per_day_spread, self.days, self.days_spread) < 0:
            raise BadInput("A rate, a delivery time and their spreads cannot be less than nothing.")

    @property
    def mean(self) -> float:
        """Of what is used while a delivery is awaited."""
        return self.per_day * self.days

    @property
    def spread(self) -> float:
        """Of what is used while a delivery is awaited, as a standard deviation."""
        return sqrt(self.days * self.per_day_spread**2 + (self.per_day * self.days_spread) ** 2)

    def order_point(self, chance: float) -> float:
        """Return the amount that is passed with no more than a chance. Raises BadInput."""
        check_chance(chance)
        return self.mean + NormalDist().inv_cdf(1 - chance) * self.spread


def check_chance(chance: float) -> None:
    """Refuse what is no chance of running out that can be planned for. Raises BadInput."""
    if not 0.0001 <= chance <= 0.5:
        raise BadInput(f"A chance of {100 * chance:g} % of running out cannot be planned for. Write 0.01 % to 50 %.")


def _step(sizes: Sequence[int], mean: float) -> int:
    """Return the sizes' common measure; where that is too fine to reckon with, a coarser one to round up to.

    Rounding up adds less than one step a use: at the most a tenth in all. Raises BadInput for too many uses for that.
    """
    measure = gcd(*sizes)
    step = max(measure, ceil((mean * sum(sizes) / len(sizes) + 4 * max(sizes)) / _STEPS))
    if step > measure and mean > _STEPS / 10:
        raise BadInput("So many uses while a delivery is awaited are steady use: tell their rate with its spread.")
    return step
