"""Every row of every table, and what the seals cover, for an export that needs no program to be read."""

from __future__ import annotations

from collections.abc import Iterator

from stockroom.store.open import Store
from stockroom.store.seals import sealed_text


def tables(store: Store) -> dict[str, list[str]]:
    """Return the tables that people's rows are in, each with its columns in order."""
    names = store.rows("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
    return {
        row["name"]: [column["name"] for column in store.rows(f"PRAGMA table_info({row['name']})")]
        for row in names
        if not row["name"].startswith(("sqlite_", "_sqlite"))
    }


def rows_of(store: Store, table: str, columns: list[str]) -> Iterator[list[str | int | None]]:
    """Return one row after the other, in a settled order; inside `one_moment()`, which holds the file as it is."""
    for row in store.connection.execute(f"SELECT * FROM {table} ORDER BY {', '.join(columns)}"):
        yield list(row)


def action_numbers(store: Store) -> list[int]:
    """Return the numbers of all actions in the order of booking; some numbers have no code and are left out."""
    return [row["number"] for row in store.rows("SELECT number FROM action ORDER BY number")]


def sealed_actions(store: Store) -> Iterator[tuple[int, str, str]]:
    """Return for each action its number, its seal and the text that is sealed."""
    for row in store.connection.execute("SELECT action_number, hash FROM seal ORDER BY action_number"):
        yield row["action_number"], row["hash"], sealed_text(store, row["action_number"])
