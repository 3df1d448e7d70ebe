"""How what is asked all day grows with the books: a million entries and five thousand lots against ten thousand.

`large_stockroom.py` says what the two hold: the same jars, bookings, orders and lots on hand, a hundred times the
entries and lots that have ended. Due is judged anew, nothing kept; each query gets a connection of its own. CPU time,
the least of several rounds taken in turns: `python tests/bench/growth.py`.

`verify` and `backup` go through everything: their CPU time for each entry and their most memory are compared, each in
a process of its own.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from large_stockroom import ENDS, LAST_DAYS, stockroom

from stockroom.actions.costing import costing
from stockroom.actions.judged_due import judge
from stockroom.actions.lot_page import lot_page
from stockroom.actions.object_costs import object_costs
from stockroom.actions.shelf_lines import shelf_lines
from stockroom.store.jobs import all_jobs
from stockroom.store.lots import shelf
from stockroom.store.open import Store, open_store

LOCAL = ENDS.astimezone(ZoneInfo("Europe/Berlin"))
ROUNDS = 7
MOST = 1.2

Query = Callable[[Store], object]


def queries(path: Path) -> dict[str, Query]:
    """Return what is asked; the lot and the job are of the last years' work, which is alike in both stockrooms."""
    begun = ENDS - timedelta(days=LAST_DAYS)
    with open_store(path) as store:
        lot = next(one.code for one in reversed(shelf(store, "isopropanol")) if one.balance.quantity > 1)
        job = next(one.code for one in all_jobs(store) if one.title == f"Charts {begun:%Y-%m}-40")
    return {
        "due, judged anew": lambda store: judge(store, shelf(store), LOCAL, 14, None),
        "shelf search": lambda store: shelf_lines(store, "isoprop", LOCAL),
        "lot page": lambda store: lot_page(store, lot, LOCAL),
        "job cost": lambda store: (costing(store, job, LOCAL), object_costs(store, job)),
    }


def seconds(path: Path, query: Query) -> float:
    """Return the CPU time of one query on a fresh connection, the opening left out."""
    with open_store(path) as store:
        begun = time.process_time()
        query(store)
        return time.process_time() - begun


def command(path: Path, *arguments: str) -> tuple[float, float]:
    """Run a command of the stockroom; return its CPU time and its most memory in MiB."""
    program = "import sys\nfrom stockroom.cli.main import run_for_code\nsys.exit(run_for_code(sys.argv[1:]))"
    child = subprocess.Popen(
        [sys.executable, "-c", program, "--db", str(path), *arguments], stdout=subprocess.DEVNULL, text=True
    )
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        raise SystemExit(f"{arguments[0]} ended with {child.returncode}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def entries(path: Path) -> int:
    with open_store(path) as store:
        (number,) = store.connection.execute("SELECT count(*) FROM entry").fetchone()
    return int(number)


def main() -> None:
    small, large = stockroom("small"), stockroom("large")
    asked = [(path, queries(path)) for path in (small, large)]
    for words in asked[0][1]:
        taken = [[seconds(path, each[words]) for path, each in asked] for _ in range(ROUNDS)]
        little, much = (min(one[index] for one in taken) for index in (0, 1))
        ratio = much / little
        print(f"{words}: {little * 1000:.1f} and {much * 1000:.1f} ms: {ratio:.2f} times ({MOST} at most)", flush=True)
    times = entries(large) / entries(small)
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = folder
        for arguments in (["verify"], ["backup"]):
            where = [[*arguments, str(Path(folder) / f"{size}.db")] if arguments == ["backup"] else arguments
                     for size in ("small", "large")]  # fmt: skip
            (little, _), (much, memory) = command(small, *where[0]), command(large, *where[1])
            print(
                f"{arguments[0]}: {little:.1f} and {much:.1f} s for {times:.0f} times the entries: "
                f"{much / little / times:.2f} times for each ({MOST} at most), {memory:.0f} MiB at most",
                flush=True,
            )


if __name__ == "__main__":
    main()
