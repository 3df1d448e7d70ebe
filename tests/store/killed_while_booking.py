"""Book in child processes that are killed, and print as JSON what each left behind. Run by test_killed.

killed_while_booking.py FILE statements       each child kills itself before its next statement
killed_while_booking.py FILE moments ROUNDS   each child is killed by its parent at a moment of chance
"""

from __future__ import annotations

import json
import os
import random
import signal
import sys
import time
from pathlib import Path

from builders import Bench

from stockroom.actions.verifying import verify
from stockroom.store.open import Store, open_store

SENTENCES = ("count A {0}", "make N{0} 5 from A 3, B 2", "take A 1 for J", "count A {1}", "price B {0}", "undo last")


def actions(store: Store) -> int:
    return int(store.rows("SELECT count(*) AS number FROM action")[0]["number"])


def left_behind(path: Path) -> dict[str, object]:
    with open_store(path) as store:
        problems = [problem.words for problem in verify(store).problems]
        half = store.rows("SELECT code FROM lot WHERE begun_by NOT IN (SELECT action_number FROM seal)")
        return {"actions": actions(store), "problems": problems, "half": [lot["code"] for lot in half]}


def actions_in(path: Path) -> int:
    with open_store(path) as store:
        return actions(store)


def book_until(path: Path, statements: int) -> None:
    """Book an action of many entries, facts and a count, and die before statement number `statements`."""
    store = open_store(path)
    bench = Bench.again(store)
    done = 0

    def count(_: str) -> None:
        nonlocal done
        done += 1
        if done > statements:
            os.kill(os.getpid(), signal.SIGKILL)

    bench.do("day 2")
    store.connection.set_trace_callback(count)
    bench.do("take A 7 for J")


def kill_at_statements(path: Path) -> None:
    whole = False
    statements = 0
    while not whole:
        before = actions_in(path)
        child = os.fork()
        if child == 0:
            book_until(path, statements)
            os._exit(0)
        _, status = os.waitpid(child, 0)
        whole = os.waitstatus_to_exitcode(status) == 0
        print(json.dumps({"statements": statements, "before": before, "whole": whole, **left_behind(path)}))
        statements += 1


def book_on_and_on(path: Path, told: int) -> None:
    """Book one action after the other; write a byte for each that was booked."""
    bench = Bench.again(open_store(path))
    bench.do("day 3")
    number = actions(bench.store)
    while True:
        for sentence in SENTENCES:
            number += 1
            bench.do(sentence.format(100_000 + number, 100_500 + number))
            os.write(told, b".")


def kill_at_moments(path: Path, rounds: int) -> None:
    chance = random.Random(20260301)
    for _ in range(rounds):
        before = actions_in(path)
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(reading)
            book_on_and_on(path, writing)
        os.close(writing)
        told = len(os.read(reading, 1))
        time.sleep(chance.uniform(0, 0.05))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        while more := os.read(reading, 4096):
            told += len(more)
        os.close(reading)
        print(json.dumps({"before": before, "told": told, **left_behind(path)}))


if __name__ == "__main__":
    file, how, *rest = sys.argv[1:]
    if how == "statements":
        kill_at_statements(Path(file))
    else:
        kill_at_moments(Path(file), int(rest[0]))
