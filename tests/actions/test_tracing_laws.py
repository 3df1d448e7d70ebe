"""Tracing up and tracing down are one relation read from both ends, whatever was done in between."""

from __future__ import annotations

from builders import Bench, NewBench
from histories import STEPS, Step, many, tried
from hypothesis import given

from stockroom.actions.tracing import trace_job, trace_lots
from stockroom.domain.trace import Trace
from stockroom.store.jobs import find_job


def of_lot(bench: Bench, name: str) -> Trace:
    return trace_lots(bench.store, [bench.lot(name)], name)


def touched(found: Trace) -> set[tuple[str, int | None]]:
    return {(one.job, one.position) for one in found.objects}


@many
@given(steps=STEPS)
def test_what_a_lot_reached_has_that_lot_behind_it_and_the_reverse(new_bench: NewBench, steps: list[Step]) -> None:
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        forth = {name: of_lot(bench, name) for name in bench.lots}
        codes = {name: bench.lots[name] for name in bench.lots}
        for name, found in forth.items():
            reached = {one.lot.code for one in found.lots_reached}
            with_it_behind = {
                codes[other] for other in forth if codes[name] in {one.lot.code for one in forth[other].lots_behind}
            }
            assert reached == with_it_behind
        for job_code in bench.jobs.values():
            job = find_job(bench.store, job_code)
            for thing in job.objects or (None,):
                back = trace_job(bench.store, job, (str(thing.position),) if thing else ())
                behind = {one.lot.code for one in back.lots_behind}
                key = (job.code, thing.position if thing else None)
                assert behind == {codes[name] for name, found in forth.items() if key in touched(found)}
