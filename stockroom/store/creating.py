"""Make a stockroom file: it gets its name when all that it begins with is there."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from stockroom.errors import AlreadyExists
from stockroom.store.copies import growing, put_in_place
from stockroom.store.migrate import bring_up_to_date
from stockroom.store.open import Store, connect, open_store, real_path, set_pragmas


def create_store(path: Path, fill: Callable[[Store, datetime], None] | None = None) -> Store:
    """Make a new stockroom file, readable by its owner only.

    `fill` writes what it begins with, in the very transaction that lays the schema down. The file gets its name when
    all of that is there; where it fails nothing is left behind. Raises AlreadyExists when something is there already,
    BadInput when the folder cannot be written.
    """
    real = real_path(path)
    if real.exists():
        raise AlreadyExists(f"{real} exists already and is never overwritten. Choose another name.")
    with growing(real, replace=False) as part:
        with Store(part, connect(part, "rw")) as store:
            set_pragmas(store.connection)
            bring_up_to_date(store, fill)
        put_in_place(part, real, replace=False)
    return open_store(real)
