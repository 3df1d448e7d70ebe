"""Eight at once on the same jars, and a clock that jumps."""

from __future__ import annotations

import json
import os
import random
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from faults.studio import Tried, actions, copied, needed, read, run, sound

PROCESSES = 8
JARS = ("L002U", "L006M")


def at_once(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Let eight processes draw from the same two bottles until they are dry, each draw told or refused."""
    tried = Tried(f"{PROCESSES} processes drawing from the same bottles at once, until they are dry")
    path = copied(base, folder / "work")
    held = read(path, f"SELECT sum(quantity) FROM balance JOIN lot ON lot.id = lot_id WHERE code IN {JARS}")[0][0]
    each = times // PROCESSES
    amount = held // 1000 // (PROCESSES * each) + 3  # so that the last ones find nothing
    children = []
    for worker in range(PROCESSES):
        told = folder / f"told-{worker}"
        child = os.fork()
        if child == 0:
            _draw(path, told, each, amount, seed + worker)
        children.append((child, told))
    codes: list[str] = []
    for child, told in children:
        os.waitpid(child, 0)
        for line in told.read_text().splitlines():
            said: dict[str, Any] = json.loads(line)
            tried.count("drawn" if said["action"] else "refused in words: not enough left")
            if said["action"]:
                codes.append(said["action"])
            elif not ("Not enough on the shelf" in said["message"] or "used up" in said["message"]):
                tried.lost.append(f"refused: {said['message']}")
    left = read(path, f"SELECT sum(quantity) FROM balance JOIN lot ON lot.id = lot_id WHERE code IN {JARS}")[0][0]
    if held - left != len(codes) * amount * 1000:
        tried.lost.append(f"{len(codes)} draws of {amount} mL were told, and {(held - left) / 1000} mL went")
    if len(set(codes)) != len(codes) or not set(codes) <= actions(path):
        tried.lost.append("an action was told twice, or is not there")
    tried.lost += sound(path)
    yield tried


def _draw(path: Path, told: Path, each: int, amount: int, seed: int) -> None:
    """Draw again and again, and write down what was answered; never returns."""
    chance = random.Random(seed)
    try:
        with told.open("w") as file:
            for _ in range(each):
                jars = list(JARS)
                chance.shuffle(jars)
                for jar in jars:
                    ended = run(path, "take", jar, f"{amount} mL", "--why", "test")
                    if ended.acknowledged:
                        break
                file.write(json.dumps({"action": ended.acknowledged, "message": ended.message}) + "\n")
                file.flush()
    finally:
        os._exit(0)


MOMENTS = (
    "2025-12-31T23:59:59", "2026-01-01T00:00:01", "2026-03-29T01:59:59", "2026-03-29T03:00:00", "2026-10-25T02:30:00",
    "2026-12-31T22:59:59", "2026-12-31T23:00:01", "2027-12-31T23:59:59", "2028-01-01T00:00:00", "2028-02-28T23:59:59",
    "2028-02-29T00:00:00", "2028-02-29T12:00:00", "2028-03-01T00:00:00", "2032-02-29T23:59:59", "2099-12-31T23:59:59",
)  # fmt: skip


def clock(base: Path, folder: Path, times: int, seed: int) -> Iterator[Tried]:
    """Set the machine's clock back and forth across years' ends, leap days and summer time, and book at each."""
    chance = random.Random(seed)
    tried = Tried("the clock set back and forth across years' ends, leap days and summer time")
    path = copied(base, folder / "work")
    told: list[str] = []
    commands = (
        ("receive", "ethanol", "100 mL", "--cost", "1.39"),
        ("take", "L002U", "1 mL", "--why", "test"),
        ("make", "calcium-hydroxide-saturated", "100 mL"),
        ("count", "L001W", "400 g"),
        ("due",),
        ("backup", "--list"),
    )
    for number in range(times):
        moment = datetime.fromisoformat(chance.choice(MOMENTS)) + timedelta(seconds=chance.uniform(-2, 2))
        command = commands[number % len(commands)]
        ended = run(path, *command, prepare=lambda moment=moment: _set_clock(moment))
        named = f"{moment}: {' '.join(command)}"
        if ended.acknowledged:
            told.append(ended.acknowledged)
        if ended.code not in (0, 1):
            tried.lost.append(f"{named}: ended with {ended.code}: {ended.message}")
        tried.count("done" if not ended.code else "refused in words (a later day would fall below nothing)")
        if number % 10 == 9 or number == times - 1:
            tried.lost += [f"{named}: {trouble}" for trouble in sound(path)]
    if not set(told) <= actions(path) or len(set(told)) != len(told):
        tried.lost.append("an action was told twice, or is not there")
    kept = needed(path, "backup", "--list")["copies"]
    if not kept or any(copy["last_seal"] is None for copy in kept):
        tried.lost.append("a copy is missing or cannot be read")
    yield tried


def _set_clock(moment: datetime) -> None:
    """Let every module of the program see another time, before any of them asks."""
    import sys

    class Shifted(datetime):
        @classmethod
        def now(cls, tz: Any = None) -> Any:
            local = cls(*moment.timetuple()[:6], moment.microsecond)
            return local if tz is None else tz.fromutc(local.replace(tzinfo=tz))

    for name, module in list(sys.modules.items()):
        if name.startswith("stockroom") and getattr(module, "datetime", None) is datetime:
            module.datetime = Shifted  # type: ignore[attr-defined]
