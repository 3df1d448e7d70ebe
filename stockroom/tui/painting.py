"""Paints the screens in the form of dates and numbers that the studio chose."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.app import App

from stockroom.store.stockroom_settings import OwnForm

if TYPE_CHECKING:
    from textual.filter import LineFilter


class PaintedApp(App[None]):
    """Nothing is loaded and every line stays as it is until the studio chooses."""

    _form = OwnForm()
    _in_own_form: Sequence[LineFilter] = ()

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Return what every painted line goes through, the studio's own form last."""
        return [*super().get_line_filters(), *self._in_own_form]

    def paint_in(self, form: OwnForm) -> None:
        """Paint the screens of every area in a form, at once where it is not the present one."""
        if form == self._form:
            return
        self._form, self._in_own_form = form, ()
        if form != OwnForm():
            from stockroom.tui.own_form import InOwnForm

            self._in_own_form = (InOwnForm(form),)
        for screen in (one for stack in self._screen_stacks.values() for one in stack):
            for widget in screen.walk_children(with_self=True):
                widget.refresh()
