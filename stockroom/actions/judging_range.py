"""A reading against the range of the recipe that a solution was made by, or against one that is typed in its place."""

from __future__ import annotations

from collections.abc import Mapping

from stockroom.domain.recipes import RecipeCheck
from stockroom.errors import BadInput
from stockroom.science.own_range import judge_in_range, last_digit, read_figure
from stockroom.science.verdicts import Verdict


def judge_by_range(typed: str, values: Mapping[str, str], own: RecipeCheck | None, name: str) -> Verdict:
    """Judge what was read of a solution by name; `values` may hold low, high and error as typed.

    Without any range it cannot tell. Raises Unreadable, and BadInput for another unit than the recipe's.
    """
    figure, unit = read_figure(typed)
    low, high = (read_figure(values[end])[0] if end in values else None for end in ("low", "high"))
    range_from = "as typed"
    if low is None and high is None:
        if own is None or own.method is None:
            return Verdict(
                word="cannot tell",
                why=f"{typed} was read, and its recipe has no range to hold it against.",
                next_step="Give the range with --low and --high, or write a [check] into the recipe.",
                used=(),
            )
        low, high, range_from = own.low, own.high, f"the recipe's ({own.method}); {own.source or 'no source'}"
    if own and own.unit:
        if unit and unit.casefold() != own.unit.casefold():
            raise BadInput(f"{name} is read in {own.unit} ({own.method}); '{unit}' is another unit.")
        unit = own.unit
    error, error_from = last_digit(figure), "one of its last digit"
    if "error" in values:
        error, error_from = read_figure(values["error"])[0], "as typed"
    elif own and own.error is not None:
        error, error_from = own.error, "the recipe's"
    return judge_in_range(figure, error, low=low, high=high, unit=unit, range_from=range_from, error_from=error_from)
