"""A paper on the command line: shown as text, or written to a file."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.session import Session
from stockroom.errors import BadInput

if TYPE_CHECKING:
    from stockroom.domain.papers import Paper

Into = tuple[Path | None, bool]
"""The file that was asked for, if one was, and whether one of that name is replaced."""


REPORT = "A .pdf, .md or .txt file; else the terminal."
SHEET = "A .pdf, .md, .txt or .csv file; else the terminal."
"""Of a paper with records for a spreadsheet."""


def paper_options(words: str = REPORT) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Add --out, explained in these words, and --replace; the command gets both as one `into`, for `hand_out`."""

    def add(command: Callable[..., None]) -> Callable[..., None]:
        @wraps(command)
        def with_file(*arguments: Any, out: Path | None, replace: bool, **rest: Any) -> None:
            if replace and out is None:
                raise BadInput("--replace goes with --out: say which file.")
            command(*arguments, into=(out and out.expanduser(), replace), **rest)

        for option in (
            click.option("--replace", is_flag=True, help="With --out: put it in the place of a file of that name."),
            click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help=words),
        ):
            with_file = option(with_file)
        return with_file

    return add


def hand_out(session: Session, paper: Paper, into: Into, document: dict[str, Any]) -> None:
    """Write a paper to the file that was asked for, or say it; `files[]` of the document names the file."""
    out, replace = into
    if out is None:
        from stockroom.labels.paper_words import write_text

        session.document({**document, "files": []})
        session.say(write_text(paper).rstrip("\n"))
        return
    from stockroom.actions.papers import write_paper

    path = write_paper(paper, out, replace=replace)
    session.document({**document, "files": [str(path)]})
    session.say(f"Written: {path}")


def hand_out_text(session: Session, paper: Paper, into: Into) -> None:
    """Do the same for a paper that has nothing to say to programs but its text."""
    from stockroom.labels.paper_words import write_text

    hand_out(session, paper, into, {"text": write_text(paper)})
