"""Waits that sound and are told on whatever screen one is, those of an earlier session too."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import TYPE_CHECKING

from textual.app import ScreenStackError

from stockroom.tui.waiting import Step, wait_words, waits_in

if TYPE_CHECKING:
    from stockroom.tui.app import StockroomApp

_READ_BY_THEN = 60
"""Seconds for which it is told; the line at the top says it until the work goes on."""


def ring_for_waits(app: StockroomApp) -> None:
    """Sound for every wait that is over and was not told, say what comes next, and bring the line at the top up."""
    now = app.waiting.clock()
    for wait in app.waiting.over():
        late = now - wait.until > timedelta(minutes=1)
        told = wait_words(wait, now, app.studio.zone) if late else "the wait is over"
        app.bell()
        title = f"{told[0].upper()}{told[1:]}: {wait.words}"
        app.notify(wait.next_words, title=title, timeout=_READ_BY_THEN, markup=False)
    if app.screen_stack:  # none while the screens are being left
        _tell_at_the_top(app)


def _tell_at_the_top(app: StockroomApp) -> None:
    try:
        screen = app.screen
    except ScreenStackError:
        return  # the screens are being left
    lines, below = screen.query("WaitLine"), screen.query("AreaLine")
    for line in lines:
        line.tell()  # type: ignore[attr-defined]
    if app.waiting.all() and below and not lines and not screen.query("#waits"):  # which tells of its own
        from stockroom.tui.widgets.wait_line import WaitLine

        screen.mount(WaitLine(), after=below.first())


def forget_draft(app: StockroomApp, form: str, known: Mapping[str, str]) -> None:
    """Forget a form that was begun, and what it waits for: it was booked, or is not wanted any more."""
    app.drafts.forget(form, known)
    app.waiting.stop_all(form, known)


async def take_up_waits(app: StockroomApp) -> None:
    """Let the waits run that are kept with forms, of an earlier session or another window; those over are told."""
    drafts = await app.database.run(lambda store: app.drafts.all())
    app.waiting.take_up(
        {
            Step(draft.form, frozenset(draft.known.items()), number): wait
            for draft in drafts
            for number, wait in waits_in(draft.progress).items()
        }
    )
    app.ring()
