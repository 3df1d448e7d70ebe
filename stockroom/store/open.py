"""Open a stockroom file, or say plainly why it cannot be used.

The settings follow sqlite.org's pragma and howtocorrupt pages: rollback journal, EXTRA synchronisation, foreign keys
and recursive triggers on, untrusted schema, and no file created by a mistyped path.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.parse import quote

from stockroom.errors import DatabaseUnusable
from stockroom.store.failures import DAMAGE, translated
from stockroom.store.statements import change, insertion

APPLICATION_ID = 0x53544B52
"""Marks the file as a stockroom's ("STKR")."""

SCHEMA_VERSION = 19
"""How many files of schema/ have been applied."""

PRAGMAS: Mapping[str, int | str] = {
    "foreign_keys": 1,
    "synchronous": 3,
    "recursive_triggers": 1,
    "trusted_schema": 0,
    "cell_size_check": 1,
    "fullfsync": 1,
    "journal_mode": "delete",
}
"""What every connection sets, and what each reads back as."""

BUSY_SECONDS = 10.0

OPERATIONS = 20_000
"""Steps of SQLite's machine between two looks at how far something long has come."""

Row = sqlite3.Row


class Store:
    """One connection to one stockroom file, for one thread."""

    def __init__(self, path: Path, connection: sqlite3.Connection) -> None:
        self.path = path
        self.connection = connection
        self._file = _identity(path)
        self._together = False
        self._commits = 0
        """How often this connection kept a change."""

    def rows(self, sql: str, **named: Any) -> list[Row]:
        """Return every row of a query; never leaves a half-read cursor that would hold a lock."""
        try:
            return self.connection.execute(sql, named).fetchall()
        except DAMAGE as error:
            raise translated(error, self.path) from error

    def each(self, sql: str, **named: Any) -> Iterator[Row]:
        """Yield the rows of a query one by one, for what is too much to hold; only inside one moment of reading."""
        if not self.connection.in_transaction:
            raise RuntimeError("a long reading runs inside a transaction of its own")
        try:
            yield from self.connection.execute(sql, named)
        except sqlite3.DatabaseError as error:
            raise translated(error, self.path) from error

    def row(self, sql: str, **named: Any) -> Row | None:
        """Return the first row of a query, or None."""
        return next(iter(self.rows(sql, **named)), None)

    def run(self, sql: str, **named: Any) -> int:
        """Run one statement inside `write()`; return the row id of an insert."""
        if not self.connection.in_transaction:
            raise RuntimeError("statements that change the stockroom run inside write()")
        return self.connection.execute(sql, named).lastrowid or 0

    def insert(self, table: str, **columns: Any) -> int:
        """Insert a row inside `write()`, and return its id."""
        return self.run(insertion(table, *columns), **columns)

    def update(self, table: str, row_id: int, **columns: Any) -> None:
        """Change columns of the row of that id, inside `write()`."""
        self.run(change(table, *columns), row_id=row_id, **columns)

    @contextmanager
    def write(self) -> Iterator[datetime]:
        """Take the write lock, yield the moment of booking (UTC), and keep all of the body or none of it.

        Reads made for the decision belong inside. Raises DatabaseUnusable when another window holds the lock for
        ten seconds, or the disk is full or read-only, or the file was replaced since it was opened.
        """
        begin, keep, undo = "BEGIN IMMEDIATE", "COMMIT", ["ROLLBACK"]
        if self._together:
            begin, keep, undo = "SAVEPOINT step", "RELEASE step", ["ROLLBACK TO step", "RELEASE step"]
        try:
            self.connection.execute(begin)
        except DAMAGE as error:
            raise translated(error, self.path) from error
        changed = self.connection.total_changes
        try:
            self._refuse_where_replaced()
            yield datetime.now(UTC)
            self.connection.execute(keep)
            self._commits += not self._together and self.connection.total_changes > changed
        except BaseException as error:
            if self.connection.in_transaction:
                for statement in undo:
                    self.connection.execute(statement)
            if isinstance(error, DAMAGE) and not isinstance(error, sqlite3.IntegrityError | sqlite3.ProgrammingError):
                raise translated(error, self.path) from error
            raise

    @contextmanager
    def write_together(self) -> Iterator[datetime]:
        """Make one transaction of several actions: each `write()` inside is a step of it.

        A step that fails is taken back alone, and its error may be caught; what the body raises takes back all.
        """
        with self.write() as booked_at:
            self._together = True
            try:
                yield booked_at
            finally:
                self._together = False

    @contextmanager
    def reading_only(self) -> Iterator[None]:
        """Let nothing be changed meanwhile: whoever tries gets DatabaseUnusable."""
        self.connection.execute("PRAGMA query_only = 1")
        try:
            yield
        finally:
            self.connection.execute("PRAGMA query_only = 0")

    def revision(self) -> tuple[int, int, int]:
        """Return a value that changes when anything was committed, here or by another window, booked or not.

        Its second number is that of the last action.
        """
        (outside,) = self.connection.execute("PRAGMA data_version").fetchone()
        row = self.row("SELECT max(number) AS last FROM action")
        return outside, int(row["last"] or 0) if row else 0, self._commits

    def _refuse_where_replaced(self) -> None:
        """What would be written to a file that has lost its name would be lost with it."""
        if _identity(self.path) != self._file:
            raise DatabaseUnusable(
                f"{self.path} was replaced or moved since this window opened it, as by restoring a copy. Nothing was "
                "booked; close the stockroom and open it again.",
                why="replaced",
            )

    @contextmanager
    def telling(self, tell: Callable[[], None]) -> Iterator[None]:
        """Call `tell` at the beginning and now and then during long statements; one that it fails in is interrupted."""

        tell()
        self.connection.set_progress_handler(tell, OPERATIONS)
        try:
            yield
        finally:
            self.connection.set_progress_handler(None, OPERATIONS)

    def check_soundness(self, how: str = "quick_check", tell: Callable[[], None] = lambda: None) -> None:
        """Let SQLite look through the whole file: quick_check, or integrity_check for its indexes too.

        `tell` is called meanwhile, as `telling` does. Raises DatabaseUnusable naming what was found.
        """
        with self.telling(tell):
            found = [row[0] for row in self.rows(f"PRAGMA {how}(5)")]
        if found != ["ok"]:
            raise DatabaseUnusable(
                f"{self.path} is damaged ({'; '.join(found)}). Nothing was changed; restore the latest copy.",
                why="damaged",
            )

    def close(self) -> None:
        self.connection.close()

    def __enter__(self) -> Store:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def open_store(path: Path, *, copied: bool = False) -> Store:
    """Open an existing stockroom.

    Raises DatabaseUnusable when the file is missing, is not a stockroom, was made by a newer program or is damaged.
    An older stockroom is copied, unless it is `copied` already, and then brought up to date.
    """
    real = real_path(path)
    interrupted = Path(f"{real}-journal").exists()
    connection, version = recognised(real, "rw")
    try:
        store = Store(real, connection)
        set_pragmas(connection)
        if version < SCHEMA_VERSION:
            from stockroom.store.copies import copy_aside
            from stockroom.store.migrate import bring_up_to_date

            if not copied:
                copy_aside(store, real, f"before-form-{SCHEMA_VERSION}")
            bring_up_to_date(store)
        if interrupted:
            # a journal beside the file means that a write was cut off: what SQLite took back is looked at once
            store.check_soundness()
    except DAMAGE as error:
        connection.close()
        raise translated(error, real) from error
    except DatabaseUnusable:
        connection.close()
        raise
    return store


def real_path(path: Path) -> Path:
    """Follow links to the file itself. Raises DatabaseUnusable for links that lead nowhere but to themselves."""
    try:
        return path.expanduser().resolve()
    except (OSError, RuntimeError) as error:
        raise DatabaseUnusable(
            f"{path} cannot be followed to a file: it is a link to itself.", why="missing"
        ) from error


def recognised(real: Path, mode: str) -> tuple[sqlite3.Connection, int]:
    """Open a file (`rw`, or `ro` to read alone) that is a stockroom this program knows; return its form as well.

    Raises DatabaseUnusable when it is missing, foreign, newer or damaged.
    """
    if not real.exists():
        raise DatabaseUnusable(
            f"There is no stockroom at {real}. Make one with 'stockroom init', or try 'stockroom demo'.",
            why="missing",
        )
    if not real.is_file():
        raise DatabaseUnusable(f"{real} is not a file. Name the stockroom's database file.", why="foreign")
    try:
        connection = connect(real, mode)
    except DAMAGE as error:
        raise translated(error, real) from error
    try:
        kept = _pragma(connection, "application_id")
        version = _pragma(connection, "user_version")
        if kept != APPLICATION_ID:
            raise DatabaseUnusable(f"{real} is not a stockroom. Nothing was changed in it.", why="foreign")
        if version > SCHEMA_VERSION:
            raise DatabaseUnusable(
                f"{real} was made by a newer stockroom program (form {version}; this one knows {SCHEMA_VERSION}). "
                "Bring this program up to date. Nothing was changed.",
                why="newer",
            )
    except DAMAGE as error:
        connection.close()
        raise translated(error, real) from error
    except DatabaseUnusable:
        connection.close()
        raise
    return connection, version


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        status = path.stat()
    except OSError:
        return None
    return status.st_dev, status.st_ino


def connect(path: Path, mode: str) -> sqlite3.Connection:
    """Open a connection that waits for others; every statement stands by itself until `write()` begins one."""
    connection = sqlite3.connect(
        f"file:{quote(str(path))}?mode={mode}", uri=True, timeout=BUSY_SECONDS, isolation_level=None
    )
    connection.row_factory = sqlite3.Row
    return connection


def set_pragmas(connection: sqlite3.Connection) -> None:
    """Set what every connection sets."""
    for name, value in PRAGMAS.items():
        connection.execute(f"PRAGMA {name} = {value}")
    defensive = getattr(sqlite3, "SQLITE_DBCONFIG_DEFENSIVE", None)  # Python 3.12 and newer
    if defensive is not None:
        connection.setconfig(defensive, True)  # type: ignore[attr-defined, unused-ignore]


def _pragma(connection: sqlite3.Connection, name: str) -> int:
    return int(connection.execute(f"PRAGMA {name}").fetchone()[0])
