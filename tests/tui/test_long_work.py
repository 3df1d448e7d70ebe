"""What takes long goes on beside the keys, says how far it has come, and ends when the screens are left."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest

from stockroom.paths import copies_folder
from stockroom.progress import Progress
from stockroom.store.copies import copy_store
from stockroom.store.open import Store, open_store
from stockroom.tui.long_work import Left, LongWork


@pytest.fixture
def at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """What takes long is told of from its beginning."""
    monkeypatch.setattr("stockroom.tui.long_work.TOLD_AFTER_SECONDS", -1.0)


async def test_keys_are_answered_while_it_lasts_and_it_is_told_at_the_foot(screens, stocked, at_once: None) -> None:
    go_on = threading.Event()

    def job(store: Store, progress: Progress) -> None:
        progress("copying", 2, 5)
        go_on.wait(60)

    try:
        async with screens(size=(80, 24)) as shown:
            shown.app.run_worker(shown.app.take_long("copying", job))
            await shown.sees("copying: 40 %")
            await shown.press("f3")
            await shown.sees("3 lots", "copying: 40 %")
            go_on.set()
            await shown.until(lambda: "copying" not in shown.text, "the end of it")
    finally:
        go_on.set()


async def test_what_goes_wrong_in_it_is_told(screens, stocked, tmp_path: Path) -> None:
    (tmp_path / "taken.db").touch()
    async with screens() as shown:
        copy = shown.app.take_long("copying", lambda store, progress: copy_store(store, tmp_path / "taken.db"))
        shown.app.run_worker(copy)
        await shown.sees("is there already")
        await shown.press("enter")


async def test_leaving_ends_a_copy_and_nothing_of_it_stays(store: Store, stocked) -> None:
    """A copy is long only where the file is large, so every step of it is looked at here."""
    work = LongWork(lambda: open_store(store.path))
    target = copies_folder(store.path) / "left.db"

    def job(store: Store, progress: Progress) -> None:
        def leave_once_begun(what: str, done: int, whole: int) -> None:
            progress(what, done, whole)
            work._closed = True

        copy_store(store, target, progress=leave_once_begun)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("stockroom.store.open.OPERATIONS", 1)
        with pytest.raises(Exception, match="It was left before it was done"):
            await work.run("copying", job)
    work.close()
    assert not list(target.parent.glob("left*"))


async def test_what_tells_how_far_it_has_come_ends_there(store: Store, stocked) -> None:
    work = LongWork(lambda: open_store(store.path))

    def job(store: Store, progress: Progress) -> None:
        work._closed = True
        progress("writing", 1, 2)

    with pytest.raises(Left):
        await work.run("writing", job)
    work.close()
