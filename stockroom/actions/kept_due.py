"""What is due, kept in the state folder as long as neither the stockroom file nor the day has changed.

Derived and thrown away at will: judging anew gives the same. It is never kept in the stockroom file, which commands
that only read do not write to.
"""

from __future__ import annotations

import json
import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import asdict
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zlib import crc32

from stockroom import __version__
from stockroom.paths import state_folder
from stockroom.planning.due import Due
from stockroom.store.open import SCHEMA_VERSION, Store

if TYPE_CHECKING:
    from stockroom.domain.lots import Lot

SETTLED_SECONDS = 2.0
"""A file written to within this time may be written to again without its times showing it: nothing is kept of it."""


class KeptDue:
    """The note of what was due in a stockroom at a moment, `within` days ahead."""

    def __init__(self, store: Store, local: datetime, within: int) -> None:
        self._store, self._local, self._within = store, local, within
        self._stamp = _stamp(store, within)
        self._note = state_folder() / f"due-{crc32(str(store.path).encode()):08x}.json"

    def read(self) -> list[Due] | None:
        """Return what was kept, or None where anything has changed since, or something became due."""
        found = _read(self._note)
        if found.get("stamp") == self._stamp and found["since"] <= _minute(self._local) < found["before"]:
            return [Due(**each) for each in found["items"]]
        return None

    def write(self, items: Sequence[Due], lots: Sequence[Lot]) -> None:
        """Keep what was judged from these lots, unless the file was written to a moment ago or meanwhile."""
        settled = time.time() - self._store.path.stat().st_mtime > SETTLED_SECONDS
        if settled and self._stamp == _stamp(self._store, self._within):
            _write(
                self._note,
                {
                    "stamp": self._stamp,
                    "since": _minute(self._local),
                    "before": _holds_before(lots, self._local),
                    "items": [asdict(item) for item in items],
                },
            )


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
