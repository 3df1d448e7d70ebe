"""The screens run inside a test: driven by keys, read as text, waited for by what they show."""

from __future__ import annotations

import time
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from datetime import UTC, datetime
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Input

from stockroom.actions.jobs import new_job
from stockroom.actions.making import make
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.tui.app import StockroomApp
from stockroom.tui.widgets.chosen import Chosen

NOW = datetime(2026, 11, 25, 13, 10, tzinfo=UTC)
"""14:10 in the stockroom's zone."""


class Shown:
    """The application while it runs."""

    def __init__(self, app: StockroomApp, pilot: Pilot[None]) -> None:
        self.app, self.pilot = app, pilot

    @property
    def screen(self) -> Screen[Any]:
        return self.app.screen

    @property
    def text(self) -> str:
        """What the screen says, without colours."""
        strips = self.app.screen._compositor.render_strips()
        return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)

    async def until(self, condition: Callable[[], bool], message: str, timeout: float = 60.0) -> None:
        """Wait for a condition; fail with what was waited for and what the screen says."""
        deadline = time.monotonic() + timeout
        while not condition():
            assert time.monotonic() < deadline, f"timed out waiting for {message}; the screen says\n{self.text}"
            await self.pilot.pause(0.005)

    async def sees(self, *words: str) -> None:
        """Wait until the screen says all of these."""
        await self.until(lambda: all(each in self.text for each in words), f"{words}")

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)

    async def fill(self, field: str, words: str) -> None:
        """Put words into a field, as if typed, once it is there."""
        await self.until(lambda: bool(self.screen.query(f"#{field}")), f"the field {field}")
        self.screen.query_one(f"#{field}", Input).value = words
        await self.pilot.pause(0)

    async def answer(self, words: str) -> None:
        """Put words into the one field of a question."""
        await self.until(lambda: self.screen.is_modal and bool(self.screen.query(Input)), "a question with a field")
        self.screen.query_one(Input).value = words
        await self.pilot.pause(0)

    async def choose(self, words: str) -> None:
        """Narrow the list of a question to one line and take it."""
        await self.answer(words)
        await self.sees("1 of ")
        await self.press("enter")
        await self.until(lambda: not self.screen.is_modal, "the choice to be taken")

    async def answer_media(self, initials: str = "AB") -> None:
        """Say who tested media, inks and colours."""
        await self.until(lambda: bool(self.screen.query("#tested")), "the field of the media test")
        self.screen.query_one("#tested", Chosen).choose(initials, f"tested by {initials}")
        await self.pilot.pause(0)


Open = Callable[..., AbstractAsyncContextManager[Shown]]


@pytest.fixture
def screens(store: Store) -> Open:
    """Call it for the screens on this test's stockroom, 25 November 2026, 14:10."""

    @asynccontextmanager
    async def run(size: tuple[int, int] = (100, 30), by: str | None = None) -> AsyncIterator[Shown]:
        app = StockroomApp(store.path, by=by, now=lambda: NOW)
        app.animation_level = "none"
        async with app.run_test(size=size, notifications=True) as pilot:
            shown = Shown(app, pilot)
            await shown.sees("looking 14 days ahead")
            yield shown
            await shown.until(lambda: all(worker.is_finished for worker in app.workers), "the last worker to end")

    return run


@pytest.fixture
def stocked(store: Store, occasion: Callable[..., Occasion]) -> dict[str, str]:
    """Some lots and a job in this test's stockroom; gives their codes."""
    lime = receive(
        store,
        occasion("2026-10-01"),
        Delivery(material="calcium-hydroxide", quantity="500 g", cost=1890, place="shelf", lot_number="7731"),
    )
    old = receive(
        store,
        occasion("2026-10-01"),
        Delivery(material="hydrogen-peroxide-3", quantity="1 L", cost=550, use_by="2026-11-20"),
    )
    jar = make(store, occasion("2026-11-02"), "calcium-hydroxide-saturated", "1 L", place="shelf")
    job = new_job(
        store, "Harbour charts", today=occasion().today, client=None, objects=("Sheet 1, 60 x 80 cm", "Sheet 2")
    )
    return {
        "lime": str(lime.codes[0]),
        "old": str(old.codes[0]),
        "jar": str(jar.codes[0]),
        "job": job.code,
        "receipt": str(lime.action),
    }
