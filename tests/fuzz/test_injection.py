"""Names and files made to mislead: markup, SQL, wildcards, formulas, escapes, paths, and pictures that fill memory."""

from __future__ import annotations

import os
import struct
import zlib
from pathlib import Path

import pytest
from conftest import CommandLine
from fuzz.conftest import promptly


def picture(width: int, height: int) -> bytes:
    """Return a PNG of one colour; a large one takes few bytes."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    packer = zlib.compressobj(9)
    line = bytes(1 + (width + 7) // 8)
    packed = b"".join(packer.compress(line) for _ in range(height)) + packer.flush()
    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side", [9_000, 20_000])
def test_a_picture_that_would_fill_the_memory_is_refused(studio: CommandLine, side: int) -> None:
    Path("large.png").write_bytes(picture(side, side))
    assert Path("large.png").stat().st_size < 100_000
    ran = promptly(lambda: studio("scan", "large.png"))
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "large.png is too large: at most 80 million pixels are read. Make it smaller.\n"


@pytest.mark.parametrize("content", [b"", b"x", picture(40, 40)[:45], b"\x89PNG\r\n\x1a\n", b"GIF89a" + b"\xff" * 40])
def test_what_is_no_picture_is_refused(studio: CommandLine, content: bytes) -> None:
    Path("no.png").write_bytes(content)
    ran = promptly(lambda: studio("scan", "no.png"))
    assert ran.code == 2
    assert "cannot be opened as a picture" in ran.err


def test_a_pipe_is_no_picture(studio: CommandLine) -> None:
    """Opening it would wait for a writer for ever."""
    os.mkfifo("pipe.png")
    assert studio("scan", "pipe.png").code == 2


@pytest.mark.parametrize("words", ["%", "_", "*", "?", "' OR '1'='1", "%ethanol%", "eth_nol", "[a-z]", ".*", "\\"])
def test_searching_takes_every_sign_for_itself(studio: CommandLine, words: str) -> None:
    found, every = studio.json("shelf", words)["lots"], studio.json("shelf")["lots"]
    # some names and grades do hold a percent sign, and only those are found by it
    assert 0 < len(found) < len(every) if words == "%" else not found


NAMES = [
    "[red]x[/]",
    "'; DROP TABLE entry; --",
    "=1+1",
    "\x1b[2J\x9b2J",
    "../../x",
    "\u202elot.exe",
    "a" * 120,
    "%s{0}$x",
]


@pytest.mark.parametrize("name", NAMES)
def test_a_misleading_name_is_kept_as_typed_or_refused_and_does_nothing(studio: CommandLine, name: str) -> None:
    outside = sorted(path for path in Path("../..").rglob("*") if path.is_file())
    by = ["--by", "AM", "--on", "2026-11-25T14:10"]
    opened = studio(*by, "--json", "job", "new", name, "--client", name, "--object", f"{name}, 30 x 40 cm")
    if opened.code:
        assert opened.code == 2
        return
    job = opened.json["code"]
    assert studio.json("job", "show", job)["title"] == name
    assert studio(*by, "place", "new", name).code == 0
    listed = studio("job", "list").out
    assert not {"\x1b", "\x9b", "\u202e"} & {*listed}
    assert studio("export", "jobs", "--out", "jobs.csv").code == 0
    cells = Path("jobs.csv").read_text("utf-8")
    assert not any(
        cell.lstrip('"').startswith(("=", "+", "@")) for line in cells.splitlines() for cell in line.split(",")
    )
    here = {Path("jobs.csv")}
    assert sorted(path for path in Path("../..").rglob("*") if path.is_file() and path.name != "jobs.csv") == outside
    assert {path for path in Path().iterdir()} == here
    assert studio.json("verify")["problems"] == []


@pytest.mark.parametrize("words", [["backup"], ["backup", "--plain"], ["export", "lots", "--out"], ["scan"]])
def test_a_file_name_that_is_too_long_is_refused(studio: CommandLine, words: list[str]) -> None:
    """No file system here takes a name of a thousand characters."""
    ran = studio("--by", "AM", *words, "x" * 1000 + ".csv")
    assert ran.code in (1, 2)
    assert ran.err.strip()
