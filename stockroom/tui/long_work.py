"""What takes long: in a thread and with a connection of its own, told while it lasts, and left at any time."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from stockroom.progress import Progress
from stockroom.store.open import Store

T = TypeVar("T")

TOLD_AFTER_SECONDS = 1.0
"""What is done sooner is not told of."""


class Left(Exception):
    """The screens are being closed; it ends what is at work."""


class LongWork:
    """One job after the other, while the keys go on being answered from the other connection."""

    def __init__(self, open_store: Callable[[], Store]) -> None:
        self._open_store = open_store
        self._executor: ThreadPoolExecutor | None = None
        self._words, self._began, self._closed = "", 0.0, False

    @property
    def words(self) -> str:
        """What is at work and how far it has come; nothing for what has just begun."""
        return self._words if time.monotonic() - self._began > TOLD_AFTER_SECONDS else ""

    async def run(self, what: str, job: Callable[[Store, Progress], T]) -> T:
        """Run a job, `what` in words, and wait for it. Who stops waiting does not stop it."""
        if self._executor is None:
            self._executor = ThreadPoolExecutor(max_workers=1, thread_name_prefix="long-work")
        running = asyncio.get_running_loop().run_in_executor(self._executor, self._work, what, job)
        running.add_done_callback(lambda done: done.cancelled() or done.exception())  # nobody may wait for it any more
        return await asyncio.shield(running)

    def close(self) -> None:
        """End what is at work where it tells how far it has come, else wait for it."""
        self._closed = True
        if self._executor is not None:
            self._executor.shutdown(cancel_futures=True)

    def _work(self, what: str, job: Callable[[Store, Progress], T]) -> T:
        self._words, self._began = what, time.monotonic()
        try:
            with self._open_store() as store:
                return job(store, self._tell)
        finally:
            self._words = ""

    def _tell(self, what: str, done: int, whole: int) -> None:
        if self._closed:
            raise Left
        self._words = f"{what}: {100 * done // whole} %" if done and whole else what
