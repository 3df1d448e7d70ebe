"""What holds for every command about materials, recipes, places, measures, people and jobs."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import click
import pytest

from stockroom.store.stockroom_settings import local_day

NOUNS = ("material", "recipe", "place", "measure", "person", "job")


@pytest.mark.parametrize("noun", NOUNS)
def test_every_command_of_a_noun_has_help_and_takes_json_after_it(noun: str) -> None:
    from importlib import import_module

    group: click.Group = getattr(import_module(f"stockroom.cli.{noun}"), noun)
    assert group.help
    for name, command in group.commands.items():
        assert command.help, f"{noun} {name} has no help"
        options = {option for parameter in command.params for option in parameter.opts}
        assert "--json" in options, f"{noun} {name} has no --json"


@pytest.mark.parametrize("noun", NOUNS)
def test_an_empty_list_is_a_document_and_a_hint(stockroom: Any, command_line: Any, tmp_path: Path, noun: str) -> None:
    run = command_line(tmp_path / "empty.db")
    run.json("init", "--empty")
    (listed,) = run.json(noun, "list").values()
    assert listed == ([{"initials": "ME", "name": "the keeper"}] if noun == "person" else [])
    assert run(noun, "list").out.strip()


@pytest.mark.parametrize("noun", NOUNS)
def test_what_is_not_there_is_told_as_such(stockroom: Any, noun: str) -> None:
    failed = stockroom(noun, "show", "nothing of this name", "--json")
    assert failed.code == 2
    assert failed.json["error"]["kind"] == "not-found"


def test_bytes_that_are_not_text_are_refused_before_anything_is_done(stockroom: Any) -> None:
    failed = stockroom("--json", "place", "new", "sh\udcfflf")
    assert failed.code == 2
    assert failed.json["error"]["kind"] == "bad-input"


def test_listing_loads_neither_units_nor_screens_nor_labels(stockroom: Any) -> None:
    """A tired person waits for nothing that a list does not need."""
    code = (
        "import json, sys\n"
        "from stockroom.cli.main import run_for_code\n"
        f"for noun in {NOUNS!r}:\n"
        f"    assert run_for_code(['--db', {str(stockroom.path)!r}, noun, 'list']) == 0\n"
        "print(json.dumps(sorted(sys.modules)), file=sys.stderr)\n"
    )
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = {name.partition(".")[0] for name in json.loads(ended.stderr.splitlines()[-1])}
    assert not loaded & {"pint", "textual", "qrcode", "reportlab", "PIL", "sqlite_utils", "stdnum"}


def test_an_edit_is_told_on_the_days_of_the_stockroom_not_of_greenwich(
    stockroom: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Late on 25 November in Greenwich it is the 26th in Berlin."""
    stockroom.json("place", "new", "Cold store")
    stockroom.json("place", "edit", "Cold store", "--note", "ask for the key")
    monkeypatch.setattr("stockroom.cli.nouns.local_day", lambda store, at: local_day(store, "2026-11-25T23:30:00Z"))
    assert "2026-11-26 AB: note" in stockroom("place", "show", "Cold store").out
