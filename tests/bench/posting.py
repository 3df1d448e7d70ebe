"""How long posting an action takes, against raw sqlite3 making the very same inserts with the same pragmas.

A treatment of five draws on one object is posted on a stockroom of ten thousand entries; the statements by which it
changed the file are then run as they are on a copy of that file by a bare connection. The two take turns, in one run,
each in a durable transaction of its own; medians are compared: `python tests/bench/posting.py`.
"""

from __future__ import annotations

import shutil
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

from large_stockroom import ENDS, PACKS, occasion, stockroom, treatment

from stockroom.actions.jobs import new_job
from stockroom.actions.posting import post
from stockroom.store.lots import lots_of_materials
from stockroom.store.materials import find_material
from stockroom.store.open import PRAGMAS, Store, open_store
from stockroom.store.studio import all_people

ROUNDS = 300
MOST = 1.5

Statement = tuple[str, dict[str, Any]]


class Noting(Store):
    """A store that notes every statement by which it changes the file."""

    noted: list[Statement]

    def run(self, sql: str, **named: Any) -> int:
        self.noted.append((sql, named))
        return super().run(sql, **named)


def timed(work: Callable[[], object]) -> tuple[float, float]:
    """Return how long some work takes, by the clock and in CPU time."""
    begun, cpu = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - begun, time.process_time() - cpu


def compare(folder: Path) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Post and replay in turns; return the times of both."""
    ours, bare = folder / "ours.db", folder / "bare.db"
    shutil.copyfile(stockroom("small"), ours)
    with open_store(ours) as first:
        by = all_people(first)[0].initials
        job = new_job(first, "Charts", today=ENDS.date(), objects=["Sheet 1, 40 x 30 cm"])
        lots = tuple(
            max(lots_of_materials(first, [find_material(first, key).id]), key=lambda lot: lot.balance.quantity)
            for key in PACKS
        )
    shutil.copyfile(ours, bare)
    raw = sqlite3.connect(bare, isolation_level=None)
    for name, value in PRAGMAS.items():
        raw.execute(f"PRAGMA {name} = {value}")
    posted, replayed = [], []
    with open_store(ours) as opened:
        store = Noting(opened.path, opened.connection)

        def one_action() -> None:
            store.noted = []
            with store.write() as booked_at:
                post(store, draft, booked_at)

        def the_same_inserts() -> None:
            raw.execute("BEGIN IMMEDIATE")
            for sql, named in store.noted:
                raw.execute(sql, named)
            raw.execute("COMMIT")

        for number in range(ROUNDS):
            draft = treatment(occasion(by, ENDS + timedelta(seconds=number)), job, lots, draws=100_000, last=False)
            posted.append(timed(one_action))
            replayed.append(timed(the_same_inserts))
    raw.close()
    return posted, replayed


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        posted, replayed = compare(Path(folder))
    for index, words in enumerate(("by the clock, as a person waits", "CPU alone, without waiting for the disk")):
        ours = statistics.median(one[index] for one in posted)
        bare = statistics.median(one[index] for one in replayed)
        taken = f"{ours * 1000:.2f} ms, bare {bare * 1000:.2f} ms"
        print(f"posting, {words}: {taken}: {ours / bare:.2f} times ({MOST} at most)")


if __name__ == "__main__":
    main()
