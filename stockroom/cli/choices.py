"""What the hand did otherwise than planned, as options of the commands that draw by a recipe."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

import click


def choice_options(command: Callable[..., None]) -> Callable[..., None]:
    """Add --from, --took, --count-first, --added and --reached; the command gets them as one `choices`."""

    @wraps(command)
    def with_choices(
        *arguments: Any,
        lots: tuple[str, ...],
        took: tuple[str, ...],
        count_first: bool,
        added: tuple[str, ...],
        reached: tuple[str, ...],
        **rest: Any,
    ) -> None:
        from stockroom.actions.drawing import Choices

        choices = Choices(
            lots=lots,
            took=took,
            count_first=count_first,
            added=";".join(added) or None,
            reached=";".join(reached) or None,
        )
        command(*arguments, choices=choices, **rest)

    for option in (
        click.option(
            "--reached",
            multiple=True,
            metavar="READING",
            help="For a line to a reading: what the meter read, 'pH 8.2 at 21 °C'; once for each fill.",
        ),
        click.option(
            "--added",
            multiple=True,
            metavar="AMOUNT",
            help="For a line to a reading: what was added, in all or a fill.",
        ),
        click.option("--count-first", is_flag=True, help="Book what the books do not hold as found, then draw."),
        click.option("--took", multiple=True, metavar="'MATERIAL=AMOUNT'", help="What was really taken."),
        click.option("--from", "lots", multiple=True, metavar="CODE", help="Draw from this lot."),
    ):
        with_choices = option(with_choices)
    return with_choices
