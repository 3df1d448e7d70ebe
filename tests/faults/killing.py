"""Kill the program at moments of chance in everything it does."""

from __future__ import annotations

import random
import time
from collections.abc import Iterator
from pathlib import Path

from faults.studio import NOW, Tried, actions, copied, rows, run, sound

EVERYTHING: tuple[tuple[str, ...], ...] = (
    ("receive", "ethanol", "3 x 1 L", "--cost", "41.70", "--place", "shelf"),
    ("receive", "--order", "P0015", "--freight", "4.90"),
    ("make", "calcium-hydroxide-saturated", "3 L", "--into", "3 x 1 L", "--place", "shelf"),
    ("use", "calcium-hydroxide-1-in-4", "--job", "J001R", "--qty", "500 mL", "--fills", "2", "--tested", "AB"),
    ("top-up", "L00CA", "200 mL"),
    ("check", "L00CA", "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.8 mL",
     "--temperature", "22"),
    ("check", "L00CA", "looks", "clear"),
    ("settle", "L00CA", "--after", "shaking", "--temperature", "21"),
    ("take", "L002U", "30 mL", "--job", "J001R"),
    ("take", "L00AE", "2 sheets", "--why", "given"),
    ("bring-back", "A006D", "40 mL"),
    ("pour", "L00CA", "200 mL", "--into", "L00D8"),
    ("discard", "L00AE", "3 sheets", "--why", "stained"),
    ("discard", "L00CA", "100 mL", "--to", "alkaline waste", "--why", "weak"),
    ("count", "L002U", "790 mL"),
    ("count", "L006M", "--empty", "--why", "evaporated"),
    ("move", "shelf", "--to", "refrigerator"),
    ("open", "L006M"),
    ("undo", "A0089", "--why", "mistyped"),
    ("put-right", "A0089", "--amount", "7 mL", "--why", "misread"),
    ("price", "L001W", "--cost", "15.00", "--why", "the invoice"),
    ("return", "L006M", "500 mL", "--credit", "6.00", "--why", "wrong grade"),
    ("cut", "L007K", "40 x 50 cm", "--uses", "10"),
    ("withdraw", "L001W", "--why", "recalled"),
    ("release", "L00F4", "--why", "in order"),
    ("waste-can", "new", "Solvent waste", "--capacity", "2 L"),
    ("job", "new", "Botanical plate", "--object", "Plate, 30 x 20 cm", "--object", "Mount"),
    ("job", "close", "J001R"),
    ("book", "calcium-hydroxide-1-in-4", "--job", "J001R", "--for", "2026-04-15", "--qty", "2 L"),
    ("order", "cancel", "P0015", "--why", "sold out"),
    ("material", "new", "Agar", "--measured-by", "mass"),
    ("person", "new", "TK", "T. Koch"),
    ("close-books", "2026-02-28"),
    ("backup", "again.db"),
    ("restore", "{base}"),
    ("--db", "new.db", "--by", "AB", "init"),
)  # fmt: skip
"""Each command as it is typed; the lots, jobs and actions are those of `studio.begin`."""

FIRST_OF_DAY_EVERY = 5
FRESH_EVERY = 10
"""Of so many runs one is a program started afresh; the others are forked from one that is loaded."""


def kill(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Kill every command in turn, `times` in all, and prove what is left."""
    chance = random.Random(seed)
    tried = Tried("killed at a moment of chance in each of the commands that change anything")
    whole = {}
    began = time.monotonic()
    run(copied(base, folder), "shelf", fresh=True)
    starting = time.monotonic() - began
    steady = folder.with_name("home")
    steady.mkdir(parents=True, exist_ok=True)
    for number in range(times):
        command = EVERYTHING[number % len(EVERYTHING)]
        if command not in whole:
            whole[command] = _carried_out(base, folder, steady, command)
        after, seconds = whole[command]
        # some are the first booking of their day, which looks through the file and copies it before
        path = copied(base, folder)
        home = folder if number % FIRST_OF_DAY_EVERY == 0 else steady
        before = rows(path)
        for left in ("again.db", "new.db"):
            (home / left).unlink(missing_ok=True)
        fresh = number % FRESH_EVERY == FRESH_EVERY - 1
        moment = chance.uniform(0.4, 1.1) * starting if fresh else chance.uniform(0, 1.1) * seconds
        ended = run(path, *typed(command, base), home=home, kill_after=moment, fresh=fresh)
        told, named = ended.acknowledged, f"{' '.join(command)}, killed after {moment * 1000:.0f} ms"
        now, new = rows(path), home / "new.db"
        for trouble in sound(path) + (sound(new) if new.exists() else []):
            tried.lost.append(f"{named}: {trouble}")
        if now not in (before, after):
            tried.lost.append(f"{named}: half done: {_differences(now, before, after)}")
        if told and told not in actions(path):
            tried.lost.append(f"{named}: {told} was told as booked and is not there")
        if now == before and command[0] not in ("backup", "--db"):
            again = run(path, *typed(command, base), home=home)
            if again.code or rows(path) != after:
                tried.lost.append(f"{named}: could not be done afterwards: {again.message}")
        tried.count(_ending(ended.code, now == before, told))
    yield tried


def _ending(code: int | None, nothing: bool, told: str | None) -> str:
    if code is not None:
        return "done before it was killed"
    if nothing:
        return "nothing of it is there"
    return "all of it is there, told" if told else "all of it is there, not told any more"


def typed(command: tuple[str, ...], base: Path) -> tuple[str, ...]:
    command = tuple(word.format(base=base.parent / "copy.db") for word in command)
    return command if command[0] in ("--db", "restore") else ("--on", NOW, *command)


def _carried_out(base: Path, folder: Path, steady: Path, command: tuple[str, ...]) -> tuple[dict[str, int], float]:
    path = copied(base, folder)
    run(path, "--on", NOW, "undo", home=steady)  # looks through the file and copies it, where that is not done today
    seconds = []
    for _ in range(3):
        path = copied(base, folder)
        for left in ("again.db", "new.db"):
            (steady / left).unlink(missing_ok=True)
        began = time.monotonic()
        ended = run(path, *typed(command, base), home=steady)
        seconds.append(time.monotonic() - began)
        if ended.code:
            raise RuntimeError(f"{' '.join(command)}: {ended.message}")
    return dict(rows(path)), min(seconds)


def _differences(now: object, before: dict[str, int], after: dict[str, int]) -> str:
    assert isinstance(now, dict)
    tables = sorted(name for name in now if now[name] not in (before.get(name), after.get(name)))
    return ", ".join(tables) or "rows of one table without those of another"
