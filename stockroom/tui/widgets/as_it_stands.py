"""What is shown as it was typed or as it will print, whatever form the studio chose for its screens."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import App
from textual.filter import LineFilter
from textual.widget import Widget
from textual.widgets import Input, Static

from stockroom.tui.widgets.picture import Picture


def _as_it_stands(widget: Widget) -> Sequence[LineFilter]:
    """Return only the filters of every app, such as the one for terminals without colours."""
    return App.get_line_filters(widget.app)


class TypedInput(Input):
    """A field: what is typed in it stays as it was typed."""

    get_line_filters = _as_it_stands


class Printed(Static):
    """Words of a label, as they will print."""

    get_line_filters = _as_it_stands


class PrintedPaper(Picture):
    """A paper, as it will print."""

    get_line_filters = _as_it_stands
