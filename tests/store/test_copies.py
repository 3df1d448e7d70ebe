"""A copy is complete, looked through, its owner's only, and in its place whole or not at all."""

from __future__ import annotations

import os
import sqlite3
import time
from pathlib import Path

import pytest
from builders import Bench

from stockroom.actions.copying import copy_of_the_day, kept_copies, thin_out
from stockroom.errors import AlreadyExists, BadInput, DatabaseUnusable
from stockroom.paths import copies_folder
from stockroom.store import copies
from stockroom.store.copies import copy_store, read_copy
from stockroom.store.open import Store, open_store
from stockroom.store.seals import last_seal


@pytest.fixture
def bench(store: Store) -> Bench:
    bench = Bench(store)
    bench.do("receive A 100 for 1000", "take A 20 for J", "count A 75")
    return bench


def rows(path: Path) -> list[str]:
    with sqlite3.connect(path) as connection:
        found = sorted(connection.iterdump())
    connection.close()
    return found


def test_a_copy_taken_in_use_holds_every_row_and_ends_with_the_same_seal(bench: Bench, tmp_path: Path) -> None:
    with open_store(bench.store.path):
        copy = copy_store(bench.store, tmp_path / "copy.db")
    assert rows(copy.path) == rows(bench.store.path)
    assert (copy.last_seal, copy.actions) == (last_seal(bench.store), 3)
    assert copy.path.stat().st_mode & 0o777 == 0o600
    assert [path.name for path in tmp_path.glob("copy*")] == ["copy.db"]


def test_a_copy_never_overwrites_unless_told_to(bench: Bench, tmp_path: Path) -> None:
    target = tmp_path / "copy.db"
    target.write_text("something of mine")
    with pytest.raises(AlreadyExists, match="--replace"):
        copy_store(bench.store, target)
    assert target.read_text() == "something of mine"
    copy_store(bench.store, target, replace=True)
    assert read_copy(target).actions == 3


def test_a_copy_never_replaces_the_stockroom_itself(bench: Bench, tmp_path: Path) -> None:
    (tmp_path / "same.db").symlink_to(bench.store.path)
    for name in (bench.store.path, tmp_path / "same.db"):
        with pytest.raises(BadInput, match="is the stockroom itself"):
            copy_store(bench.store, name, replace=True)


def test_what_fails_half_way_leaves_the_old_copy_and_nothing_else(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "copy.db"
    copy_store(bench.store, target)
    before = rows(target)
    bench.do("take A 1 spilled")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BadInput, match="No space left"):
        copy_store(bench.store, target, replace=True)
    assert rows(target) == before
    assert [path.name for path in tmp_path.glob("copy*")] == ["copy.db"]


def test_a_damaged_stockroom_is_not_copied_as_if_it_were_sound(bench: Bench, tmp_path: Path) -> None:
    bench.store.close()
    data = bytearray(bench.store.path.read_bytes())
    page = int.from_bytes(data[16:18], "big")
    for number in range(3, len(data) // page, 2):
        data[number * page : number * page + 64] = os.urandom(64)
    bench.store.path.write_bytes(bytes(data))
    with pytest.raises(DatabaseUnusable, match="damaged"), open_store(bench.store.path) as store:
        copy_store(store, tmp_path / "copy.db")
    assert not list(tmp_path.glob("copy*"))


def test_what_a_killed_program_left_of_a_copy_is_cleared_later(bench: Bench, tmp_path: Path) -> None:
    old, fresh = tmp_path / "copy.db.123.part", tmp_path / "copy.db.124.part"
    for left in (old, fresh):
        left.touch()
    long_ago = time.time() - copies.LEFTOVER_SECONDS - 1
    os.utime(old, (long_ago, long_ago))
    copy_store(bench.store, tmp_path / "copy.db")
    assert (old.exists(), fresh.exists()) == (False, True)


def test_what_another_window_finishes_meanwhile_is_no_hindrance(bench: Bench, tmp_path: Path) -> None:
    (tmp_path / "copy.db.123.part").symlink_to("gone since it was seen")
    assert copy_store(bench.store, tmp_path / "copy.db").actions == 3


def test_without_hard_links_a_copy_still_never_overwrites(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on a memory stick."""

    def none(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(os, "link", none)
    copy_store(bench.store, tmp_path / "copy.db")
    with pytest.raises(AlreadyExists):
        copy_store(bench.store, tmp_path / "copy.db")


def test_one_copy_a_day_and_none_twice(bench: Bench) -> None:
    assert copy_of_the_day(bench.store) is None
    assert copy_of_the_day(bench.store) is None
    (copy,) = kept_copies(bench.store.path)
    assert copy.why == "daily"
    assert read_copy(copy.path).actions == 3


def test_thinning_touches_nothing_but_copies_it_took(bench: Bench) -> None:
    folder = copies_folder(bench.store.path)
    folder.mkdir(parents=True)
    names = [f"2026-01-{day:02}-090000-daily.db" for day in range(1, 29)]
    own = ["mine.db", "2026-01-01-notes.txt", "2026-13-41-090000-daily.db", "2026-01-02-090000-before-form-12.db"]
    for name in (*names, *own):
        (folder / name).touch()
    thin_out(bench.store.path)
    left = {path.name for path in folder.iterdir()}
    assert set(own) <= left
    # Monday is 5 January 2026: the last seven days, the Sundays before, the month
    assert left - set(own) == {f"2026-01-{day}-090000-daily.db" for day in (22, 23, 24, 25, 26, 27, 28, 11, 18)} | {*()}


def test_where_no_copy_can_be_taken_it_is_said_and_work_goes_on(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("STOCKROOM_COPIES", str(tmp_path / "file"))
    words = copy_of_the_day(bench.store)
    assert words is not None
    assert "Today's copy could not be taken" in words


def test_a_window_whose_file_was_replaced_books_nothing_more(bench: Bench, tmp_path: Path) -> None:
    """Its booking would go into a file that nobody looks at any more."""
    copy = copy_store(bench.store, tmp_path / "copy.db")
    os.replace(copy.path, bench.store.path)
    with pytest.raises(DatabaseUnusable, match="was replaced or moved"), bench.store.write():
        pytest.fail("the body is not run")
    assert not bench.store.connection.in_transaction
