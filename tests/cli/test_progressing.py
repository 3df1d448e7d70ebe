"""Long work tells how far it has come, on stderr; what is done at once tells nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from conftest import CommandLine


def test_what_is_done_at_once_tells_no_progress(stockroom: CommandLine, tmp_path: Path) -> None:
    stockroom.json("receive", "ethanol", "1 L", "--cost", "1")
    for arguments in (("verify",), ("backup", str(tmp_path / "a.db")), ("backup", "--plain", str(tmp_path / "a.txt"))):
        assert stockroom(*arguments).err == ""


def test_what_takes_long_tells_it_and_stdout_holds_the_answer_alone(
    stockroom: CommandLine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As if every step took longer than the two seconds after which a line is due."""
    stockroom.json("receive", "ethanol", "1 L", "--cost", "1")
    monkeypatch.setattr("stockroom.cli.progressing.EVERY_SECONDS", 0.0)
    proved = stockroom("--json", "verify")
    assert proved.json["problems"] == []
    assert "… proving the seals: 0 %" in proved.err
    copied = stockroom("backup", str(tmp_path / "a.db"))
    assert "… looking through the copy: 0 %" in copied.err
    assert "… writing what was done: 0 %" in stockroom("backup", "--plain", str(tmp_path / "a.txt")).err
