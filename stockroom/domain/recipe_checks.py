"""The check of a recipe as a person writes it in the recipe's file, in one table.

    [check]
    method = "pH by meter"
    low = "8.0"
    high = "9.0"
    unit = "pH"
    error = "0.1"
    spoilt = ["cloudy", "mould"]
    extends = false
    source = "…"

Method, unit and at least one end of the range stand together; looks alone are enough. How often it is checked is the
recipe's `check_every`.
"""

from __future__ import annotations

from collections.abc import Mapping

from stockroom.domain.recipes import RecipeCheck, figure_text
from stockroom.domain.toml_tables import Table
from stockroom.science.numerals import read_decimal

FINE_LOOKS = ("good", "as made", "clear")
"""Looks that speak for any solution; none of them can mean that it is spoilt."""


def read_check(table: Table) -> RecipeCheck:
    """Read the table [check]; what is wrong is noted in it."""
    check = RecipeCheck(
        method=table.line("method"),
        low=table.read("low", read_decimal),
        high=table.read("high", read_decimal),
        unit=table.line("unit"),
        error=table.read("error", read_decimal),
        spoilt=tuple(folded(word) for word in table.texts("spoilt")),
        extends=table.flag("extends", True),
        source=table.text("source"),
    )
    ranged = table.has("low") or table.has("high")
    if ranged != table.has("method") or ranged != table.has("unit") or (table.has("error") and not ranged):
        table.refuse("method", "a reading has method, unit and low, high or both; write all of them or none.")
    elif not ranged and not table.has("spoilt"):
        table.refuse("spoilt", "there is no reading and no look; write one of them, or leave the table out.")
    if check.low is not None and check.high is not None and check.low > check.high:
        table.refuse("low", f"read {check.low}, which is more than high, {check.high}.")
    if len(set(check.spoilt)) < len(check.spoilt) or set(check.spoilt) & set(FINE_LOOKS):
        table.refuse("spoilt", f"each look once, and none of {', '.join(FINE_LOOKS)}.")
    table.finish()
    return check


def folded(word: str) -> str:
    """Write a look as it is compared: small letters, single spaces."""
    return " ".join(word.casefold().split())


def check_values(check: RecipeCheck) -> Mapping[str, object]:
    """Return the table's values as they are written."""
    return {
        "method": check.method,
        "low": figure_text(check.low),
        "high": figure_text(check.high),
        "unit": check.unit,
        "error": figure_text(check.error),
        "spoilt": check.spoilt or None,
        "extends": None if check.extends else False,
        "source": check.source,
    }


def range_words(check: RecipeCheck) -> str:
    """Say the range: `8.0 to 9.0 pH`, `at most 5 µS/cm`, `at least 0.5 % w/v`."""
    low, high = figure_text(check.low), figure_text(check.high)
    if low is None:
        return f"at most {high} {check.unit}"
    return f"at least {low} {check.unit}" if high is None else f"{low} to {high} {check.unit}"


def says_check(check: RecipeCheck | None) -> dict[str, str]:
    """Say a check in lines, by field."""
    if check is None:
        return {}
    reading = f"{check.method}, {range_words(check)}" if check.method else ""
    error = f", good to {figure_text(check.error)} {check.unit}" if check.error is not None else ""
    return {
        "check": reading + error,
        "spoilt when": ", ".join(check.spoilt),
        "a check that passes moves its day": "" if check.extends else "no",
        "source of the check": check.source or "",
    }
