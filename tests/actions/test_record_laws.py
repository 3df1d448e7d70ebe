"""Statement, register and what is held say what the ledger says, whatever was done and put right in between."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta

from builders import Bench, NewBench
from histories import STEPS, Step, many, tried
from hypothesis import given

from stockroom.actions.held import held
from stockroom.actions.registers import register_of
from stockroom.actions.statement import statement

FIRST, LAST = date(2026, 3, 1), date(2026, 6, 30)


def of_ledger(bench: Bench, job: str) -> dict[str, int]:
    """Add up what each lot gave to a job, in plain SQL."""
    rows = bench.store.rows(
        "SELECT lot.code AS code, -sum(entry.quantity) AS quantity FROM entry JOIN lot ON lot.id = entry.lot_id "
        "JOIN job ON job.id = entry.job_id WHERE job.code = :job GROUP BY lot.code HAVING sum(entry.quantity) <> 0",
        job=job,
    )
    return {row["code"]: row["quantity"] for row in rows}


@many
@given(steps=STEPS)
def test_a_statement_adds_up_to_what_the_ledger_gave_the_job(new_bench: NewBench, steps: list[Step]) -> None:
    """Of every lot, over all treatments; and those of the objects are parts of it."""
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        for code in bench.jobs.values():
            said = statement(bench.store, code, LAST)
            used: dict[str, int] = defaultdict(int)
            for done in said.treatments:
                for one in done.used:
                    used[one.code] += one.amount.quanta
            assert used == of_ledger(bench, code)
            behind = {one.code for one in (*said.solutions, *said.materials)}
            assert set(used) <= behind
            actions = [done.action for done in said.treatments]
            assert len(actions) == len(set(actions))
            for thing in said.job.objects:
                own = statement(bench.store, code, LAST, of=thing.name).treatments
                assert {done.action for done in own} <= set(actions)
                assert all(thing.name in (done.objects or (thing.name,)) for done in own)


@many
@given(steps=STEPS)
def test_register_and_held_agree_with_each_other_and_with_the_balances(new_bench: NewBench, steps: list[Step]) -> None:
    """What is held on a day is what the register has left then; on the last day it is what the lots hold."""
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        for days in (*range(0, 31, 5), (LAST - FIRST).days):
            day = FIRST + timedelta(days=days)
            here = held(bench.store, day).containers
            for key in ("stuff", "mixture"):
                left = register_of(bench.store, key, day).left.quanta
                assert left == sum(one.amount.quanta for one in here if one.lot.material.key == key)
        now = {one.lot.code: (one.amount.quanta, one.value) for one in held(bench.store, LAST).containers}
        holding = {bench.lots[name]: bench.held(name) for name in bench.lots if bench.held(name)[0]}
        assert {code: balance for code, balance in now.items() if balance[0]} == holding


@many
@given(steps=STEPS)
def test_a_register_runs_from_line_to_line(new_bench: NewBench, steps: list[Step]) -> None:
    """Each line's rest is the one before it and what moved; a later beginning brings the same forward."""
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        for key in ("stuff", "mixture"):
            whole = register_of(bench.store, key, LAST)
            held_then = 0
            for line in whole.lines:
                held_then += line.moved.quanta
                assert line.left.quanta == held_then
            assert whole.left.quanta == held_then
            middle = date(2026, 3, 4)
            later = register_of(bench.store, key, LAST, middle)
            assert later.lines == tuple(line for line in whole.lines if line.day >= middle.isoformat())
            before = register_of(bench.store, key, middle - timedelta(days=1)).left
            assert later.brought_forward == before
