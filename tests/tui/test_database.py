"""The thread of the database: what is asked of it when the screens are being left."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime

import pytest

from stockroom.store.open import Store, open_store
from stockroom.tui.app import StockroomApp
from stockroom.tui.database import DatabaseThread


async def test_whoever_asks_once_it_is_closed_is_cancelled_and_no_fault_is_told(store: Store) -> None:
    database = DatabaseThread(lambda: open_store(store.path))
    assert await database.run(lambda own: own.revision()[1]) == store.revision()[1]
    database.close()
    with pytest.raises(asyncio.CancelledError):
        await database.run(lambda own: own.revision())


async def test_a_wait_is_looked_at_without_a_fault_when_no_screen_is_left(store: Store) -> None:
    app = StockroomApp(store.path, by=None, now=lambda: datetime.now(UTC))
    try:
        assert not app.screen_stack
        app.ring()
    finally:
        app.database.close()
