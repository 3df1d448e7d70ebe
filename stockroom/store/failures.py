"""What SQLite says when a file cannot be used, put into words."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from stockroom.errors import DatabaseUnusable

DAMAGE = (sqlite3.DatabaseError, UnicodeDecodeError)
"""What reading a damaged file raises: SQLite's own errors, and those about words that are no text."""


def translated(error: Exception, path: Path) -> DatabaseUnusable:
    """Say in words what SQLite meant."""
    text = str(error)
    if "locked" in text or "busy" in text:
        return DatabaseUnusable(
            "Another stockroom window is writing. Nothing was changed; try again in a moment.", why="busy"
        )
    if "interrupted" in text:
        return DatabaseUnusable("It was left before it was done. Nothing was changed.", why="left")
    if "not a database" in text:
        return DatabaseUnusable(f"{path} is not a stockroom. Nothing was changed in it.", why="foreign")
    if "readonly" in text or "read-only" in text:
        return DatabaseUnusable(f"{path} cannot be written to. Nothing was changed.", why="read-only")
    if "full" in text:
        return DatabaseUnusable("The disk is full. Nothing was changed; make room and try again.", why="full")
    if "disk I/O" in text:
        return DatabaseUnusable(
            f"The disk would not read or write {path}. Nothing was changed; see that it is connected and has room, and "
            "try again.",
            why="disk",
        )
    if "unable to open" in text:
        return DatabaseUnusable(f"{path} cannot be opened: check that you may read and write it.", why="missing")
    return DatabaseUnusable(
        f"{path} is damaged or not readable ({text}). Nothing was changed; restore the latest copy.",
        why="damaged",
    )
