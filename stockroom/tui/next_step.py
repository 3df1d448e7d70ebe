"""What follows a booking: its label, its page, or undo."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from textual.content import Content

from stockroom.actions.carrying_out import Outcome
from stockroom.tui.app import StockroomApp
from stockroom.tui.booking import undo_action
from stockroom.tui.forms.form import Form
from stockroom.tui.questions.label import LabelQuestion
from stockroom.tui.questions.result import Result

Kind = TypeVar("Kind", bound=Outcome)


async def show_result(
    app: StockroomApp,
    title: str,
    told: Content,
    *,
    action: str | None,
    lot: str | None = None,
    labels: Sequence[str] = (),
) -> None:
    """Show what was booked, and do what is asked next until it was read.

    `lot` is whose page may be wanted, `labels` are those whose labels are, where they are several.
    """
    offered = (("label", "lot") if lot else ()) + (("undo",) if action else ())
    while answer := await app.push_screen_wait(Result(title, told, offered=offered)):
        if answer == "label" and lot:
            await app.push_screen_wait(LabelQuestion(labels or [lot]))
        elif answer == "lot" and lot:
            app.open_code(lot)
            return
        elif answer == "undo" and action and await undo_action(app, action, title):
            return


async def show_booked(app: StockroomApp, form: Form[Kind], done: Kind) -> None:
    """Show what a form booked, and open what it opens."""
    title, told = form.done(done, app.studio.currency)
    await show_result(
        app, title, told, action=getattr(done, "action", None), lot=form.lot(done), labels=form.labels(done)
    )
    opened = form.opens(done)
    page = form.page(done)
    if opened:
        app.open_code(opened)
    elif page:
        from stockroom.tui.screens.thing import open_thing

        open_thing(app, *page)
