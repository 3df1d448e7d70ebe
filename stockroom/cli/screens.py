"""`screens`: the stockroom on screen, which is also what opens without a command."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path

import click

from stockroom.cli.session import Session
from stockroom.errors import BadInput


@click.command()
@click.pass_obj
def screens(session: Session) -> None:
    """Open the screens: what is due, the shelf, making up, using for a job."""
    open_screens(session)


def open_screens(session: Session) -> None:
    """Run the screens until they are left. Raises BadInput without a terminal, and what opening a stockroom raises.

    A fault in the program is raised here once the terminal is as it was, so that it is told like any other.
    """
    if not (sys.stdin.isatty() and sys.stdout.isatty()) and "TEXTUAL_DRIVER" not in os.environ:
        raise BadInput(
            "The screens need a terminal. Without one, 'stockroom due' says what has to be done, and "
            "'stockroom --help' names every command."
        )
    first = not session.path.exists()
    if first:
        _begin(session)
    path = session.store.path
    from stockroom.tui.app import StockroomApp

    app = StockroomApp(path, by=session.by or session.settings.by, now=clock_of(session), tour=first)
    try:
        app.run()
    finally:
        app.database.close()
    if app.fault is not None:
        raise app.fault
    raise click.exceptions.Exit(app.return_code or 0)


def clock_of(session: Session) -> Callable[[], datetime]:
    """Return what tells the moment for as long as the screens are open: it goes on, but where --on holds it.

    What --on says is read here, since the session's own connection belongs to this thread.
    """
    if session.on is None:
        return lambda: datetime.now(UTC)
    held = session.now
    return lambda: held


def _begin(session: Session) -> None:
    """Offer to begin a stockroom, or the demo, where none is there; end where neither is wanted."""
    from stockroom.actions.beginning import DEFAULT_CURRENCY
    from stockroom.cli.init import machine_zone
    from stockroom.tui.first_start import FirstStart

    def begin_own(answers: Mapping[str, str]) -> Path:
        from stockroom.actions.beginning import begin

        known = {key: answer for key, answer in answers.items() if answer}
        begun = begin(
            session.path,
            initials=known["initials"],
            name=known.get("name"),
            currency=known.get("currency", DEFAULT_CURRENCY),
            time_zone=known.get("time_zone", machine_zone()),
        )
        session.by = begun.initials
        return begun.path

    def build_demo() -> Path:
        from stockroom.cli.demo import find_or_build

        return find_or_build(session)

    offered = {"initials": session.by or session.settings.by or "", "currency": DEFAULT_CURRENCY}
    app = FirstStart(session.path, begin=begin_own, demo=build_demo, offered=offered | {"time_zone": machine_zone()})
    path = app.run()
    if app.fault is not None:
        raise app.fault
    if path is None:
        raise click.exceptions.Exit(app.return_code or 0)
    session.db = str(path)
    vars(session).pop("path", None)  # it was the path of what was not there
