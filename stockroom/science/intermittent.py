"""What is used in a period where most periods use nothing: size and interval smoothed apart.

A series holds what was used in each period, the oldest first. Estimates are floats; nothing here is booked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.errors import BadInput

SMOOTHING = 0.1
"""For sizes, intervals and chances alike, where nothing else is said: Croston's own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Smoothed:
    """Sizes and intervals of use, each as an exponentially weighted mean."""

    size: float
    """Of one use."""
    interval: float
    """Periods from one use to the next."""
    smoothing: float

    @property
    def croston(self) -> float:
        """Use in a period: J. D. Croston, Operational Research Quarterly 23 (1972) 289-303. It is too high."""
        return self.size / self.interval if self.interval else 0.0

    @property
    def uses(self) -> float:
        """Uses in a period, without that bias."""
        return (1 - self.smoothing / 2) / self.interval if self.interval else 0.0

    @property
    def use(self) -> float:
        """Use in a period, without that bias: A. A. Syntetos, J. E. Boylan, Int. J. Forecasting 21 (2005) 303-314."""
        return self.size * self.uses


def smooth(series: Sequence[float], smoothing: float = SMOOTHING, first_interval: float | None = None) -> Smoothed:
    """Smooth sizes and intervals; both change only with a use, however long nothing is used.

    The size begins with the first one seen, the interval with `first_interval`, or the mean one (periods / uses),
    since the first interval alone weighs far too much in a short history. A series without use gives nothing.
    Raises BadInput for a smoothing outside of 0 to 1.
    """
    _check(smoothing)
    uses = [(at, size) for at, size in enumerate(series, 1) if size]
    if not uses:
        return Smoothed(size=0.0, interval=0.0, smoothing=smoothing)
    at, size = uses[0]
    interval = first_interval if first_interval is not None else len(series) / len(uses)
    for then, wanted in uses[1:]:
        size += smoothing * (wanted - size)
        interval += smoothing * (then - at - interval)
        at = then
    return Smoothed(size=size, interval=interval, smoothing=smoothing)


def fade(
    series: Sequence[float],
    smoothing: float = SMOOTHING,
    of_chance: float = SMOOTHING,
    first_chance: float | None = None,
) -> float:
    """Return the use in a period by a forecast that fades while nothing is used.

    The chance of use is smoothed in every period, the size with every use: R. H. Teunter, A. A. Syntetos, M. Z. Babai,
    European J. Operational Research 214 (2011) 606-615. The chance begins with `first_chance`, or the share of the
    periods with use. Raises BadInput for a smoothing outside of 0 to 1.
    """
    _check(smoothing)
    _check(of_chance)
    used = [size for size in series if size]
    if not used:
        return 0.0
    chance = len(used) / len(series) if first_chance is None else first_chance
    size = used[0]
    for wanted in series:
        chance += of_chance * ((1 if wanted else 0) - chance)
        if wanted:
            size += smoothing * (wanted - size)
    return chance * size


def _check(smoothing: float) -> None:
    if not 0 < smoothing <= 1:
        raise BadInput(f"A smoothing of {smoothing:g} is none: it must lie between 0 and 1.")
