"""The plain statements that put a row in and change one, written once for each table and set of columns."""

from __future__ import annotations

from functools import cache


@cache
def insertion(table: str, *columns: str) -> str:
    """Write an insert of one row, each value under its column's name."""
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({', '.join(f':{name}' for name in columns)})"


@cache
def change(table: str, *columns: str) -> str:
    """Write an update of the row whose id is given as `row_id`, likewise."""
    return f"UPDATE {table} SET {', '.join(f'{name} = :{name}' for name in columns)} WHERE id = :row_id"
