"""How a screen's refresh grows with the books: a million entries and five thousand lots against ten thousand.

CPU time of this process, from asking a screen to load again until it has filled itself and painted, the least of some
rounds taken in turns; `large_stockroom.py` says what the two stockrooms hold. What is due is judged anew each time, as
after a booking. Then what coming back to a plan takes, and narrowing a crowded shelf by words, and finding. Run it as
`python tests/bench/screens.py`.
"""

from __future__ import annotations

import asyncio
import os
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import AsyncExitStack
from datetime import timedelta
from functools import partial
from pathlib import Path
from typing import Any

from large_stockroom import ENDS, LAST_DAYS, stockroom
from textual.widgets import Input

from stockroom.store.jobs import all_jobs
from stockroom.store.lots import shelf
from stockroom.store.open import open_store
from stockroom.tui.app import StockroomApp
from stockroom.tui.areas import AREAS
from stockroom.tui.finding import Finder
from stockroom.tui.page import Page

ROUNDS = 5
MOST = 1.2


class Screens:
    """One stockroom on screen, and the pages that are refreshed."""

    def __init__(self, path: Path, state: Path) -> None:
        self._state = state
        self.app = StockroomApp(path, by=None, now=lambda: ENDS)
        with open_store(path) as store:
            begun = ENDS - timedelta(days=LAST_DAYS)
            self._jar = next(one.code for one in shelf(store, "hydroxide") if one.is_jar)
            self._job = next(one.code for one in all_jobs(store) if one.title == f"Charts {begun:%Y-%m}-40")

    def pages(self) -> dict[str, Callable[[], Page]]:
        """Return how each page beside the areas of work is begun."""
        from stockroom.tui.screens.jar import JarScreen
        from stockroom.tui.screens.job import JobScreen
        from stockroom.tui.screens.lot import LotScreen

        return {
            "lot": lambda: LotScreen(self._jar),
            "jar over time": lambda: JarScreen(self._jar),
            "job": lambda: JobScreen(self._job),
        }

    async def refresh(self, pilot: Any, page: Page) -> float:
        """Load a page again; return the CPU time until it is painted."""
        for note in self._state.rglob("due-*.json"):
            note.unlink()
        return await self.painted(pilot, page, page.load)

    async def painted(self, pilot: Any, page: Page, begin: Callable[[], object]) -> float:
        """Begin what makes a page fetch; return the CPU time until that is painted."""
        read, fetch = asyncio.Event(), page.fetch

        async def fetched(job: Callable[..., Any]) -> Any:
            found = await fetch(job)
            read.set()
            return found

        page.fetch = fetched  # type: ignore[method-assign]
        begun = time.process_time()
        begin()
        await asyncio.wait_for(read.wait(), 120)
        await pilot.pause(0)
        taken = time.process_time() - begun
        del page.fetch
        return taken


async def show(screens: Screens, pilot: Any, name: str) -> Page:
    """Bring a page up and wait until it has loaded for the first time."""
    if name in AREAS:
        await screens.app.switch_mode(name)
    else:
        await screens.app.push_screen(screens.pages()[name]())
    await pilot.pause()
    page = screens.app.screen
    assert isinstance(page, Page)
    return page


async def visits(path: Path, state: Path) -> None:
    """Print what coming back to a plan takes while nothing has changed, against coming back after a change."""
    one = Screens(path, state)
    async with one.app.run_test(size=(100, 30)) as pilot:
        for name in ("plan", "buy"):
            page = await show(one, pilot, name)
            least = [float("inf")] * 2
            for _ in range(ROUNDS):
                for changed in (False, True):
                    await show(one, pilot, "count")
                    page._loaded = not changed
                    begun = time.process_time()
                    await show(one, pilot, name)
                    while not all(worker.is_finished for worker in one.app.workers):
                        await asyncio.sleep(0.01)
                    await pilot.pause(0)
                    least[changed] = min(least[changed], time.process_time() - begun)
            kept, anew = least
            print(
                f"{name}, come back to: {kept * 1000:.0f} and {anew * 1000:.0f} ms: {kept / anew:.2f} times", flush=True
            )


async def narrowing(paths: Sequence[Path], state: Path) -> None:
    """Print how long the shelf takes for one more letter typed, on a shelf of a hundred lots and of twenty thousand."""
    least = []
    for path in paths:
        one = Screens(path, state)
        async with one.app.run_test(size=(100, 30)) as pilot:
            page = await show(one, pilot, "shelf")
            typed = page.query_one(Input)
            taken = []
            for letters in range(3, 3 + ROUNDS):
                words = "hydroxide"[:letters]
                taken.append(await one.painted(pilot, page, partial(setattr, typed, "value", words)))
            least.append(min(taken))
    little, much = least
    print(f"shelf, a letter typed: {little * 1000:.0f} and {much * 1000:.0f} ms: {much / little:.2f} times")


def finding(path: Path) -> None:
    """Print what finding by one more letter takes with twenty thousand lots, against finding by the first."""
    least = [float("inf")] * 2
    with open_store(path) as store:
        for _ in range(ROUNDS):
            finder = Finder(store)
            for again, words in enumerate(("hydro", "hydrox")):
                begun = time.process_time()
                finder.find(words)
                least[again] = min(least[again], time.process_time() - begun)
    first, more = least
    print(
        f"find, the first letters and one more: {first * 1000:.0f} and {more * 1000:.0f} ms: {more / first:.2f} times"
    )


async def compare(paths: Sequence[Path], state: Path) -> None:
    """Print for each page how long its refresh takes on either stockroom, and the ratio."""
    async with AsyncExitStack() as stack:
        both = [Screens(path, state) for path in paths]
        pilots = [await stack.enter_async_context(one.app.run_test(size=(100, 30))) for one in both]
        slowest = [0.0, 0.0]
        for name in [*(area for area, where in AREAS.items() if ":" in where), *both[0].pages()]:
            pages = [await show(one, pilot, name) for one, pilot in zip(both, pilots, strict=True)]
            least = [float("inf")] * 2
            for _ in range(ROUNDS):
                for index, one in enumerate(both):
                    least[index] = min(least[index], await one.refresh(pilots[index], pages[index]))
            slowest = [max(pair) for pair in zip(slowest, least, strict=True)]
            little, much = least
            print(f"{name}: {little * 1000:.0f} and {much * 1000:.0f} ms: {much / little:.2f} times", flush=True)
        print(f"the slowest: {slowest[1] / slowest[0]:.2f} times ({MOST} at most)")


def main() -> None:
    small, large = paths = [stockroom("small"), stockroom("large")]
    crowded = stockroom("crowded")
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = os.environ["STOCKROOM_COPIES"] = folder
        asyncio.run(compare(paths, Path(folder)))
        asyncio.run(visits(large, Path(folder)))
        asyncio.run(narrowing([small, crowded], Path(folder)))
        finding(crowded)


if __name__ == "__main__":
    main()
