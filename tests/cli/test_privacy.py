"""What is in a stockroom stays with its owner: on this machine, in files of theirs alone, and out of every log."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from conftest import CommandLine

from stockroom.cli.main import COMMANDS, run_for_code
from stockroom.paths import state_folder

CLIENT = "The Lighthouse Trust"
ROOT = Path(__file__).resolve().parents[2]

WATCHED = """
import json, sys
opened = []
def watch(event, arguments):
    if event.startswith("socket.") and event != "socket.gethostname":
        opened.append(event)
sys.addaudithook(watch)
from stockroom.cli.main import run_for_code
ran = []
for line in sys.stdin:
    arguments = json.loads(line)
    ran.append(run_for_code(arguments))
print(json.dumps({"opened": opened, "ran": [int(code) for code in ran]}), file=sys.stderr)
"""

BY_HAND: tuple[tuple[str, ...], ...] = (
    ("receive", "calcium-hydroxide", "500 g", "--cost", "12.50"),
    ("receive", "ethanol", "1 L", "--cost", "13.90"),
    ("make", "calcium-hydroxide-saturated", "1 L"),
    ("job", "new", "Sea chart", "--client", CLIENT, "--object", "Chart, 40 x 30 cm"),
    ("take", "L002U", "50 mL", "--job", "J001R"),
    ("book", "calcium-hydroxide-1-in-4", "--job", "J001R", "--for", "2099-12-15", "--qty", "2 L"),
    ("supplier", "new", "Laboratory supplies", "--delivery-days", "5"),
    ("supplier", "offer", "laboratory", "ethanol", "1 L", "12.90"),
    ("due",),
    ("due", "--ics", "due.ics"),
    ("shelf",),
    ("lot", "L001W"),
    ("plan",),
    ("buy",),
    ("cost", "J001R"),
    ("trace", "L002U"),
    ("label", "L002U", "--out", "label.pdf"),
    ("label", "L002U", "--out", "label.png"),
    ("card", "calcium-hydroxide-saturated", "1 L", "--out", "card.pdf"),
    ("sources",),
    ("backup", "copy.db"),
    ("backup", "--plain", "copy.txt"),
    ("verify",),
    ("calc", "saturated", "calcium hydroxide", "--temperature", "25"),
    ("restore", "copy.db"),
    *((name, "--help") for name in COMMANDS),
)


def test_no_command_opens_a_connection(stockroom: CommandLine, tmp_path: Path) -> None:
    """Python's own audit events tell of every socket; only serving the screens to a browser is let to open one."""
    lines = "\n".join(json.dumps(["--db", str(stockroom.path), *arguments]) for arguments in BY_HAND)
    ran = subprocess.run(
        [sys.executable, "-c", WATCHED],
        input=lines,
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    told = json.loads(ran.stderr.splitlines()[-1])
    assert told["opened"] == []
    assert dict(zip(BY_HAND, told["ran"], strict=True)) == dict.fromkeys(BY_HAND, 0)


def test_the_watch_itself_sees_a_socket() -> None:
    program = WATCHED.replace("ran = []", "import socket; socket.socket().close(); ran = []")
    ran = subprocess.run(
        [sys.executable, "-c", program],
        input="",
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert json.loads(ran.stderr)["opened"] == ["socket.__new__"]


def private(path: Path) -> bool:
    return path.stat().st_mode & 0o077 == 0


@pytest.mark.skipif(os.name != "posix", reason="rights of this kind are POSIX's")
def test_the_stockroom_and_every_copy_of_it_are_their_owners_alone(stockroom: CommandLine, tmp_path: Path) -> None:
    """Whatever the mask for new files allows."""
    old = os.umask(0)
    try:
        own = CommandLine(tmp_path / "own.db")
        own.json("--by", "AB", "init")
        own.json("receive", "ethanol", "1 L", "--cost", "1")
        copy = own.json("backup", str(tmp_path / "copy.db"))["path"]
        own.json("backup", "--plain", str(tmp_path / "copy.txt"))
        aside = own.json("restore", copy)["set_aside"]
        kept = [one["path"] for one in own.json("backup", "--list")["copies"]]
    finally:
        os.umask(old)
    files = [own.path, Path(copy), tmp_path / "copy.txt", Path(aside), *map(Path, kept)]
    assert len(files) == 6
    assert [path for path in files if not private(path)] == []


def test_a_fault_of_the_program_is_kept_without_what_people_typed(
    stockroom: CommandLine, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_: object, **named: object) -> None:
        try:
            raise KeyError(f"{named} {CLIENT}")
        except KeyError as error:
            raise ValueError(f"no such client: {CLIENT}") from error

    monkeypatch.setattr("stockroom.actions.jobs.new_job", broken)
    code = run_for_code(["--db", str(stockroom.path), "job", "new", "Sea chart", "--client", CLIENT])
    assert code == 1
    assert "wrong in the program itself" in capsys.readouterr().err
    (fault,) = state_folder().glob("fault-*.txt")
    text = fault.read_text("utf-8")
    assert "ValueError" in text
    assert "KeyError" in text
    assert "jobs" in text or "job.py" in text
    assert CLIENT not in text
    assert private(fault)


def test_nothing_that_is_kept_of_its_own_names_a_client(
    stockroom: CommandLine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for arguments in BY_HAND[:12]:
        stockroom(*arguments)
    notes = [path for path in state_folder().rglob("*") if path.is_file()]
    assert notes
    assert [path for path in notes if CLIENT.encode() in path.read_bytes()] == []
