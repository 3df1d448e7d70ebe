"""The areas of work, each with its first screen."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any

from textual.screen import Screen

AREAS = {
    "due": "screens.due:DueScreen",
    "shelf": "screens.shelf:ShelfScreen",
    "make": "make",
    "use": "use",
    "check": "check",
    "jobs": "screens.jobs:JobsScreen",
    "plan": "screens.plan:PlanScreen",
    "buy": "screens.buy:BuyScreen",
    "count": "screens.count:CountScreen",
    "bench-book": "screens.bench_book:BenchBookScreen",
}
"""Each area of work and its first screen: a class of this package, or a form by its name. Loaded when first shown."""


def first_screen(area: str) -> Callable[[], Screen[Any]]:
    """Return what makes the first screen of an area."""

    def load() -> Screen[Any]:
        where = AREAS[area]
        if ":" in where:
            module, name = where.split(":")
            screen: Screen[Any] = getattr(import_module(f"stockroom.tui.{module}"), name)()
            return screen
        from stockroom.tui.forms import find_form
        from stockroom.tui.screens.form import FormScreen

        return FormScreen(find_form(where), area=area)

    return load
