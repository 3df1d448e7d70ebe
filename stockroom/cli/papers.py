"""A report on the command line: shown as text, or written to a file."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.session import Session

if TYPE_CHECKING:
    from stockroom.labels.paper import Paper


def paper_options(command: Callable[..., None]) -> Callable[..., None]:
    """Add --out and --replace; the command gets them as one `into`, for `hand_out`."""

    @wraps(command)
    def with_file(*arguments: Any, out: Path | None, replace: bool, **rest: Any) -> None:
        command(*arguments, into=(out, replace), **rest)

    with_file = click.option("--replace", is_flag=True, help="With --out: put it in the place of a file of that name.")(
        with_file
    )
    return click.option(
        "--out", type=click.Path(path_type=Path), metavar="FILE", help="A .pdf, .md or .txt file; else the terminal."
    )(with_file)


def hand_out(session: Session, paper: Paper, into: tuple[Path | None, bool], document: dict[str, Any]) -> None:
    """Write a report to the file that was asked for, or say it; `files[]` of the document names the file."""
    out, replace = into
    if out is None:
        from stockroom.labels.paper_words import write_text

        session.document({**document, "files": []})
        session.say(write_text(paper).rstrip("\n"))
        return
    from stockroom.labels.paper_files import write_paper

    path = write_paper(paper, out.expanduser(), replace=replace)
    session.document({**document, "files": [str(path)]})
    session.say(f"Written: {path}")
