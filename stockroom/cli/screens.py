"""`screens`: the stockroom on screen, which is also what opens without a command."""

from __future__ import annotations

import gc
import os
import sys

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
    path = session.store.path
    from stockroom.tui.app import StockroomApp

    gc.enable()  # the screens stay open for a day

    app = StockroomApp(path, by=session.by or session.settings.by, now=lambda: session.now)
    try:
        app.run()
    finally:
        app.database.close()
    if app.fault is not None:
        raise app.fault
    raise click.exceptions.Exit(app.return_code or 0)
