"""Small stockrooms of every earlier form, kept as they were made then, are brought up to date and lose nothing.

Forms 1 and 2 were never a stockroom's: the first program laid down 0001 to 0003 together.
"""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from conftest import CommandLine

from stockroom.actions.copying import kept_copies
from stockroom.actions.verifying import verify
from stockroom.store.open import SCHEMA_VERSION, open_store
from stockroom.store.seals import last_seal

KEPT = sorted((Path(__file__).parent / "earlier").glob("form-*.sql"))


def form(kept: Path) -> int:
    return int(kept.stem.removeprefix("form-"))


@pytest.fixture(params=[kept for kept in KEPT if form(kept) < SCHEMA_VERSION], ids=lambda kept: kept.stem)
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A stockroom file of an earlier form."""
    path = tmp_path / "old.db"
    connection = sqlite3.connect(path)
    connection.executescript(request.param.read_text("utf-8"))
    assert connection.execute("PRAGMA user_version").fetchone() == (form(request.param),)
    connection.close()
    return path


def rows(path: Path) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table, by name of the column."""
    connection = sqlite3.connect(path)
    connection.row_factory = sqlite3.Row
    names = [row[0] for row in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
    ours = [name for name in names if not name.startswith(("sqlite_", "_sqlite"))]
    found = {name: [dict(row) for row in connection.execute(f"SELECT * FROM {name}")] for name in ours}
    connection.close()
    return found


def test_no_form_is_missing_among_those_that_are_kept() -> None:
    assert [form(kept) for kept in KEPT] == list(range(3, 3 + len(KEPT)))


def test_it_is_brought_up_to_date_with_every_row_and_seal_as_it_was(old: Path) -> None:
    before = rows(old)
    with open_store(old) as store:
        assert verify(store, seal=before["seal"][-1]["hash"]).problems == ()
        assert last_seal(store) == before["seal"][-1]["hash"]
    after = rows(old)
    for table, old_rows in before.items():
        kept = [{name: row[name] for name in old_rows[0]} for row in after[table]] if old_rows else []
        assert all(row in kept for row in old_rows), table
    assert len(before["action"]) == len(after["action"]) == 11


def test_the_file_as_it_was_is_kept_before_its_form_is_changed(old: Path) -> None:
    before = rows(old)
    open_store(old).close()
    copies = kept_copies(old)
    assert [copy.why for copy in copies] == [f"before form {SCHEMA_VERSION}"]
    assert rows(copies[0].path) == before


def test_without_a_copy_its_form_is_not_changed(
    old: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command_line: Any
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("STOCKROOM_COPIES", str(tmp_path / "file"))
    before = old.read_bytes()
    refused = command_line(old).json("shelf", code=3)["error"]["message"]
    assert "No copy could be taken first, so nothing was changed" in refused
    assert "STOCKROOM_COPIES" in refused
    assert old.read_bytes() == before


def test_work_goes_on_in_it(old: Path, command_line: Any) -> None:
    stockroom: CommandLine = command_line(old)
    assert stockroom.json("cost", "J001R")["total"] == "5.92"
    jar = stockroom.json("--on", "2026-03-10", "make", "lime-water", "1 L")["code"]
    stockroom.json("--on", "2026-03-12", "use", "lime-bath", "--job", "J001R", "--qty", "200 mL", "--from", jar)
    stockroom.json(
        "--on", "2026-03-13", "undo", stockroom.json("undo")["actions"][2]["action"], "--why", "it was right"
    )
    assert stockroom.json("verify")["problems"] == []


def test_two_windows_may_open_it_at_once(old: Path) -> None:
    """Both want to bring it up to date; one does, and the other finds it done."""
    import subprocess
    import sys

    root = str(Path(__file__).resolve().parents[2])
    program = "import sys\nfrom stockroom.cli.main import run_for_code\nsys.exit(run_for_code(sys.argv[1:]))"
    command = [sys.executable, "-c", program, "--db", str(old), "verify"]
    windows = [
        subprocess.Popen(command, env={**os.environ, "PYTHONPATH": root}, stdout=subprocess.PIPE) for _ in range(2)
    ]
    assert [window.communicate() and window.returncode for window in windows] == [0, 0]
