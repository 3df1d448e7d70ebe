"""Opening a stockroom file: what is refused, and how it is said."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest

from stockroom.errors import AlreadyExists, BadInput, DatabaseUnusable
from stockroom.soundness import check_once_a_day
from stockroom.store.creating import create_store
from stockroom.store.open import PRAGMAS, SCHEMA_VERSION, Store, open_store


@pytest.mark.parametrize(("name", "value"), PRAGMAS.items())
def test_every_pragma_reads_back_as_it_was_set(store: Store, name: str, value: object) -> None:
    """An unknown pragma is ignored without a word (sqlite.org, pragma.html), so each is read back."""
    assert store.connection.execute(f"PRAGMA {name}").fetchone()[0] == value


def test_a_missing_file_is_not_made(tmp_path: Path) -> None:
    with pytest.raises(DatabaseUnusable, match="no stockroom"):
        open_store(tmp_path / "none.db")
    assert not (tmp_path / "none.db").exists()


def test_a_folder_is_not_opened(tmp_path: Path) -> None:
    with pytest.raises(DatabaseUnusable, match="not a file"):
        open_store(tmp_path)


@pytest.mark.parametrize("content", [b"", b"plain text, no database", os.urandom(5000)])
def test_a_file_of_another_kind_is_left_as_it_is(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "other.db"
    path.write_bytes(content)
    with pytest.raises(DatabaseUnusable, match="not a stockroom"):
        open_store(path)
    assert path.read_bytes() == content


def test_another_programs_database_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE lot (id INTEGER)")
    other.commit()
    other.close()
    before = path.read_bytes()
    with pytest.raises(DatabaseUnusable, match="not a stockroom"):
        open_store(path)
    assert path.read_bytes() == before


def test_a_newer_stockroom_is_not_touched(store: Store) -> None:
    store.connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION + 1}")
    with pytest.raises(DatabaseUnusable, match="newer"):
        open_store(store.path)


def test_a_new_stockroom_never_overwrites_and_is_its_owners_only(tmp_path: Path) -> None:
    path = tmp_path / "new.db"
    create_store(path).close()
    assert path.stat().st_mode & 0o077 == 0
    with pytest.raises(AlreadyExists, match="never overwritten"):
        create_store(path)


def test_a_folder_that_cannot_be_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(BadInput, match="Choose a folder"):
        create_store(tmp_path / "file" / "new.db")


def test_damage_is_found_where_a_write_was_cut_off(store: Store) -> None:
    """A journal beside the file asks for a look through all of it before anything is read."""
    path = store.path
    store.close()
    data = bytearray(path.read_bytes())
    page = int.from_bytes(data[16:18], "big")
    for number in range(3, len(data) // page, 2):
        data[number * page : number * page + 64] = os.urandom(64)
    path.write_bytes(bytes(data))
    Path(f"{path}-journal").write_bytes(b"")
    with pytest.raises(DatabaseUnusable, match="damaged"):
        open_store(path)


def test_a_failed_write_leaves_nothing(store: Store) -> None:
    with pytest.raises(RuntimeError, match="half way"), store.write():
        store.run("INSERT INTO place (name) VALUES ('Shelf nobody has')")
        raise RuntimeError("half way")
    assert not store.rows("SELECT id FROM place WHERE name = 'Shelf nobody has'")


def test_nothing_is_written_outside_a_write(store: Store) -> None:
    with pytest.raises(RuntimeError, match="write"):
        store.run("INSERT INTO place (name) VALUES ('x')")


def test_the_revision_tells_of_another_windows_change(store: Store) -> None:
    before = store.revision()
    with open_store(store.path) as other, other.write():
        other.run("INSERT INTO place (name) VALUES ('Another shelf')")
    assert store.revision() != before


def test_the_revision_tells_of_what_was_kept_here_and_of_nothing_that_was_taken_back(store: Store) -> None:
    before = store.revision()
    with pytest.raises(RuntimeError), store.write():
        store.run("INSERT INTO place (name) VALUES ('Shelf nobody has')")
        raise RuntimeError("half way")
    with store.write():
        assert store.rows("SELECT name FROM place")
    assert store.revision() == before
    with store.write():
        store.run("INSERT INTO place (name) VALUES ('Another shelf')")
    assert store.revision() != before


def test_a_writer_waits_and_then_says_that_another_is_writing(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("stockroom.store.open.BUSY_SECONDS", 0.05)
    with (
        store.write(),
        open_store(store.path) as other,
        pytest.raises(DatabaseUnusable, match="Another stockroom window"),
        other.write(),
    ):
        pass


def test_the_file_is_looked_through_once_a_day(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[int] = []
    monkeypatch.setattr(Store, "check_soundness", lambda self, how="quick_check", tell=None: looked.append(how))
    check_once_a_day(store)
    check_once_a_day(store)
    assert looked == ["quick_check", "integrity_check"]  # the file, and the copy of the day
