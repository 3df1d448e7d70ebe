"""How long commands that only read take on the demo, against a bare click command that opens the file and counts.

Ratios of child CPU time in one run, which hold beside other work; run it as `python tests/bench/start.py`. The bare
process parses `--db PATH count` with click, opens the file with sqlite3, asks one query and prints the answer. `due`
is told as it was kept since the file last changed, and once more with nothing kept.
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
from stockroom.store.jobs import all_jobs
from stockroom.store.lots import shelf
from stockroom.store.open import open_store

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 15
BARE = """
import sqlite3
import click

@click.group()
@click.option("--db")
@click.pass_context
def main(context, db):
    context.obj = sqlite3.connect(f"file:{db}?mode=rw", uri=True)

@main.command()
@click.pass_obj
def count(connection):
    click.echo(connection.execute("SELECT count(*) FROM lot").fetchone()[0])

main()
"""
STOCKROOM = "import sys\nfrom stockroom.cli.main import run_for_code\nsys.exit(run_for_code(sys.argv[1:]))"
MOST = 1.5


def child_seconds(program: str, path: Path, *arguments: str) -> float:
    """Run a program in a process of its own; return its CPU time."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, "-c", program, "--db", str(path), *arguments]
    subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    compileall.compile_dir(ROOT / "stockroom", quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = folder
        path = Path(folder) / "demo.db"
        build_demo(path, datetime.now(UTC))
        # as on any day: the file was not written to a moment ago
        os.utime(path, (time.time() - 60, time.time() - 60))
        with open_store(path) as store:
            jar = next(lot.code for lot in shelf(store) if lot.over_solid)
            job = all_jobs(store)[-1].code
        commands = (["due"], ["shelf", "ethanol"], ["lot", jar], ["job", "list"], ["cost", job])
        for command in commands:
            child_seconds(STOCKROOM, path, *command)
        taken: dict[str, list[float]] = {}
        for _ in range(ROUNDS):
            taken.setdefault("", []).append(child_seconds(BARE, path, "count"))
            for command in commands:
                taken.setdefault(" ".join(command), []).append(child_seconds(STOCKROOM, path, *command))
            for note in Path(folder).rglob("due-*.json"):
                note.unlink()
            taken.setdefault("due, nothing kept", []).append(child_seconds(STOCKROOM, path, "due"))
    bare = statistics.median(taken.pop(""))
    print(f"bare process {bare * 1000:.0f} ms of CPU")
    for words, seconds in taken.items():
        ratio = statistics.median(seconds) / bare
        print(f"{words}: {ratio:.2f} times ({MOST} at most)")


if __name__ == "__main__":
    main()
