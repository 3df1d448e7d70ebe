"""Show on stderr how far something long has come; what is done at once shows nothing."""

from __future__ import annotations

import time

from stockroom.cli.output import Output
from stockroom.progress import Progress

EVERY_SECONDS = 2.0


def shown_on(output: Output) -> Progress:
    """Return what tells progress: a line every two seconds, the first after two."""
    told = time.monotonic()

    def tell(what: str, done: int, whole: int) -> None:
        nonlocal told
        if time.monotonic() - told >= EVERY_SECONDS:
            told = time.monotonic()
            output.warn(f"… {what}: {100 * done // max(1, whole)} %")

    return tell
