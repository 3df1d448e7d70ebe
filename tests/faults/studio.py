"""The stockroom that is put to the test, every kind of thing that is done to it, and what must hold afterwards."""

from __future__ import annotations

import io
import json
import os
import shutil
import signal
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Mapping
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NoReturn

from stockroom.cli.main import run_for_code

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = "from stockroom.cli.main import run; run()"
NOW = "2026-03-10T10:00"


@dataclass
class Tried:
    """What was tried, how often, and how it ended."""

    what: str
    times: int = 0
    ended: dict[str, int] = field(default_factory=dict)
    """How often in each way, in words."""
    lost: list[str] = field(default_factory=list)
    """Everything that should not have been, told in full."""

    def count(self, ending: str) -> None:
        self.times += 1
        self.ended[ending] = self.ended.get(ending, 0) + 1


@dataclass(frozen=True)
class Ended:
    """How one run of the program ended; without a code it was killed."""

    code: int | None
    out: str
    err: str

    @property
    def document(self) -> dict[str, Any]:
        """What it printed, if it had come to that."""
        try:
            found = json.loads(self.out)
        except ValueError:
            return {}
        return found if isinstance(found, dict) else {}

    @property
    def acknowledged(self) -> str | None:
        """The code of the action that a person was told is booked."""
        return None if "error" in self.document else self.document.get("action")

    @property
    def message(self) -> str:
        return str(self.document.get("error", {}).get("message", self.err))


def environment(folder: Path) -> dict[str, str]:
    """Keep every note and copy inside a folder."""
    own = {f"XDG_{name}_HOME": str(folder / name.lower()) for name in ("DATA", "CONFIG", "STATE", "CACHE")}
    return {"PYTHONPATH": str(ROOT), "HOME": str(folder), "TZ": "UTC", "COLUMNS": "120", **own}


def run(
    path: Path,
    *arguments: str,
    home: Path | None = None,
    prepare: Callable[[], object] | None = None,
    kill_after: float | None = None,
    fresh: bool = False,
) -> Ended:
    """Run the program in a process of its own, and kill it after so many seconds if that is asked for.

    The process is forked from this one, which has loaded the program already, so that what is killed is an action and
    not the loading of modules; or started afresh. `prepare` runs in it first. One that hangs is ended after a minute.
    """
    command = ["--json", "--db", str(path), *arguments]
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        child = os.fork()
        if child == 0:
            _become(command, out.fileno(), err.fileno(), environment(home or path.parent), prepare, fresh)
        if kill_after is not None:
            time.sleep(kill_after)
            os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        said = []
        for stream in (out, err):
            stream.seek(0)
            said.append(stream.read().decode("utf-8", "replace"))
    code = os.waitstatus_to_exitcode(status)
    if code == -signal.SIGALRM:
        said[1] += "\nno answer within a minute"
    return Ended(None if code == -signal.SIGKILL else code, said[0], said[1])


def _become(
    command: list[str],
    out: int,
    err: int,
    environ: dict[str, str],
    prepare: Callable[[], object] | None,
    fresh: bool,
) -> NoReturn:
    code = 99
    try:
        signal.alarm(60)
        os.dup2(out, 1)
        os.dup2(err, 2)
        os.environ.update(environ)
        os.chdir(environ["HOME"])
        if prepare is not None:
            prepare()
        if fresh:
            os.execv(sys.executable, [sys.executable, "-c", PROGRAM, *command])
        sys.stdout, sys.stderr = (io.TextIOWrapper(io.FileIO(number, "w"), encoding="utf-8") for number in (1, 2))
        code = int(run_for_code(command))
        sys.stdout.flush()
        sys.stderr.flush()
    finally:
        os._exit(code)


def needed(path: Path, *arguments: str) -> dict[str, Any]:
    """Run what the test itself needs."""
    ended = run(path, *arguments)
    if ended.code:
        raise RuntimeError(f"stockroom {' '.join(arguments)}: {ended.message}")
    return ended.document


def begin(folder: Path) -> Path:
    """Make the stockroom: lots bought and made, a job, an order, a can, a loan; one file, quiet again."""
    path = folder / "stockroom.db"
    needed(path, "--by", "AB", "init", "--time-zone", "Europe/Berlin")
    for arguments in (
        "--on 2026-03-01 receive calcium-hydroxide;500 g;--cost;12.50;--place;shelf",
        "--on 2026-03-01 receive ethanol;2 x 1 L;--cost;27.80",
        "--on 2026-03-01 receive polyester-web-light;10 sheets;--cost;48.00",
        "--on 2026-03-01 receive blotter;25 sheets;--cost;29.50",
        "--on 2026-03-02 make calcium-hydroxide-saturated;2 L;--into;2 x 1 L;--place;shelf",
        "job new;Sea chart;--object;Chart, 40 x 30 cm",
        "job new;Another chart",
        "--on 2026-03-04 take L002U;100 mL;--why;lent;--to;the framer",
        "--on 2026-03-04 take L002U;50 mL;--job;J001R",
        "--on 2026-03-04 take L002U;5 mL;--why;test",
        "material edit;calcium-hydroxide;--low;1 kg",
        "supplier new;Laboratory supplies;--delivery-days;5",
        "supplier offer;laboratory;calcium-hydroxide;500 g;12.90",
        "--on 2026-03-04 buy --order",
        "--on 2026-03-04 order place;P0015",
        "--on 2026-03-04 waste-can new;Alkaline waste;--capacity;5 L",
        "--on 2026-03-04 receive blotter;5 sheets;--cost;6.00",
        "--on 2026-03-05 withdraw L00F4;--why;looked into",
        "backup copy.db",
    ):
        first, *more = arguments.split(";")
        words = [*first.split(), *more]
        needed(path, *(str(folder / word) if word == "copy.db" else word for word in words))
    return path


def load(base: Path, folder: Path, commands: Iterable[tuple[str, ...]]) -> None:
    """Use the program in this very process, so that processes forked from it have loaded it already."""
    os.environ.update(environment(folder))
    for command in commands:
        path = copied(base, folder / "loading")
        with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
            run_for_code(["--json", "--db", str(path), *command])


def read(path: Path, sql: str) -> list[Any]:
    """Read the file without the program; SQLite takes back what was cut off first, as it would for the program."""
    connection = sqlite3.connect(path)
    try:
        return connection.execute(sql).fetchall()
    finally:
        connection.close()


def rows(path: Path) -> Mapping[str, int]:
    """Return how many rows each table has."""
    names = [name for (name,) in read(path, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")]
    return {name: read(path, f"SELECT count(*) FROM {name}")[0][0] for name in names}


def contents(path: Path) -> str:
    """Return all that is in the file, as text."""
    connection = sqlite3.connect(path)
    connection.text_factory = lambda text: text.decode("utf-8", "surrogateescape")
    try:
        return "\n".join(connection.iterdump())
    finally:
        connection.close()


def actions(path: Path) -> set[str]:
    return {code for (code,) in read(path, "SELECT code FROM action")}


def copied(path: Path, folder: Path) -> Path:
    """Copy a quiet stockroom into a fresh folder."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    return Path(shutil.copy(path, folder / "stockroom.db"))


def sound(path: Path) -> list[str]:
    """Return what the program's own proof finds wrong."""
    ended = run(path, "verify")
    if ended.code == 0:
        return []
    return [one["words"] for one in ended.document.get("problems", [])] or [ended.message]
