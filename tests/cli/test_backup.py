"""`stockroom backup` and `restore`: a drill with every kind of copy, as on the day it is needed."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from conftest import CommandLine

from stockroom.errors import DatabaseUnusable
from stockroom.store.open import open_store

MOMENT = "2026-03-03T10:00"


@pytest.fixture
def studio(stockroom: CommandLine) -> CommandLine:
    """Powder received, a jar made, some of it used for a job."""
    stockroom.json("--on", "2026-03-01", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json("--on", "2026-03-01", "make", "calcium-hydroxide-saturated", "1 L")
    job = stockroom.json("job", "new", "Railway poster", "--object", "Poster, 100 x 60 cm")["code"]
    stockroom.json("--on", MOMENT, "take", "L002U", "50 mL", "--job", job)
    return stockroom


def books(path: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every row but the counters, and without what restoring itself books."""
    connection = sqlite3.connect(path)
    names = [row[0] for row in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
    found = {name: sorted(connection.execute(f"SELECT * FROM {name}"), key=repr) for name in names}
    restored = {row[0] for row in found["action"] if row[2] == "restore"}
    for name in ("action", "seal"):
        found[name] = [row for row in found[name] if row[0] not in restored]
    connection.close()
    return {name: rows for name, rows in found.items() if name not in ("counter", "sqlite_sequence")}


def codes(path: Path) -> set[str]:
    connection = sqlite3.connect(path)
    found = {
        row[0]
        for table in ("lot", "action", "job", "booking", "purchase_order", "round", "card")
        for row in connection.execute(f"SELECT code FROM {table}")
    }
    connection.close()
    return found


def work_on(stockroom: CommandLine) -> None:
    """What is booked after the copy, and lost with the file."""
    stockroom.json("--on", MOMENT, "receive", "ethanol", "3 x 1 L", "--cost", "30.00")
    stockroom.json("--on", MOMENT, "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    stockroom.json("job", "new", "Sea chart")


def taken(studio: CommandLine, how: str, folder: Path) -> Path:
    """Take a copy of one kind; what is booked so far is in it."""
    if how == "by hand":
        return Path(studio.json("backup", str(folder / "copy.db"))["path"])
    if how == "into a folder":
        return Path(studio.json("backup", str(folder))["path"])
    if how == "daily":
        for note in Path(os.environ["XDG_STATE_HOME"]).rglob("checked-*"):
            note.unlink()
        for copy in studio.json("backup", "--list")["copies"]:
            Path(copy["path"]).unlink()
        studio.json("undo")  # whatever books looks through the file and copies it first
        return Path(studio.json("backup", "--list")["copies"][0]["path"])
    # the file that another restoring set aside
    first = studio.json("backup", str(folder / "first.db"))["path"]
    return Path(studio.json("restore", first)["set_aside"])


@pytest.mark.parametrize("how", ["by hand", "into a folder", "daily", "set aside"])
@pytest.mark.parametrize("present", ["sound", "gone", "damaged", "foreign"])
def test_drill_a_copy_is_put_back_with_equal_books_and_no_code_is_given_twice(
    studio: CommandLine, tmp_path: Path, how: str, present: str
) -> None:
    path = studio.path
    copy = taken(studio, how, tmp_path)
    as_copied = books(copy)
    work_on(studio)
    given = codes(path)
    lost = path.read_bytes()
    if present == "gone":
        path.unlink()
    elif present == "damaged":
        path.write_bytes(lost[:5000] + os.urandom(20_000))
    elif present == "foreign":
        path.write_text("not a stockroom")
    there = path.read_bytes() if path.exists() else None

    done = studio.json("--by", "AB", "restore", str(copy))

    assert books(path) == as_copied == books(copy)
    assert studio.json("verify", "--seal", done["copy_seal"])["problems"] == []
    assert (Path(done["set_aside"]).read_bytes() if done["set_aside"] else None) == there
    work_on(studio)
    again = codes(path) - codes(copy)
    assert not again & (given - codes(copy)), "a code was given out twice"
    assert path.stat().st_mode & 0o077 == 0


def test_a_jar_made_after_the_copy_is_received_as_found(studio: CommandLine, tmp_path: Path) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))["path"]
    later = studio.json("--on", MOMENT, "make", "calcium-hydroxide-saturated", "1 L")["code"]
    studio.json("restore", copy)
    told = studio.json("scan", later, code=2)["error"]["message"]
    assert f"{later} was made after this copy was taken" in told
    assert "receive it as found" in told
    found = studio.json("receive", "calcium-hydroxide-solution", "about 1 L", "--found")["code"]
    assert found != later
    assert studio.json("scan", found)["code"] == found


def test_restoring_is_booked_as_an_action_that_cannot_be_undone(studio: CommandLine, tmp_path: Path) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))
    done = studio.json("restore", copy["path"], "--why", "the disk broke")
    assert done["copy_seal"] == copy["last_seal"]
    (last, *_) = studio.json("undo")["actions"]
    assert (last["action"], last["kind"]) == (done["action"], "restore")
    assert "cannot be undone" in studio.json("undo", done["action"], "--why", "mistyped", code=1)["error"]["message"]


def test_codes_move_past_all_that_the_file_set_aside_is_known_to_have_given(
    studio: CommandLine, tmp_path: Path
) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))["path"]
    with open_store(studio.path) as store, store.write():
        store.run("UPDATE counter SET last = 5000 WHERE prefix = 'L'")
    later = studio.json("receive", "ethanol", "1 L", "--cost", "1")["code"]
    studio.json("restore", copy)
    assert studio.json("receive", "ethanol", "1 L", "--cost", "1")["code"] > later


def test_a_dry_run_proves_the_copy_and_changes_nothing(studio: CommandLine, tmp_path: Path) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))["path"]
    before = studio.path.read_bytes()
    told = studio.json("restore", copy, "--dry-run")
    assert (told["action"], told["set_aside"], told["problems"]) == (None, None, [])
    assert studio.path.read_bytes() == before
    assert sorted(path.name for path in tmp_path.glob("*.db*")) == ["copy.db", "stockroom.db"]


def test_a_copy_whose_books_are_not_in_order_needs_a_reason(studio: CommandLine, tmp_path: Path) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))["path"]
    with sqlite3.connect(copy) as connection:
        connection.execute("UPDATE balance SET value = value + 1 WHERE lot_id = 1")
    connection.close()
    before = studio.path.read_bytes()
    told = studio.json("restore", copy, code=1)["error"]
    assert "L001W" in told["message"]
    assert "--why" in told["message"]
    assert studio.path.read_bytes() == before
    done = studio.json("restore", copy, "--why", "it is the only one")
    assert [one["kind"] for one in done["problems"]] == ["balance"]


def damaged(path: Path) -> None:
    data = path.read_bytes()
    path.write_bytes(data[:8192] + os.urandom(len(data) - 8192))


def newer(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute("PRAGMA user_version = 999")
    connection.close()


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (Path.unlink, "There is no stockroom"),
        (lambda path: path.write_bytes(b""), "not a stockroom"),
        (lambda path: path.write_text("a shopping list"), "not a stockroom"),
        (damaged, "damaged"),
        (newer, "newer"),
    ],
)
def test_what_is_no_good_copy_is_refused_and_nothing_is_changed(
    studio: CommandLine, tmp_path: Path, spoil: Any, said: str
) -> None:
    copy = Path(studio.json("backup", str(tmp_path / "copy.db"))["path"])
    spoil(copy)
    before = studio.path.read_bytes()
    assert said in studio.json("restore", str(copy), code=3)["error"]["message"]
    assert studio.path.read_bytes() == before
    assert not list(tmp_path.glob("*.part")) + list(tmp_path.glob("*set-aside*"))


def test_nothing_is_replaced_while_another_window_is_writing(
    studio: CommandLine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))["path"]
    monkeypatch.setattr("stockroom.store.open.BUSY_SECONDS", 0.05)
    with open_store(studio.path) as store, store.write():
        assert "Another stockroom window" in studio.json("restore", copy, code=1)["error"]["message"]


def test_a_window_that_was_open_while_a_copy_was_put_back_books_nothing(studio: CommandLine, tmp_path: Path) -> None:
    copy = studio.json("backup", str(tmp_path / "copy.db"))["path"]
    with open_store(studio.path) as store:
        studio.json("restore", copy)
        with pytest.raises(DatabaseUnusable, match="restoring a copy"), store.write():
            pytest.fail("the body is not run")


def test_a_copy_is_listed_with_its_day_and_what_is_in_it(studio: CommandLine) -> None:
    (copy,) = studio.json("backup", "--list")["copies"]
    assert (copy["why"], copy["actions"]) == ("daily", 0)  # before the first booking
    assert copy["path"] in studio("backup", "--list").out


def test_a_copy_needs_a_name_and_the_stockroom_is_not_its_own_copy(studio: CommandLine) -> None:
    assert "Name the file" in studio.json("backup", code=2)["error"]["message"]
    assert "the stockroom itself" in studio.json("restore", str(studio.path), code=2)["error"]["message"]
