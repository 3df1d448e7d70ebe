"""How long `due` takes on the demo, against a process that only imports click and sqlite3 and opens the file.

Ratios of child CPU time in one run, which hold beside other work; run it as `python tests/bench/start.py`.
"""

from __future__ import annotations

import compileall
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from demo_db.build import build_demo

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 15
FLOOR = (
    "import click, sqlite3, sys\n"
    "sqlite3.connect(f'file:{sys.argv[1]}?mode=rw', uri=True).execute('SELECT count(*) FROM lot').fetchall()"
)
DUE = "import sys\nfrom stockroom.cli.main import run_for_code\nrun_for_code(['--db', sys.argv[1], 'due'])"


def child_seconds(program: str, path: Path) -> float:
    """Run a program in a process of its own; return its CPU time."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", program, str(path)], check=True, capture_output=True, cwd=ROOT)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    compileall.compile_dir(ROOT / "stockroom", quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "demo.db"
        build_demo(path, datetime.now(UTC))
        # as on any day: the file was not written to a moment ago, and what is due by reckoning is kept
        os.utime(path, (time.time() - 60, time.time() - 60))
        child_seconds(DUE, path)
        pairs = [(child_seconds(FLOOR, path), child_seconds(DUE, path)) for _ in range(ROUNDS)]
    floor = statistics.median(one for one, _ in pairs)
    due = statistics.median(two for _, two in pairs)
    print(f"floor {floor * 1000:.0f} ms, due {due * 1000:.0f} ms: {due / floor:.2f} times (at most 2.5)")


if __name__ == "__main__":
    main()
