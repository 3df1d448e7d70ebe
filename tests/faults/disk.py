"""Fill the disk, take away the right to write, and take the journal of a write that was cut off."""

from __future__ import annotations

import os
import random
import resource
import signal
import subprocess
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from faults.studio import NOW, Ended, Tried, actions, contents, copied, needed, rows, run, sound

BOOKINGS: tuple[tuple[str, ...], ...] = (
    ("receive", "ethanol", "3 x 1 L", "--cost", "41.70"),
    ("make", "calcium-hydroxide-saturated", "3 L", "--into", "3 x 1 L"),
    ("use", "calcium-hydroxide-1-in-4", "--job", "J001R", "--qty", "500 mL", "--tested", "AB"),
    ("take", "L002U", "30 mL", "--job", "J001R"),
    ("count", "L002U", "790 mL"),
    ("job", "new", "Botanical plate", "--object", "Plate, 30 x 20 cm"),
    ("backup", "again.db"),
    ("verify",),
)
NOBODY = 65534


def _told(tried: Tried, path: Path, before: object, ended: Ended, named: str) -> None:
    """Prove what every fault must leave: all or nothing, sound books, an exit code and words that fit."""
    for trouble in sound(path):
        tried.lost.append(f"{named}: {trouble}")
    told, now = ended.acknowledged, rows(path)
    if told and told not in actions(path):
        tried.lost.append(f"{named}: {told} was told as booked and is not there")
    if ended.code and now != before:
        tried.lost.append(f"{named}: told as failed, and something is there")
    if ended.code not in (0, 1, 2, 3) or "wrong in the program" in ended.message or "Traceback" in ended.err:
        tried.lost.append(f"{named}: answered with {ended.code}: {ended.message} {ended.err[-300:]}")


def fill(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Book with little room left: on a small file system in memory, and under a limit on the size of files."""
    chance = random.Random(seed)
    folder.mkdir(parents=True, exist_ok=True)
    tried = Tried("a full disk: a file system in memory of a few MB, filled but for 0 to 80 KB")
    with _small_disk(folder) as disk:
        for number in range(times if disk else 0):
            assert disk is not None
            path = copied(base, disk / "work")
            home = folder if number % 4 else disk  # with notes and copies on another disk, or on the full one too
            command = BOOKINGS[number % len(BOOKINGS)]
            (home / "again.db").unlink(missing_ok=True)
            before, filler = rows(path), disk / "filler"
            _fill(filler, chance.randrange(0, 80_000))
            ended = run(path, *(("--on", NOW) if command != ("verify",) else ()), *command, home=home)
            filler.unlink()
            _told(tried, path, before, ended, f"full disk: {' '.join(command)}")
            tried.count(_ending(ended, "full"))
    yield tried
    limited = Tried("no file may be written beyond a place at random (RLIMIT_FSIZE)")
    for number in range(times):
        path = copied(base, folder / "work")
        command = BOOKINGS[number % len(BOOKINGS)]
        (folder / "again.db").unlink(missing_ok=True)
        before, size = rows(path), path.stat().st_size
        place = chance.randrange(4096, size + 8192)

        def limit(most: int = place) -> None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

        ended = run(path, "--on", NOW, *command, home=folder, prepare=limit)
        _told(limited, path, before, ended, f"limited: {' '.join(command)}")
        limited.count(_ending(ended, "disk"))
    yield limited


def _ending(ended: Ended, word: str) -> str:
    if not ended.code:
        return "done, there was room"
    return "refused in words" if word in ended.message else f"refused: {ended.message[:90]}"


@contextmanager
def _small_disk(folder: Path) -> Iterator[Path | None]:
    """Mount a file system of four megabytes in memory; None where that is not allowed."""
    disk = folder / "disk"
    disk.mkdir(parents=True, exist_ok=True)
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", str(disk)], capture_output=True)
    if mounted.returncode:
        yield None
        return
    try:
        yield disk
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def _fill(filler: Path, leave: int) -> None:
    with filler.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(bytes(4096))
        except OSError:
            pass
        file.truncate(max(0, file.tell() - leave))


def forbid(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Take away the right to write, or to read, from the file, its folder, the notes and the copies."""
    tried = Tried("no right: the file read-only, unreadable, its folder, the notes or the copies not to be written to")
    ways: tuple[tuple[str, Callable[[Path], None]], ...] = (
        ("file read-only", lambda path: path.chmod(0o444)),
        ("file unreadable", lambda path: path.chmod(0)),
        ("folder read-only", lambda path: path.parent.chmod(0o555)),
        ("notes not to be written", lambda path: (path.parent / "state").chmod(0o555)),
        ("copies not to be written", lambda path: (path.parent / "data").chmod(0o555)),
    )
    commands = (("due",), ("shelf",), *BOOKINGS)
    for number in range(times):
        name, take = ways[number % len(ways)]
        command = commands[(number // len(ways)) % len(commands)]
        path = copied(base, folder / "work")
        for note in ("state", "data"):
            (path.parent / note).mkdir()
        if os.geteuid() == 0:
            for each in (path.parent, *path.parent.iterdir()):
                os.chown(each, NOBODY, NOBODY)
        before = rows(path)
        take(path)
        ended = run(path, *command, prepare=_as_nobody)
        for each in (path.parent, *path.parent.iterdir()):
            each.chmod(0o700)
        _told(tried, path, before, ended, f"{name}: {' '.join(command)}")
        tried.count(f"{name}: {'done all the same' if not ended.code else 'refused in words'}")
    yield tried


def _as_nobody() -> None:
    if os.geteuid() == 0:  # whoever may do everything is not stopped by rights
        os.setgid(NOBODY)
        os.setuid(NOBODY)


def cut_off(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Kill a booking whose pages are on the disk already and whose journal lies beside it; then take that journal."""
    chance = random.Random(seed)
    folder.mkdir(parents=True, exist_ok=True)
    ways: tuple[tuple[str, Callable[[Path], object]], ...] = (
        ("left as it is", lambda journal: None),
        ("removed", Path.unlink),
        ("truncated", lambda journal: os.truncate(journal, chance.randrange(journal.stat().st_size))),
        ("emptied", lambda journal: os.truncate(journal, 0)),
        ("overwritten", lambda journal: journal.write_bytes(chance.randbytes(journal.stat().st_size))),
    )
    after: dict[tuple[str, ...], object] = {}
    trieds = {name: Tried(f"cut off before the commit, pages on the disk; journal {name}") for name, _ in ways}
    for number in range(times):
        name, spoil = ways[number % len(ways)]
        command = BOOKINGS[(number // len(ways)) % 6]
        tried = trieds[name]
        path = copied(base, folder / "work")
        if command not in after:
            needed(path, "--on", NOW, *command)
            after[command] = rows(path)
            path = copied(base, folder / "work")
        whole = contents(path)
        run(path, "--on", NOW, *command, home=folder, prepare=_die_before_the_commit)
        journal = Path(f"{path}-journal")
        if not journal.exists():
            tried.lost.append(f"{' '.join(command)}: no journal was left, so nothing was tried")
            continue
        spoil(journal)
        told = run(path, "due", home=folder)
        found = sound(path)
        if not found and contents(path) == whole:
            tried.count("taken back whole")
        elif name == "left as it is":
            tried.lost.append(f"{' '.join(command)}: not taken back: {found}")
        elif found:
            needed(path, "restore", str(base.parent / "copy.db"))
            if sound(path) or not actions(base) <= actions(path):
                tried.lost.append(f"{' '.join(command)}: the copy did not help")
            tried.count(
                f"half of it there, found by {'any command' if told.code == 3 else 'verify'}, the copy put back"
            )
        elif rows(path) == after[command]:
            tried.count("all of it there: every page was on the disk")
        else:
            tried.lost.append(f"{' '.join(command)}, journal {name}: half of it is there and was not found")
    yield from trieds.values()


def _die_before_the_commit() -> None:
    """Let SQLite write every page at once, and die where it would commit."""
    from stockroom.store import open as opening

    opening.PRAGMAS = {**opening.PRAGMAS, "cache_size": 1}
    opened = opening.Store.__init__

    def watched(store: opening.Store, *arguments: object) -> None:
        opened(store, *arguments)  # type: ignore[arg-type]
        store.connection.set_trace_callback(
            lambda sql: os.kill(os.getpid(), signal.SIGKILL) if sql == "COMMIT" else None
        )

    opening.Store.__init__ = watched  # type: ignore[method-assign, assignment]
