"""Beginning a stockroom from the command line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from stockroom.cli.init import machine_zone
from stockroom.store.open import open_store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import all_measures, all_people, all_places

Runner = Callable[[Path], Any]


def test_an_empty_stockroom_names_its_file_and_has_one_person_to_book_under(
    command_line: Runner, tmp_path: Path
) -> None:
    run = command_line(tmp_path / "new.db")
    begun = run.json("init", "--empty", "--time-zone", "America/Toronto", "--currency", "jpy", "--costs", "gross")
    assert begun["path"] == str(tmp_path / "new.db")
    assert begun["person"] == "ME"
    assert (begun["materials"], begun["recipes"]) == (0, 0)
    with open_store(tmp_path / "new.db") as store:
        assert [person.initials for person in all_people(store)] == ["ME"]
        assert (all_places(store), all_measures(store)) == ([], [])
        kept = {name: setting(store, name) for name in ("currency", "time_zone", "costs")}
    assert kept == {"currency": "JPY", "time_zone": "America/Toronto", "costs": "gross"}


def test_by_names_the_first_person(command_line: Runner, tmp_path: Path) -> None:
    run = command_line(tmp_path / "new.db")
    said = run("--by", "KM", "init", "--empty", "--name", "K. Mørk")
    assert said.code == 0
    assert "KM (K. Mørk)" in said.out


def test_a_file_that_is_there_is_never_overwritten(command_line: Runner, tmp_path: Path) -> None:
    path = tmp_path / "letter.db"
    path.write_text("a letter", encoding="utf-8")
    failed = command_line(path)("init", "--json")
    assert failed.code == 1
    assert failed.json["error"]["kind"] == "already-exists"
    assert path.read_text("utf-8") == "a letter"


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("--currency", "gold"),
        ("--time-zone", "Nowhere/Atlantis"),
        ("--time-zone", "../etc/passwd"),
        ("--costs", "both"),
    ],
)
def test_what_cannot_be_used_leaves_no_file_behind(
    command_line: Runner, tmp_path: Path, option: str, value: str
) -> None:
    failed = command_line(tmp_path / "new.db")("init", "--empty", option, value)
    assert failed.code == 2
    assert value.casefold() in failed.err.casefold()
    assert not (tmp_path / "new.db").exists()


def test_the_machines_zone_is_what_tz_says(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", ":Asia/Tokyo")
    assert machine_zone() == "Asia/Tokyo"
