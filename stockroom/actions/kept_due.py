"""What is due by reckoning, kept in the state folder as long as neither the stockroom file nor the day has changed.

Derived and thrown away at will: reckoning anew gives the same. It is never kept in the stockroom file, which commands
that only read do not write to.
"""

from __future__ import annotations

import json
import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import asdict
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any
from zlib import crc32

from stockroom import __version__
from stockroom.domain.lots import Lot
from stockroom.paths import state_folder
from stockroom.planning.due import Due
from stockroom.store.open import SCHEMA_VERSION, Store

SETTLED_SECONDS = 2.0
"""A file written to within this time may be written to again without its times showing it: nothing is kept of it."""


def kept_or_reckoned(
    store: Store, lots: Sequence[Lot], local: datetime, within: int, away_until: date | None = None
) -> list[Due]:
    """Return what reckoning makes due: as it was kept, or reckoned now and kept."""
    usable = away_until is None and not store.connection.in_transaction
    note = _note(store)
    stamp, minute = _stamp(store, within), _minute(local)
    if usable:
        found = _read(note)
        if found.get("stamp") == stamp and found["since"] <= minute < found["before"]:
            return [Due(**each) for each in found["items"]]
    from stockroom.actions.reckoned_due import reckon

    items = reckon(store, lots, local, within, away_until)
    if usable and time.time() - store.path.stat().st_mtime > SETTLED_SECONDS and stamp == _stamp(store, within):
        kept = {"stamp": stamp, "since": minute, "before": _holds_before(lots, local)}
        _write(note, {**kept, "items": [asdict(item) for item in items]})
    return items


def _stamp(store: Store, within: int) -> list[str | int]:
    """Return what is the same as long as nothing was written to the file, and the program is the same."""
    file, program = store.path.stat(), Path(__file__).stat().st_mtime_ns
    return [__version__, program, SCHEMA_VERSION, str(store.path), file.st_ino, file.st_size, file.st_mtime_ns, within]


def _minute(local: datetime) -> str:
    return local.strftime("%Y-%m-%dT%H:%M")


def _holds_before(lots: Sequence[Lot], local: datetime) -> str:
    """Return the first minute at which something may be due that was not: midnight, or a lot's own minute."""
    now = _minute(local)
    minutes = [text for lot in lots for text in (lot.use_by, lot.ready_on, lot.check_by) if text and len(text) > 10]
    midnight = _minute(datetime.combine(local.date() + timedelta(days=1), datetime.min.time()))
    return min([midnight, *(text for text in minutes if text >= now)])


def _note(store: Store) -> Path:
    return state_folder() / f"due-{crc32(str(store.path).encode()):08x}.json"


def _read(note: Path) -> dict[str, Any]:
    with suppress(OSError, ValueError):
        found = json.loads(note.read_text("utf-8"))
        if isinstance(found, dict) and {"stamp", "since", "before", "items"} <= found.keys():
            return found
    return {}


def _write(note: Path, values: dict[str, Any]) -> None:
    """Put the note in its place whole. Without a state folder nothing is kept."""
    with suppress(OSError):
        note.parent.mkdir(parents=True, exist_ok=True)
        beside = note.with_suffix(f".{time.monotonic_ns()}")
        beside.touch(mode=0o600)
        beside.write_text(json.dumps(values), "utf-8")
        beside.replace(note)
