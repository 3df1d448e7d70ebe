"""Copies: by hand, each day before the first booking, and what is kept of them."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from stockroom.errors import AlreadyExists, BadInput, DatabaseUnusable
from stockroom.paths import copies_folder
from stockroom.planning.kept_copies import copies_to_keep
from stockroom.progress import Progress, quiet
from stockroom.store.copies import Copy, copy_as_told, copy_store, opened_to_read
from stockroom.store.open import Store

_NAMED = re.compile(r"(\d{4}-\d\d-\d\d-\d{6})-(daily|(?:before|after)-[\w-]+)\.db")


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptCopy:
    """A copy that was taken without asking."""

    path: Path
    taken: datetime
    """UTC."""
    why: str
    """daily, or before or after what."""


def back_up(store: Store, target: Path, *, replace: bool = False, progress: Progress = quiet) -> Copy:
    """Copy the stockroom to a file; in a folder the copy gets a name with its date.

    Raises AlreadyExists, BadInput, DatabaseUnusable as `copy_store` does.
    """
    target = target.expanduser()
    if target.is_dir():
        target = target / f"{store.path.stem}-{datetime.now(UTC):%Y-%m-%d-%H%M%S}.db"
    return copy_store(store, target, replace=replace, progress=progress)


def copy_of_the_day(store: Store, progress: Progress = quiet) -> str | None:
    """Take today's copy unless it is there, and thin out older ones; return what went wrong, in words."""
    now = datetime.now(UTC)
    try:
        if any(one.why == "daily" and one.taken.date() == now.date() for one in kept_copies(store.path)):
            return None
        with suppress(AlreadyExists):  # another window took it meanwhile
            copy_store(store, copies_folder(store.path) / f"{now:%Y-%m-%d-%H%M%S}-daily.db", progress=progress)
        thin_out(store.path)
    except (BadInput, DatabaseUnusable, OSError) as error:
        return f"Today's copy could not be taken: {getattr(error, 'message', error)}"
    return None


def kept_copies(database: Path) -> list[KeptCopy]:
    """Return the copies of a stockroom that were taken without asking, newest first."""
    folder = copies_folder(database)
    found = []
    for path in folder.iterdir() if folder.is_dir() else ():
        if match := _NAMED.fullmatch(path.name):
            with suppress(ValueError):
                taken = datetime.strptime(match[1], "%Y-%m-%d-%H%M%S").replace(tzinfo=UTC)
                found.append(KeptCopy(path=path, taken=taken, why=match[2].replace("-", " ")))
    return sorted(found, key=lambda one: one.path.name, reverse=True)


def thin_out(database: Path) -> None:
    """Remove daily copies that need not be kept; of those taken for another reason the last twelve stay."""
    copies = kept_copies(database)
    daily = [one for one in copies if one.why == "daily"]
    kept = copies_to_keep(one.taken for one in daily)
    others = [one for one in copies if one.why != "daily"]
    for one in [*(one for one in daily if one.taken not in kept), *others[12:]]:
        one.path.unlink(missing_ok=True)


def tell_copy(copy: KeptCopy) -> Copy | None:
    """Return what a kept copy says of itself, or None where it cannot be read."""
    try:
        with opened_to_read(copy.path) as store:
            return copy_as_told(store)
    except DatabaseUnusable:
        return None
