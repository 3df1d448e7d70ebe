"""Whatever was done: bought = on the shelves + jobs + studio use + waste + differences, to the cent, by any report."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, datetime, timedelta
from string import ascii_uppercase

from builders import ZONE, Bench, NewBench
from histories import STEPS, Step, many, tried
from hypothesis import given
from hypothesis import strategies as st
from worked_costs import DELIVERIES, TRADER, Move

from stockroom.actions.cost_reports import by_ingredient, by_material, by_treatment
from stockroom.actions.cost_shares import waste_shares
from stockroom.actions.costing import costing
from stockroom.actions.valuing import StockValue, averages, stock_value
from stockroom.store.lots import all_lots
from stockroom.store.verification import sums

TODAY = date(2026, 6, 30)
LOCAL = datetime(2026, 6, 30, 12, tzinfo=ZONE)
DAYS = [date(2026, 2, 28), *(date(2026, 3, day) for day in range(1, 10)), TODAY]


def value(bench: Bench, day: date, *, as_booked: bool = False) -> StockValue:
    return stock_value(bench.store, day, ZONE, as_booked=as_booked)


@many
@given(steps=STEPS, closed=st.integers(0, 9))
def test_the_books_balance_on_any_day_by_place_by_kind_and_by_lot(
    new_bench: NewBench, steps: list[Step], closed: int
) -> None:
    with new_bench() as bench:
        done = tried(bench, steps)
        for number, _ in enumerate(done):
            if number == len(steps) // 2 and closed:
                bench.do(f"close the books to {closed}")
        for day in DAYS:
            found = value(bench, day)
            assert found.sums.balance
            assert found.total == found.sums.on_the_shelves
            assert found.total == sum(found.by_place.values()) == sum(found.by_kind.values())
        assert value(bench, DAYS[0]).lots == ()
        assert value(bench, TODAY).sums == sums(bench.store)
        assert value(bench, TODAY).sums.wasted == sum(value(bench, TODAY).written_off.values())


@many
@given(steps=STEPS)
def test_every_report_of_the_jobs_comes_to_what_the_books_have_in_jobs(new_bench: NewBench, steps: list[Step]) -> None:
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        jobs = [costing(bench.store, code, LOCAL, with_waste=True) for code in bench.jobs.values()]
        assert sum(job.total for job in jobs) == sums(bench.store).in_jobs
        for job in jobs:
            for report in (by_treatment(bench.store, job.used), by_material(job.used)):
                assert sum(one.value for one in report) == job.total
            assert sum(one.value for one in by_ingredient(bench.store, job.used)) == job.total
            assert sum(line.actual.value for line in job.lines if line.actual) == job.total
            assert sum(job.causes.values()) == job.total - job.expected + job.waste_value


@many
@given(steps=STEPS)
def test_shared_waste_is_no_more_than_was_wasted_and_is_shared_jar_by_jar_to_the_cent(
    new_bench: NewBench, steps: list[Step]
) -> None:
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        before = bench.sums()
        shared: dict[int, int] = defaultdict(int)
        for shares in waste_shares(bench.store).values():
            for one in shares:
                shared[one.lot.id] += one.value
        for lot_id, whole in shared.items():
            row = bench.store.row(
                "SELECT -sum(value) AS value FROM entry WHERE lot_id = :lot AND other_end = 'waste'", lot=lot_id
            )
            assert row is not None
            assert whole == row["value"]
        assert bench.sums() == before


@many
@given(steps=STEPS)
def test_the_moving_average_loses_no_cent_and_holds_what_the_lots_hold(new_bench: NewBench, steps: list[Step]) -> None:
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        found, lines = averages(bench.store, TODAY, ZONE)
        assert found.bought == sums(bench.store).bought
        assert found.held + found.used == found.bought
        held: dict[str, int] = defaultdict(int)
        for lot in all_lots(bench.store):
            held[lot.material.key] += lot.balance.quantity
        assert {line.material.key: line.quantity.quanta for line in lines if line.quantity.quanta} == {
            key: quantity for key, quantity in held.items() if quantity
        }
        assert all(pool.value >= 0 and (pool.quantity or not pool.value) for pool in found.pools.values())


def test_a_draw_into_a_jar_put_right_has_one_day_at_both_ends(bench: Bench) -> None:
    """What the jar gives back is dated as what its ingredient gets, not the day on which it was put right."""
    bench.do("receive A 100 for 1000", "day 5", "make C 50 from A 20", "put right 2 amount 10")
    assert value(bench, date(2026, 3, 5)).sums.balance
    assert {one.lot.code: one.value for one in value(bench, date(2026, 3, 5)).lots} == {
        bench.lots["A"]: 900,
        bench.lots["C"]: 100,
    }


def test_two_deliveries_at_other_prices_are_worth_their_average_beside_the_books(bench: Bench) -> None:
    """100 at 10.00 and 100 at 20.00, 50 used of the first: 150 left, 25.00 by lot and 22.50 on average, by hand."""
    bench.do("receive A 100 for 1000", "receive B 100 for 2000", "take A 50 for J")
    found, lines = averages(bench.store, TODAY, ZONE)
    assert [(line.value, line.at_average) for line in lines] == [(2500, 2250)]
    assert (found.held, found.used, found.bought) == (2250, 750, 3000)


def drawn_oldest_first(bench: Bench, moves: list[Move]) -> list[int]:
    """Book deliveries as lots and issues for job J from the oldest lots; return what each issue cost."""
    costs = []
    for quantity, cost in moves:
        if quantity > 0:
            bench.do(f"receive {ascii_uppercase[len(bench.lots)]} {quantity} for {cost}")
            continue
        before, wanted = bench.spent("J"), -quantity
        for name in bench.lots:
            if drawn := min(wanted, bench.held(name)[0]):
                bench.do(f"take {name} {drawn} for J")
                wanted -= drawn
        costs.append(bench.spent("J") - before)
    return costs


def test_the_oldest_lot_first_charges_what_first_in_first_out_does_beside_the_average(bench: Bench) -> None:
    """Printed: 20 left at 32.00 are 640.00; the issues by hand: 900, 2,400, 2,725, 1,525, 3,090, 930, 3,760, 3,820.

    At the moving average the same stock is worth 636.32 (exactly 636.3235).
    """
    costs = drawn_oldest_first(bench, TRADER)
    assert costs == [90_000, 240_000, 272_500, 152_500, 309_000, 93_000, 376_000, 382_000]
    assert bench.sums() == {"bought": 1_979_000, "in_jobs": 1_915_000, "on_the_shelves": 64_000}
    found, _ = averages(bench.store, TODAY, ZONE)
    assert (found.held, found.used) == (63_632, 1_915_368)


def test_the_textbook_case_of_four_deliveries_oldest_first_and_by_what_was_used(bench: Bench) -> None:
    """Oldest first 25.50 are charged and 64.50 left, by hand; had it been five at 5.50 and two at 5.00, 37.50."""
    assert drawn_oldest_first(bench, [*DELIVERIES, (-7, 0)]) == [2_550]
    assert bench.sums()["on_the_shelves"] == 6_450
    bench.do("undo last", "undo 5", "take D 5 for J", "take C 2 for J")
    assert (bench.spent("J"), bench.sums()["on_the_shelves"]) == (3_750, 5_250)


def test_a_solution_takes_the_averages_of_what_it_was_made_of(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "receive B 100 for 2000", "make C 100 from A 50", "take C 50 for J")
    found, lines = averages(bench.store, TODAY, ZONE)
    assert {line.material.key: line.at_average for line in lines} == {"stuff": 2250, "mixture": 375}
    assert found.used == 375


def test_as_booked_leaves_out_what_was_booked_later_and_as_happened_has_it(bench: Bench) -> None:
    """Both happened in March and were booked today: of the days before today the books said nothing then."""
    bench.do("receive A 100 for 1000", "day 5", "take A 20 for J")
    booked = bench.store.rows("SELECT booked_at FROM action ORDER BY number")
    today = datetime.fromisoformat(booked[-1]["booked_at"].replace("Z", "+00:00")).astimezone(ZONE).date()
    assert value(bench, today, as_booked=True).total == 800
    assert value(bench, today - timedelta(days=1), as_booked=True).total == 0
    assert value(bench, date(2026, 3, 4)).total == 1000
    assert value(bench, date(2026, 3, 5)).total == 800
