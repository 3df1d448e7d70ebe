"""How long the opening screen takes to its first useful paint, against a bare Textual application with one table.

The process's own CPU time, from its start until what is due stands on screen (or until the bare table does), as ratios
in one run, which hold beside other work; without a terminal, at 100 by 30. On the demo, and on a stockroom of five
thousand lots and a million entries, which is built the first time. Run it as `python tests/bench/first_paint.py`.

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

from large_stockroom import ENDS, stockroom

from demo_db.build import build_demo

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 9
MOST = 1.5
PAINTED = """
def painted(app):
    print(time.process_time(), file=sys.__stdout__, flush=True)
    app.exit()
"""
BARE = f"""
import sys, time
from textual.app import App
from textual.widgets import DataTable
{PAINTED}
class Bare(App):
    def compose(self):
        yield DataTable()

    def on_mount(self):
        table = self.query_one(DataTable)
        table.add_columns("what", "by", "name", "code")
        for number in range(20):
            table.add_row("check it", "2026-12-02", "Calcium hydroxide solution", str(number))
        self.call_after_refresh(painted, self)

Bare().run(headless=True, size=(100, 30))
"""
OURS = f"""
import sys, time
from datetime import datetime
from pathlib import Path
from stockroom.tui.app import StockroomApp
from stockroom.tui.screens.due import DueScreen
{PAINTED}
fill = DueScreen.fill

def fill_and_tell(self, found):
    fill(self, found)
    assert self.entries, "nothing is due"
    self.call_after_refresh(painted, self.app)

DueScreen.fill = fill_and_tell
now = datetime.fromisoformat(sys.argv[2])
app = StockroomApp(Path(sys.argv[1]), by=None, now=lambda: now)
try:
    app.run(headless=True, size=(100, 30))
finally:
    app.database.close()
"""


def seconds(program: str, *arguments: str) -> float:
    """Run a program in a process of its own; return the CPU time it had taken when it told."""
    ran = subprocess.run(
        [sys.executable, "-c", program, *arguments], check=True, stdout=subprocess.PIPE, text=True, cwd=ROOT
    )
    return float(ran.stdout.split()[0])


def main() -> None:
    compileall.compile_dir(ROOT / "stockroom", quiet=1)
    large = stockroom("large")
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = os.environ["STOCKROOM_COPIES"] = folder
        demo, now = Path(folder) / "demo.db", datetime.now(UTC)
        build_demo(demo, now)
        # as on any day: the file was not written to a moment ago
        os.utime(demo, (time.time() - 60, time.time() - 60))
        places = {"the demo": (str(demo), now.isoformat()), "a million entries": (str(large), ENDS.isoformat())}
        taken: dict[str, list[float]] = {}
        for place in places.values():
            seconds(OURS, *place)
        for _ in range(ROUNDS):
            taken.setdefault("", []).append(seconds(BARE))
            for words, place in places.items():
                taken.setdefault(words, []).append(seconds(OURS, *place))
            for note in Path(folder).rglob("due-*.json"):
                note.unlink()
            for words, place in places.items():
                taken.setdefault(f"{words}, nothing kept", []).append(seconds(OURS, *place))
    bare = statistics.median(taken.pop(""))
    print(f"bare application {bare * 1000:.0f} ms of CPU")
    for words, found in taken.items():
        print(f"{words}: {statistics.median(found) / bare:.2f} times ({MOST} at most)")


if __name__ == "__main__":
    main()
