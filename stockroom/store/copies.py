"""Copies of a stockroom file: complete, looked through, and in their place whole or not at all.

SQLite alone reads the live file: a program that opens and closes it by itself loses SQLite's locks on it
(sqlite.org, howtocorrupt). `VACUUM INTO` writes a copy while others work, but may leave half of one where it is cut off
and does not sync it (lang_vacuum), so a copy grows under another name, is looked through, synced and then renamed.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from stockroom.errors import AlreadyExists, BadInput, DatabaseUnusable, Refused
from stockroom.progress import Progress, quiet
from stockroom.store.failures import DAMAGE, translated
from stockroom.store.open import Store, recognised
from stockroom.store.seals import FIRST, action_of_seal, count_sealed, last_seal

LEFTOVER_SECONDS = 3600.0
"""A copy that was begun longer ago than this and never finished belongs to a program that was killed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A stockroom file that lies aside."""

    path: Path
    last_seal: str
    """By `verify --seal` it shows later whether what was copied is still in the books as it was."""
    actions: int
    size: int
    """Bytes."""


def copy_store(store: Store, target: Path, *, replace: bool = False, progress: Progress = quiet) -> Copy:
    """Copy a stockroom while it is in use.

    Raises AlreadyExists where something is at `target` and is not to be replaced, BadInput where it cannot be
    written, DatabaseUnusable where the stockroom or its copy is damaged.
    """
    if target.exists() and target.samefile(store.path):
        raise BadInput(f"{target} is the stockroom itself. Name another file for the copy.")
    with growing(target, replace=replace) as part:
        _vacuum(store, part, progress)
        copied = read_copy(part, progress)
        if copied.actions and action_of_seal(store, copied.last_seal) is None:
            raise DatabaseUnusable(f"The copy of {store.path} does not end as the stockroom does.", why="damaged")
        put_in_place(part, target, replace=replace)
    return Copy(path=target, last_seal=copied.last_seal, actions=copied.actions, size=target.stat().st_size)


def read_copy(path: Path, progress: Progress = quiet) -> Copy:
    """Look through a copy, page by page and reference by reference, without writing to it.

    Raises DatabaseUnusable where it is missing, not a stockroom, made by a newer program or damaged.
    """
    with opened_to_read(path) as store:
        store.check_soundness("integrity_check", lambda: progress("looking through the copy", 0, 1))
        if store.rows("PRAGMA foreign_key_check"):
            raise DatabaseUnusable(f"{path} is damaged: rows name others that are not there.", why="damaged")
        return copy_as_told(store)


def copy_as_told(store: Store) -> Copy:
    """Return what an open copy says of itself; one of the first form has nothing sealed."""
    sealed = store.row("SELECT 1 FROM sqlite_schema WHERE name = 'seal'") is not None
    return Copy(
        path=store.path,
        last_seal=last_seal(store) if sealed else FIRST,
        actions=count_sealed(store) if sealed else 0,
        size=store.path.stat().st_size,
    )


@contextmanager
def opened_to_read(path: Path) -> Iterator[Store]:
    """Open a copy as it is, of whatever form, for reading alone. Raises DatabaseUnusable."""
    with closing(recognised(path, "ro")[0]) as connection:
        yield Store(path, connection)


def _vacuum(store: Store, part: Path, progress: Progress) -> None:
    whole = max(1, store.path.stat().st_size)

    def tell() -> None:
        with suppress(OSError):
            progress("copying", min(part.stat().st_size, whole), whole)

    try:
        with store.telling(tell):
            store.connection.execute("VACUUM INTO ?", (str(part),))
    except DAMAGE as error:
        raise translated(error, part if "unable to open" in str(error) else store.path) from error


@contextmanager
def growing(target: Path, *, replace: bool) -> Iterator[Path]:
    """Give an empty file beside `target`, its owner's only, to be filled and then put in place by the body.

    Raises AlreadyExists, and BadInput where the folder cannot be written to. What is not put in place is removed.
    """
    if target.is_dir():
        raise BadInput(f"{target} is a folder. Name a file in it.")
    if target.exists() and not replace:
        raise _taken(target)
    part = target.with_name(f"{target.name}.{os.getpid()}.part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        _clear_leftovers(target)
        os.close(os.open(part, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600))
    except OSError as error:
        raise BadInput(f"Cannot write {target}: {error.strerror}. Choose a folder you may write to.") from error
    try:
        yield part
    except OSError as error:
        raise BadInput(f"{target} could not be written: {error.strerror}. Nothing was left of it.") from error
    finally:
        for left in (part, Path(f"{part}-journal")):
            left.unlink(missing_ok=True)


def put_in_place(part: Path, target: Path, *, replace: bool) -> None:
    """Sync a finished file and give it its name; another one of that name is replaced in one step, or stays."""
    with part.open("rb+") as file:
        os.fsync(file.fileno())
    if replace:
        os.replace(part, target)
    else:
        try:
            os.link(part, target)  # unlike a rename it refuses to overwrite what came meanwhile
        except FileExistsError:
            raise _taken(target) from None
        except OSError:  # a file system without hard links, as on most memory sticks
            if target.exists():
                raise _taken(target) from None
            os.replace(part, target)
    _sync_folder(target.parent)


def swap_in(part: Path, path: Path, aside: Path) -> Path | None:
    """Put a finished stockroom in the place of the present one; return where that one is now, if there was one.

    Raises Refused where another window is writing.
    """
    if not path.exists():
        _move_journals(path, aside)
        put_in_place(part, path, replace=False)
        return None
    with _held_alone(path):
        # beside a file that it does not belong to, a journal would be played back into it
        _move_journals(path, aside)
        try:
            os.link(path, aside)
        except OSError:
            os.replace(path, aside)
        try:
            put_in_place(part, path, replace=True)
        except OSError:
            if not path.exists():
                os.replace(aside, path)
            raise
    return aside


def _move_journals(path: Path, aside: Path) -> None:
    for ending in ("-journal", "-wal", "-shm"):
        with suppress(FileNotFoundError):
            os.replace(f"{path}{ending}", f"{aside}{ending}")


def lying_aside(path: Path) -> list[Path]:
    """Return the files that were set aside when copies were put in the place of `path`."""
    return sorted(path.parent.glob(f"{_literal(path.stem)}-set-aside-*{_literal(path.suffix)}"))


def aside_name(path: Path, moment: datetime) -> Path:
    """Return a name that is free, with the date on which a file was set aside."""
    stem = f"{path.stem}-set-aside-{moment:%Y-%m-%d-%H%M%S}"
    names = (path.with_name(f"{stem}{more}{path.suffix}") for more in ("", *(f"-{n}" for n in range(2, 1000))))
    return next(name for name in names if not name.exists())


@contextmanager
def _held_alone(path: Path) -> Iterator[None]:
    """Keep every other window from reading and writing while the file is replaced; a damaged one is not held.

    Raises Refused where another window is writing.
    """
    try:
        connection, _ = recognised(path, "rw")
    except DatabaseUnusable:
        yield
        return
    with closing(connection):
        try:
            connection.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError as error:
            if "locked" in str(error):
                raise Refused(
                    "Another stockroom window is at work. Close it, and try again; nothing was changed."
                ) from error
        except DAMAGE:
            pass
        yield


def copy_aside(store: Store, database: Path, why: str) -> Copy:
    """Put a copy into the folder of copies of `database`, because of something that could go wrong; `why` names it.

    Raises DatabaseUnusable where that cannot be done.
    """
    from stockroom.paths import copies_folder

    target = copies_folder(database) / f"{datetime.now(UTC):%Y-%m-%d-%H%M%S}-{why}.db"
    try:
        return copy_store(store, target)
    except AlreadyExists:
        return read_copy(target)  # another window had the same thought within this second
    except BadInput as error:
        raise DatabaseUnusable(
            f"No copy could be taken first, so nothing was changed. {error.message} "
            "STOCKROOM_COPIES names another folder.",
            why="no-copy",
        ) from error


def draw_up(copy: Path, part: Path) -> None:
    """Write what a copy holds to `part`, without writing to the copy. Raises DatabaseUnusable where it is damaged."""
    with opened_to_read(copy) as store:
        _vacuum(store, part, quiet)


def _taken(target: Path) -> AlreadyExists:
    return AlreadyExists(f"{target} is there already. Choose another name, or say --replace.")


def _clear_leftovers(target: Path) -> None:
    for left in target.parent.glob(f"{_literal(target.name)}.*.part*"):
        with suppress(FileNotFoundError):  # another window finished it between the two looks
            if time.time() - left.stat().st_mtime > LEFTOVER_SECONDS:
                left.unlink()


def _literal(name: str) -> str:
    return "".join(f"[{char}]" if char in "*?[" else char for char in name)


def _sync_folder(folder: Path) -> None:
    """Let a rename last through a power cut, where the system lets folders be synced."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
