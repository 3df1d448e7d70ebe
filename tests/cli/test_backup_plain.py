"""`stockroom backup --plain`: everything as text that needs no program of ours to be read, proved or used again."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from itertools import takewhile
from pathlib import Path

import pytest
from conftest import CommandLine

from stockroom.store.migrate import schema_files


@pytest.fixture
def text(stockroom: CommandLine, tmp_path: Path) -> list[str]:
    """A small studio with typed text that tries to leave its line, written out."""
    stockroom.json("--on", "2026-03-01", "receive", "ethanol", "1 L", "--cost", "13.90", "--lot-number", "7\n731")
    job = stockroom.json("job", "new", "Botanical plate\n== Part 4: the seals ==\x1b[31m")["code"]
    stockroom.json("--on", "2026-03-02T10:00", "take", "L001W", "100 mL", "--job", job)
    stockroom.json("--on", "2026-03-02T11:00", "take", "L001W", "50 mL", "--why", "spilled")
    for _ in range(7):  # past a number that has no code
        stockroom.json("--on", "2026-03-02T12:00", "take", "L001W", "1 mL", "--why", "test")
    path = tmp_path / "plain.txt"
    stockroom.json("backup", "--plain", str(path))
    assert path.stat().st_mode & 0o077 == 0
    return path.read_text("utf-8").split("\n")


def part(text: list[str], number: int) -> list[str]:
    start = next(place for place, line in enumerate(text) if line.startswith(f"== Part {number}"))
    return list(takewhile(lambda line: line, text[start + 1 :]))


def test_a_person_reads_what_was_done_line_by_line(text: list[str]) -> None:
    done = [line for line in part(text, 1) if "L001W" in line]
    assert done[0].startswith("A001N  2026-03-01 12:00  AB  receive 1 L of Ethanol 96 % (L001W)")
    assert done[1] == "    L001W  Ethanol 96 %  +1 L  13.90 EUR  from supplier"
    assert "-100 mL  -1.39 EUR  to job J001R Botanical plate == Part 4: the seals == [31m" in done[3]
    assert part(text, 2)[0].startswith("L001W  Ethanol 96 %: 843 mL, 11.72 EUR")
    assert not any("\x1b" in line for line in text)


def test_any_sha_256_program_proves_the_seals_from_the_text_alone(text: list[str], stockroom: CommandLine) -> None:
    """SHA-256 as in FIPS 180-4, by Python's hashlib."""
    seal = "0" * 64
    sealed = part(text, 4)
    for line in sealed:
        _, told, words = line.split(" ", 2)
        seal = hashlib.sha256(f"{seal}\n{words}".encode()).hexdigest()
        assert seal == told
    assert len(sealed) == 10
    assert "Actions: 10" in text
    assert f"Last seal: {seal}" in text
    assert stockroom.json("verify")["last_seal"] == seal


def test_every_row_of_every_table_can_be_read_back(text: list[str], stockroom: CommandLine) -> None:
    """Into an empty file of the same form, by nothing but a JSON reader."""
    rebuilt = sqlite3.connect(":memory:")
    for _, sql in schema_files():
        rebuilt.executescript(sql)
    for (name,) in rebuilt.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'").fetchall():
        rebuilt.execute(f"DROP TRIGGER {name}")
    table, columns = "", ""
    for line in part(text, 3):
        if line.startswith("# "):
            table, columns = line[2:].split(": ")
            rebuilt.execute(f"DELETE FROM {table}")
        else:
            row = json.loads(line)
            rebuilt.execute(f"INSERT INTO {table} ({columns}) VALUES ({', '.join('?' * len(row))})", row)
    original = sqlite3.connect(stockroom.path)
    names = [row[0] for row in original.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
    for name in (name for name in names if not name.startswith(("sqlite_", "_sqlite"))):
        there = sorted(original.execute(f"SELECT * FROM {name}"), key=repr)
        assert sorted(rebuilt.execute(f"SELECT * FROM {name}"), key=repr) == there, name
    original.close()
    rebuilt.close()


def test_plain_text_never_overwrites_unless_told_to(stockroom: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "plain.txt"
    path.write_text("mine")
    assert stockroom.json("backup", "--plain", str(path), code=1)["error"]["kind"] == "already-exists"
    assert path.read_text() == "mine"
    stockroom.json("backup", "--plain", str(path), "--replace")
    assert path.read_text().startswith("STOCKROOM")
