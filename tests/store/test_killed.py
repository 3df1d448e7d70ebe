"""One action, one transaction: all of it or none of it, whatever happens to the process."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from builders import Bench

from stockroom.store.open import Store

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that can be killed")
HERE = Path(__file__).parent


@pytest.fixture
def file(store: Store) -> Path:
    bench = Bench(store)
    bench.do("receive A 900000 for 12345", "receive B 900000 for 999", "day 5", "count A 899000")
    store.close()
    return store.path


def killed(file: Path, *how: str) -> list[dict[str, Any]]:
    folders = os.pathsep.join([str(HERE.parent), str(HERE.parents[1])])
    ran = subprocess.run(
        [sys.executable, str(HERE / "killed_while_booking.py"), str(file), *how],
        capture_output=True,
        text=True,
        timeout=300,
        env={**os.environ, "PYTHONPATH": folders},
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    return [json.loads(line) for line in ran.stdout.splitlines()]


def test_killed_before_any_statement_of_an_action_none_of_it_is_there(file: Path) -> None:
    """A draw before a count: its entries, the count kept as counted, the seal."""
    left = killed(file, "statements")
    assert len(left) > 20
    for one in left[:-1]:
        assert one["actions"] == one["before"], one
        assert (one["problems"], one["half"]) == ([], []), one
    assert left[-1]["whole"]
    assert left[-1]["actions"] == left[-1]["before"] + 1
    assert left[-1]["problems"] == []


def test_killed_at_moments_of_chance_all_that_was_told_is_there_and_nothing_half(file: Path) -> None:
    """What was reported as booked is there; the action under way is there whole or not at all."""
    left = killed(file, "moments", "25")
    assert len(left) == 25
    for one in left:
        assert one["actions"] - one["before"] - one["told"] in (0, 1), one
        assert (one["problems"], one["half"]) == ([], []), one
