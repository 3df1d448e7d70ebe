"""Whether a jar's measured strength is falling, and when it would cross the studio's limit, as a range of days.

A straight line by least squares, each check weighed by its own error. Where the checks scatter more than their errors
allow, the line's uncertainty is widened by as much. The band is two standard uncertainties on either side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used, show_range

LEAST_CHECKS = 3
_HORIZON_DAYS = 3 * 366
_COVERAGE = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A check's figure on a day."""

    day: date
    figure: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A line through the checks of a jar, and the days on which it meets the limit.

    A day is None where the line does not meet the limit within three years of the last check.
    """

    first_day: date
    last_day: date
    at_first: float
    per_day: Range
    earliest: date | None
    likeliest: date | None
    latest: date | None
    limit: Range
    why: str
    used: tuple[Used, ...]
    _variances: tuple[float, float, float]

    def at(self, day: date) -> Range:
        """Read the line on a day, with its band."""
        return _band(self.at_first, self.per_day.best, self._variances, (day - self.first_day).days, self.limit.unit)


def fit_trend(checks: Sequence[Measured], limit: Range) -> Trend | None:
    """Fit a line through checks of one unit and find when it falls to a limit, which may be a range.

    None with fewer than three checks, or fewer than two days: that is no trend yet. Raises BadInput where a check has
    another unit than the limit, or an error of nothing.
    """
    for check in checks:
        if check.figure.unit != limit.unit:
            raise BadInput(f"A trend needs one unit: a check is in {check.figure.unit}, the limit in {limit.unit}.")
        if check.figure.half_width <= 0:
            raise BadInput(f"The check of {check.day} has no error: no measurement is exact. Write what it is off by.")
    if len(checks) < LEAST_CHECKS or len({check.day for check in checks}) < 2:
        return None
    first, last = min(check.day for check in checks), max(check.day for check in checks)
    points = [((check.day - first).days, check.figure.best, check.figure.half_width) for check in checks]
    start, slope, variances = _line(points)

    def meets(figure: float, which: str) -> date | None:
        for days in range((last - first).days, (last - first).days + _HORIZON_DAYS):
            if getattr(_band(start, slope, variances, days, limit.unit), which) <= figure:
                return first + timedelta(days=days)
        return None

    error = _COVERAGE * sqrt(variances[2])
    per_day = Range(low=slope - error, best=slope, high=slope + error, unit=f"{limit.unit} a day")
    earliest, likeliest, latest = meets(limit.high, "low"), meets(limit.best, "best"), meets(limit.low, "high")
    return Trend(
        first_day=first,
        last_day=last,
        at_first=start,
        per_day=per_day,
        earliest=earliest,
        likeliest=likeliest,
        latest=latest,
        limit=limit,
        why=_explain(len(checks), first, last, per_day, limit, (earliest, likeliest, latest)),
        used=(
            *(Used(what=f"check of {check.day.isoformat()}", figure=check.figure) for check in checks),
            Used(what="limit", figure=limit),
        ),
        _variances=variances,
    )


def _line(points: Sequence[tuple[int, float, float]]) -> tuple[float, float, tuple[float, float, float]]:
    """Give start, slope, and the variances of start, of both together, and of slope."""
    weights = [1 / error**2 for _, _, error in points]
    w = sum(weights)
    wx = sum(weight * x for weight, (x, _, _) in zip(weights, points, strict=True))
    wy = sum(weight * y for weight, (_, y, _) in zip(weights, points, strict=True))
    wxx = sum(weight * x * x for weight, (x, _, _) in zip(weights, points, strict=True))
    wxy = sum(weight * x * y for weight, (x, y, _) in zip(weights, points, strict=True))
    determinant = w * wxx - wx * wx
    slope = (w * wxy - wx * wy) / determinant
    start = (wxx * wy - wx * wxy) / determinant
    scatter = sum(((y - start - slope * x) / error) ** 2 for x, y, error in points) / (len(points) - 2)
    widened = max(1.0, scatter) / determinant
    return start, slope, (wxx * widened, -wx * widened, w * widened)


def _band(start: float, slope: float, variances: tuple[float, float, float], days: int, unit: str) -> Range:
    of_start, joint, of_slope = variances
    best = start + slope * days
    error = _COVERAGE * sqrt(max(0.0, of_start + 2 * joint * days + of_slope * days * days))
    return Range(low=best - error, best=best, high=best + error, unit=unit)


def _explain(
    number: int,
    first: date,
    last: date,
    per_day: Range,
    limit: Range,
    days: tuple[date | None, date | None, date | None],
) -> str:
    earliest, likeliest, latest = days
    line = f"A line through {number} checks from {first.isoformat()} to {last.isoformat()}"
    if earliest is None:
        return f"{line} does not come near the limit of {show_range(limit)} within three years."
    if latest == last:
        return f"{line} has fallen below the limit of {show_range(limit)} already."
    when = f"{earliest.isoformat()} at the earliest"
    when += f", {likeliest.isoformat()} likeliest" if likeliest else ", and may not at all"
    when += f", {latest.isoformat()} at the latest" if latest else ""
    sinks = "falls" if per_day.high < 0 else "may fall"
    return f"{line} {sinks} to the limit of {show_range(limit)}: {when}."
