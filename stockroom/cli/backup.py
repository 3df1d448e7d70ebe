"""`stockroom backup` and `restore`: copies of the stockroom, and putting one back."""

from __future__ import annotations

from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.progressing import shown_on
from stockroom.cli.session import Session, dry_run_option, why_option
from stockroom.errors import BadInput


@click.command()
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--plain", is_flag=True, help="Write everything as plain text, which outlives this program.")
@click.option("--replace", is_flag=True, help="Replace a file of that name.")
@click.option("--list", "listed", is_flag=True, help="List the copies that were taken without asking.")
@json_option
@click.pass_obj
def backup(session: Session, file: Path | None, plain: bool, replace: bool, listed: bool) -> None:
    """Copy the stockroom to FILE, or into a folder, while it is in use; the copy is looked through and then named.

    Write the last seal down: 'stockroom verify --seal SEAL' shows later that nothing up to it was changed. A copy is
    also taken each day before the first booking, and before the file changes its form; the last of seven days, four
    weeks and twelve months are kept.

    Example: stockroom backup /media/stick
    """
    if listed:
        _list(session)
        return
    if file is None:
        raise BadInput("Name the file for the copy, or the folder it goes into; --list shows the copies there are.")
    from stockroom.actions.copying import back_up
    from stockroom.actions.plain_text import write_plain

    write = write_plain if plain else back_up
    copy = write(session.store, file, replace=replace, progress=shown_on(session))
    session.document({"path": str(copy.path), "last_seal": copy.last_seal, "actions": copy.actions, "bytes": copy.size})
    session.say(f"Copied to {copy.path}: {copy.actions} actions, {copy.size:,} bytes.")
    session.say(f"Last seal: {copy.last_seal}")


def _list(session: Session) -> None:
    from stockroom.actions.copying import kept_copies, tell_copy
    from stockroom.paths import copies_folder

    copies = [(one, tell_copy(one)) for one in kept_copies(session.path)]
    session.document(
        {
            "folder": str(copies_folder(session.path)),
            "copies": [
                {
                    "path": str(one.path),
                    "taken": one.taken.isoformat(),
                    "why": one.why,
                    "actions": said.actions if said else None,
                    "last_seal": said.last_seal if said else None,
                }
                for one, said in copies
            ],
        }
    )
    for one, said in copies:
        holds = f"{said.actions} actions, last seal {said.last_seal[:16]}…" if said else "cannot be read"
        session.say(f"{one.taken:%Y-%m-%d %H:%M} UTC  {one.why}: {holds}\n  {one.path}")
    if not copies:
        session.say(f"No copies yet in {copies_folder(session.path)}: the first is taken before the first booking.")


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@why_option
@dry_run_option
@json_option
@click.pass_obj
def restore(session: Session, file: Path, why: str | None, dry_run: bool) -> None:
    """Put a copy in the stockroom's place. The file that is there is set aside with its date, never overwritten.

    The copy is proved first, like with 'verify'; where its books are not in order it takes a reason. All codes move
    on by a thousand: what was made after the copy was taken is received as found.

    Example: stockroom restore /media/stick/stockroom.db
    """
    from stockroom.actions.restoring import restore as put_back

    done = put_back(
        session.path,
        file,
        lambda store: session.occasion_in(store, why),
        dry_run=dry_run,
        progress=shown_on(session),
    )
    session.document(
        {
            "action": done.action,
            "path": str(done.path),
            "set_aside": str(done.aside) if done.aside else None,
            "copy_seal": done.copy_seal,
            "actions": done.actions,
            "problems": [{"kind": one.kind, "code": one.where, "words": one.words} for one in done.problems],
            "same_stockroom": done.same_stockroom,
        }
    )
    for problem in done.problems:
        session.say(f"! {problem.words}")
    session.say(
        f"{file}: {done.actions} actions, last seal {done.copy_seal}"
        + ("" if done.problems else "; its books are in order.")
    )
    if done.same_stockroom is False:
        session.say(f"It is another stockroom than the one at {done.path}.")
    if dry_run:
        session.say("Nothing was changed.")
        return
    session.say(f"It is now the stockroom at {done.path} (action {done.action}). All codes moved on by a thousand.")
    if done.aside:
        session.say(f"The file that was there is {done.aside}.")
    session.say("What was made after the copy was taken, receive as found: stockroom receive MATERIAL QTY --found")
