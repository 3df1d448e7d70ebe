"""`sources`: where the program's figures come from. It needs no stockroom."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import Output, json_number, json_option
from stockroom.errors import NotFound

if TYPE_CHECKING:
    from stockroom.science.ranges import Range, Used
    from stockroom.science.reference import Row


@click.command()
@click.argument("words", nargs=-1, metavar="[WORD]…")
@json_option
@click.pass_obj
def sources(output: Output, words: tuple[str, ...]) -> None:
    """Show where figures come from, and how far each was looked up.

    Example: stockroom sources solubility
    """
    from stockroom.science.numerals import quoted
    from stockroom.science.sources import find_rows, table_names

    found = find_rows(words)
    if not found:
        raise NotFound(
            f"{quoted(' '.join(words))} stands in no reference table. The tables are"
            f" {', '.join(name.replace('_', ' ') for name in table_names())}.",
            tables=table_names(),
        )
    output.document({"rows": [{"table": table, **row_document(row)} for table, row in found]})
    shown = ""
    for table, row in found:
        if table != shown:
            output.say(("\n" if shown else "") + table.replace("_", " ").capitalize())
            shown = table
        figure = row.figure
        output.say(f"  {row.of}, {row.what}" + (f": {figure}" if figure else ""))
        output.say(f"      {row.source}; {row.conditions} ({row.verified})")


def row_document(row: Row) -> dict[str, Any]:
    """Write a row for programs."""
    numbers = {name: getattr(row, name) for name in ("value", "low", "high")}
    return {
        "of": row.of,
        "what": row.what,
        **{name: json_number(value) for name, value in numbers.items() if value is not None},
        "unit": row.unit,
        "conditions": row.conditions,
        "source": row.source,
        "verified": row.verified,
    }


def range_document(figure: Range) -> dict[str, Any]:
    """Write a range for programs, with no more digits than it has."""
    from stockroom.science.ranges import rounded

    low, best, high = (json_number(value) for value in rounded(figure))
    return {"low": low, "best": best, "high": high, "unit": figure.unit}


def optional_range(figure: Range | None) -> dict[str, Any] | None:
    """Write a range for programs where there is one."""
    return None if figure is None else range_document(figure)


def used_documents(used: Iterable[Used]) -> list[dict[str, Any]]:
    """Write the figures that an answer was made from, each with its rows."""
    return [
        {"what": one.what, **range_document(one.figure), "sources": [row_document(row) for row in one.rows]}
        for one in used
    ]
