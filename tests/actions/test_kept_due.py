"""What is due by reckoning is kept beside the stockroom, and is always what reckoning anew would give."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from conftest import ZONE, CommandLine

import stockroom.actions.reckoned_due as reckoned
from stockroom.actions.kept_due import SETTLED_SECONDS
from stockroom.actions.whats_due import due_items
from stockroom.paths import state_folder
from stockroom.store.open import Store

NOW = datetime(2026, 11, 25, 10, tzinfo=ZONE)


@pytest.fixture
def booked(stockroom: CommandLine, store: Store) -> Callable[[], None]:
    """Book a bath for which a jar must be made; call it to let the file lie untouched for a while."""
    stockroom.json("--on", "2026-11-24T10:00", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    job = stockroom.json("--on", "2026-11-25T10:00", "job", "new", "Charts")["code"]
    stockroom.json("--on", "2026-11-25T10:00", "book", "calcium-hydroxide-1-in-4", "--job", job, "--for", "2026-12-02")

    def settle() -> None:
        then = store.path.stat().st_mtime - 10 * SETTLED_SECONDS
        os.utime(store.path, (then, then))

    settle()
    return settle


@pytest.fixture
def reckonings(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Count how often it was reckoned."""
    counted: list[str] = []
    real = reckoned.reckon

    def counting(*arguments: object) -> object:
        counted.append("reckoned")
        return real(*arguments)  # type: ignore[arg-type]

    monkeypatch.setattr(reckoned, "reckon", counting)
    return counted


def test_it_is_reckoned_once_while_nothing_changes_and_stays_the_same(
    booked: Callable[[], None], reckonings: list[str], store: Store
) -> None:
    first = due_items(store, NOW)
    assert [item.kind for item in first].count("make-by") == 1
    assert due_items(store, NOW + timedelta(hours=3)) == first
    assert len(reckonings) == 1
    (note,) = state_folder().glob("due-*.json")
    assert note.stat().st_mode & 0o077 == 0
    note.unlink()
    assert due_items(store, NOW) == first
    assert len(reckonings) == 2


def test_any_change_of_the_file_another_day_or_another_span_is_reckoned_anew(
    booked: Callable[[], None], reckonings: list[str], store: Store, stockroom: CommandLine
) -> None:
    due_items(store, NOW)
    assert due_items(store, NOW, 3) == []
    due_items(store, NOW)
    assert len(reckonings) == 3
    (item,) = [one for one in due_items(store, NOW + timedelta(days=14)) if one.kind == "booking-passed"]
    assert len(reckonings) == 4
    stockroom.json("--on", "2026-11-25T10:00", "book", "--cancel", item.code)
    booked()
    assert due_items(store, NOW) == []


def test_nothing_is_kept_of_a_file_written_to_a_moment_ago(
    booked: Callable[[], None], reckonings: list[str], store: Store
) -> None:
    """Its times would not show that it is written to once more."""
    os.utime(store.path)
    due_items(store, NOW)
    due_items(store, NOW)
    assert len(reckonings) == 2


def test_a_minute_that_makes_a_jar_ready_ends_what_was_kept(
    booked: Callable[[], None], reckonings: list[str], store: Store, stockroom: CommandLine
) -> None:
    stockroom.json("--on", "2026-11-25T09:00", "make", "calcium-hydroxide-saturated", "1 L")
    booked()
    tomorrow = datetime(2026, 11, 26, 8, tzinfo=ZONE)
    for moment in (tomorrow, tomorrow.replace(hour=9), tomorrow.replace(hour=10), tomorrow.replace(hour=11)):
        due_items(store, moment)
    assert len(reckonings) == 3  # at eight, at nine to the minute, and once after it


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"stamp": 1}', "\udcff"])
def test_a_note_that_cannot_be_read_is_reckoned_over(booked: Callable[[], None], store: Store, text: str) -> None:
    first = due_items(store, NOW)
    (note,) = state_folder().glob("due-*.json")
    note.write_bytes(text.encode("utf-8", "surrogateescape"))
    assert due_items(store, NOW) == first
    assert json.loads(note.read_text("utf-8"))["items"]


def test_without_a_state_folder_it_is_reckoned_each_time(
    booked: Callable[[], None], reckonings: list[str], store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "blocked"
    blocked.write_text("a file")
    monkeypatch.setenv("XDG_STATE_HOME", str(blocked))
    assert due_items(store, NOW) == due_items(store, NOW)
    assert len(reckonings) == 2
