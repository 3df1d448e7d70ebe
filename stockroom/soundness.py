"""Look through the stockroom file once on each real day; the day is kept in the state folder, never in the file."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, datetime

from stockroom.paths import state_folder
from stockroom.store.open import Store


def check_once_a_day(store: Store) -> None:
    """Let SQLite look through the file unless that was done today. Raises DatabaseUnusable where it is damaged.

    Without a state folder to note the day in, the file is simply looked through again.
    """
    from hashlib import sha256

    today = datetime.now(UTC).date().isoformat()
    note = state_folder() / f"checked-{sha256(str(store.path).encode()).hexdigest()[:16]}"
    with suppress(OSError, UnicodeDecodeError):
        if note.read_text("utf-8") == today:
            return
    store.check_soundness()
    with suppress(OSError):
        note.parent.mkdir(parents=True, exist_ok=True)
        note.write_text(today, "utf-8")
