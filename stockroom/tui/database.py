"""All database work of the screens: one thread of its own, one job at a time, off the event loop."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from stockroom.store.open import Store

T = TypeVar("T")


class DatabaseThread:
    """Owns a connection: opened, used and closed in the one thread that SQLite allows."""

    def __init__(self, open_store: Callable[[], Store]) -> None:
        self._executor = ThreadPoolExecutor(max_workers=1, thread_name_prefix="database")
        self._closed = False
        try:
            self._store = self._executor.submit(open_store).result()
        except BaseException:
            self._executor.shutdown()
            raise

    async def run(self, job: Callable[[Store], T]) -> T:
        """Run a job and wait for it. Who stops waiting does not stop the job: a write that began is ended.

        Whoever asks once it is closed is cancelled: the screens are being left.
        """
        if self._closed:
            raise asyncio.CancelledError
        loop = asyncio.get_running_loop()
        running = loop.run_in_executor(self._executor, job, self._store)
        running.add_done_callback(lambda done: done.cancelled() or done.exception())  # nobody may wait for it any more
        return await asyncio.shield(running)

    def run_before_start(self, job: Callable[[Store], T]) -> T:
        """Run a job where no event loop runs yet."""
        return self._executor.submit(job, self._store).result()

    def close(self) -> None:
        """Wait for what has begun, then close the connection. Closing twice does nothing."""
        if not self._closed:
            self._closed = True
            self._executor.submit(self._store.close).result()
            self._executor.shutdown()
