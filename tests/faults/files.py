"""Hand the program files that it cannot use: of another kind, newer, empty, no file at all, or with spoilt pages."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

from faults.studio import NOW, Tried, actions, contents, copied, run, sound

COMMANDS: tuple[tuple[str, ...], ...] = (
    ("due",),
    ("shelf",),
    ("receive", "ethanol", "1 L", "--cost", "13.90"),
    ("verify",),
    ("verify", "--repair"),
    ("backup", "again.db"),
    ("scan", "L001W"),
)


def _another_database(path: Path) -> None:
    path.unlink()
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE lot (id INTEGER)")
    connection.close()


def _newer(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute("PRAGMA user_version = 999")
    connection.close()


def _folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def _pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def _in_a_circle(path: Path) -> None:
    path.unlink()
    path.symlink_to(path)


FOREIGN: dict[str, Callable[[Path], object]] = {
    "missing": Path.unlink,
    "empty": lambda path: path.write_bytes(b""),
    "a letter": lambda path: path.write_text("Dear colleague,\n" * 400),
    "a picture": lambda path: path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(5000)),
    "the first half of a stockroom": lambda path: os.truncate(path, path.stat().st_size // 2),
    "the first page of a stockroom": lambda path: os.truncate(path, 4096),
    "another program's database": _another_database,
    "a newer stockroom": _newer,
    "a folder": _folder,
    "a pipe": _pipe,
    "a link to itself": _in_a_circle,
}


def foreign(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Name each of them as the stockroom and as a copy; none is changed, and the answer says what it is."""
    tried = Tried("handed a file that is none of its own: " + ", ".join(FOREIGN))
    for number in range(times):
        name, make = list(FOREIGN.items())[number % len(FOREIGN)]
        path = copied(base, folder / "work")
        as_copy = number // len(FOREIGN) % (len(COMMANDS) + 1) == len(COMMANDS)
        command = COMMANDS[number // len(FOREIGN) % (len(COMMANDS) + 1) % len(COMMANDS)]
        (folder / "again.db").unlink(missing_ok=True)
        other = path.with_name("other.db")
        shutil.copy(path, other)
        make(other)
        before = _bytes(other)
        whole = contents(path)
        ended = run(path, "restore", str(other), home=folder) if as_copy else run(other, *command, home=folder)
        named = f"{name}: {'restore' if as_copy else ' '.join(command)}"
        if _bytes(other) != before or contents(path) != whole:
            tried.lost.append(f"{named}: changed")
        found = command[0] == "verify" and not as_copy and ended.code == 1 and ended.document["problems"]
        if ended.code != 3 and not found and not (name.startswith("the first half") and ended.code in (0, 1)):
            tried.lost.append(f"{named}: ended with {ended.code}: {ended.message}")
        tried.count("refused, and said what it is" if ended.code == 3 else "told as damaged by verify")
    yield tried


def _bytes(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _reads_the_same(path: Path, whole: str) -> bool:
    try:
        return contents(path) == whole
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return False


def spoil(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Overwrite bytes at random; whatever changed is found, and the copy puts it right."""
    chance = random.Random(seed)
    tried = Tried("1 to 64 bytes of the file overwritten at random")
    size = base.stat().st_size
    for number in range(times):
        path = copied(base, folder / "work")
        whole = contents(path)
        data = bytearray(path.read_bytes())
        place, length = chance.randrange(size), chance.randrange(1, 65)
        data[place : place + length] = chance.randbytes(length)
        path.write_bytes(bytes(data[:size]))
        same = _reads_the_same(path, whole)
        command = COMMANDS[number % 3]
        told = run(path, *(("--on", NOW) if command[0] == "receive" else ()), *command)
        if told.code not in (0, 1, 2, 3) or "Traceback" in told.err or "wrong in the program itself" in told.message:
            tried.lost.append(f"bytes {place}+{length}: {' '.join(command)}: {told.message} {told.err[-300:]}")
        if told.code == 3:
            tried.count("found by the first command, the copy put back")
        elif found := sound(path):
            tried.count("found by verify, the copy put back")
            if any("wrong in the program" in words for words in found):
                tried.lost.append(f"bytes {place}+{length}: verify: {found}")
        elif same:
            tried.count("made no difference")
            continue
        else:
            tried.count("changed words that no seal covers (a name, a note, a recipe): not found")
            continue
        back = run(path, "restore", str(base.parent / "copy.db"))
        if back.code:
            faults = "".join(file.read_text() for file in folder.rglob("fault-*.txt"))
            tried.lost.append(f"bytes {place}+{length}: restore: {back.message} {faults[-600:]}")
        elif sound(path) or not actions(base) <= actions(path):
            tried.lost.append(f"bytes {place}+{length}: the copy did not help")
    yield tried
