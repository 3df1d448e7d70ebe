"""Bring a stockroom file to the present schema, under the write lock, all or nothing."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from importlib.resources import files

from stockroom.store.open import APPLICATION_ID, SCHEMA_VERSION, Store


def schema_files() -> list[tuple[str, str]]:
    """Return the numbered schema files in order: name and SQL."""
    folder = files("stockroom.store") / "schema"
    found = sorted((file.name, file.read_text("utf-8")) for file in folder.iterdir() if file.name.endswith(".sql"))
    return found


def bring_up_to_date(store: Store, then: Callable[[Store, datetime], None] | None = None) -> None:
    """Apply the schema files this stockroom does not have yet, and run `then` in the same transaction.

    sqlite-utils keeps the record of what was applied. Its own transaction begins deferred and loses a race between
    two windows, so all of it runs inside `write()`.
    """
    from sqlite_utils import Database, Migrations

    migrations = Migrations("stockroom")
    for name, sql in schema_files():
        migrations(name=name)(_applying(sql))
    with store.write() as booked_at:
        # no recursive_triggers argument: the connection's own pragmas stand
        database = Database(store.connection, execute_plugins=False)
        migrations.apply(database)
        store.connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        store.connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION}")
        if then is not None:
            then(store, booked_at)


def _applying(sql: str) -> Callable[..., None]:
    def apply(database: object) -> None:
        database.executescript(sql)  # type: ignore[attr-defined]

    return apply
