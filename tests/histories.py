"""Histories of a small stockroom, drawn at random: sequences of everything that can be done to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builders import Bench
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from stockroom.errors import StockroomError

many = settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


@dataclass(frozen=True)
class Step:
    """Something to try: sentences with places for a lot, another lot, an earlier action and a day."""

    sentence: str
    lot: int
    other: int
    action: int
    day: int

    def words(self, bench: Bench, number: int) -> str:
        names = list(bench.lots)
        draws = [place for place, told in enumerate(bench.told, 1) if told.startswith(("take", "make"))]
        return self.sentence.format(
            lot=names[self.lot % len(names)],
            other=names[self.other % len(names)],
            action=self.action % len(bench.actions) + 1,
            draw=draws[self.action % len(draws)] if draws else 1,
            new=f"N{number}",
        )


AMOUNT = st.integers(1, 60)
MONEY = st.integers(0, 250)


def said(text: str, *parts: st.SearchStrategy[object]) -> st.SearchStrategy[str]:
    return st.tuples(*parts).map(lambda values: text % values)


SENTENCES = st.one_of(
    said("receive {new} %s for %s", AMOUNT, MONEY),
    said("take {lot} %s for %s", AMOUNT, st.sampled_from(["J", "J1", "J2", "K"])),
    said("take {lot} %s spilled", AMOUNT),
    said("take {lot} %s lent", AMOUNT),
    said("make {new} %s from {lot} %s, {other} %s", AMOUNT, AMOUNT, AMOUNT),
    said("make {new} %s from {lot} %s", AMOUNT, AMOUNT),
    said("top up {lot} %s with {other} %s", AMOUNT, AMOUNT),
    said("bring back %s of {lot}", st.integers(1, 9)),
    said("count {lot} %s", AMOUNT),
    said("count {lot} %s evaporated", AMOUNT),
    said("empty {lot} %s", st.sampled_from(["unknown", "evaporated"])),
    st.just("discard {lot}"),
    said("return {lot} %s for %s", AMOUNT, MONEY),
    said("price {lot} %s", MONEY),
    st.just("undo {action}"),
    st.just("undo last"),
    said("put right {draw} amount %s", AMOUNT),
    st.just("put right {draw} lot {other}"),
    said("put right {draw} for %s", st.sampled_from("JK")),
    said("put right {draw} day %s", st.integers(1, 9)),
)
LOT = st.integers(0, 4)
DAY = st.sampled_from([9, 9, 9, 8, 5, 1])
STEP = st.builds(Step, SENTENCES, LOT, LOT, st.integers(0, 30), DAY)
STEPS = st.lists(STEP, min_size=1, max_size=25)


def tried(bench: Bench, steps: list[Step]) -> Iterator[tuple[str, bool]]:
    """Do each step on its day; say in words what was tried and whether it was booked."""
    bench.do("receive A 100 for 1000", "receive B 33 for 100")
    for number, step in enumerate(steps):
        bench.do(f"day {step.day}")
        words = step.words(bench, number)
        try:
            bench.do(words)
        except StockroomError:
            yield words, False
        else:
            yield words, True
