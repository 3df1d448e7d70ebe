"""What is done once on each real day: look through the stockroom file, and take the copy of the day.

The day is kept in the state folder, never in the file.
"""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, datetime

from stockroom.paths import state_folder
from stockroom.progress import Progress, quiet
from stockroom.store.open import Store


def check_once_a_day(store: Store, progress: Progress = quiet) -> str | None:
    """Let SQLite look through the file and copy it, unless that was done today.

    Raises DatabaseUnusable where the file is damaged; returns in words why no copy could be taken. Without a state
    folder to note the day in, the file is simply looked through again.
    """
    from hashlib import sha256

    today = datetime.now(UTC).date().isoformat()
    note = state_folder() / f"checked-{sha256(str(store.path).encode()).hexdigest()[:16]}"
    with suppress(OSError, UnicodeDecodeError):
        if note.read_text("utf-8") == today:
            return None
    from stockroom.actions.copying import copy_of_the_day

    store.check_soundness(tell=lambda: progress("looking through the file", 0, 1))
    trouble = copy_of_the_day(store, progress)
    if trouble is None:
        with suppress(OSError):
            note.parent.mkdir(parents=True, exist_ok=True)
            note.write_text(today, "utf-8")
    return trouble
