"""How long the opening screen takes to its first useful paint, against a bare Textual application with one table.

The process's own CPU time, from its start until the first thing due and what one key does with it (or the rows of the
bare table) were written to a terminal of 100 by 30 that only looks at what is written to it; as ratios in one run,
which hold beside other work. Ours is the whole command. On the demo, and on a stockroom of five thousand lots and a
million entries, which is built the first time. Run it as `python tests/bench/first_paint.py`.

On either stockroom what is due is told as it was kept since the file last changed, as on any day, and once more with
nothing kept.
"""

from __future__ import annotations

import compileall
import os
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from large_stockroom import ENDS, stockroom
from watched_terminal import WAITED_FOR

from demo_db.build import build_demo
from stockroom.actions.whats_due import due_items
from stockroom.store.open import open_store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import all_people

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 9
MOST = 1.5
BARE = """
from textual.app import App
from textual.widgets import DataTable

class Bare(App):
    def compose(self):
        yield DataTable()

    def on_mount(self):
        table = self.query_one(DataTable)
        table.add_columns("what", "by", "name", "code")
        for number in range(20):
            table.add_row("check it", "2026-12-02", "Calcium hydroxide solution", str(number))

Bare().run()
"""
OURS = "from stockroom.cli.main import run\nrun()"


def seconds(program: str, waited_for: str, *arguments: str) -> float:
    """Run a program in a process of its own; return the CPU time it had taken when some lines had been written."""
    ran = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        check=True,
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        timeout=60,
        env=os.environ
        | {
            "PYTHONPATH": os.pathsep.join([str(ROOT), str(ROOT / "tests" / "bench")]),
            "TEXTUAL_DRIVER": "watched_terminal:Terminal",
            "COLUMNS": "100",
            "LINES": "30",
            WAITED_FOR: waited_for,
        },
    )
    return float(ran.stdout.split()[0])


def start(path: Path, now: datetime) -> tuple[str, ...]:
    """Return what is waited for on a stockroom, and the command that opens it at a moment for one of its people."""
    with open_store(path) as store:
        person = all_people(store)[0]
        local = now.astimezone(ZoneInfo(setting(store, "time_zone")))
        first = due_items(store, local)[0]
    told = f"{first.name}\nEnter: "
    return told, "--db", str(path), "--by", person.initials, "--on", f"{local:%Y-%m-%dT%H:%M}"


def main() -> None:
    compileall.compile_dir(ROOT / "stockroom", quiet=1)
    large = stockroom("large")
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = os.environ["STOCKROOM_COPIES"] = folder
        demo, now = Path(folder) / "demo.db", datetime.now(UTC)
        build_demo(demo, now)
        # as on any day: the file was not written to a moment ago
        os.utime(demo, (time.time() - 60, time.time() - 60))
        places = {"the demo": start(demo, now), "a million entries": start(large, ENDS)}
        taken: dict[str, list[float]] = {}
        for arguments in places.values():
            seconds(OURS, *arguments)
        for _ in range(ROUNDS):
            taken.setdefault("", []).append(seconds(BARE, "Calcium hydroxide solution"))
            for words, arguments in places.items():
                taken.setdefault(words, []).append(seconds(OURS, *arguments))
            for note in Path(folder).rglob("due-*.json"):
                note.unlink()
            for words, arguments in places.items():
                taken.setdefault(f"{words}, nothing kept", []).append(seconds(OURS, *arguments))
    bare = statistics.median(taken.pop(""))
    print(f"bare application {bare * 1000:.0f} ms of CPU")
    for words, found in taken.items():
        print(f"{words}: {statistics.median(found) / bare:.2f} times ({MOST} at most)")


if __name__ == "__main__":
    main()
