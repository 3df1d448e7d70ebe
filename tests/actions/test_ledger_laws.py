"""The laws of the books, over sequences of everything that can be done to a small stockroom."""

from __future__ import annotations

from builders import NewBench
from histories import STEP, STEPS, Step, many, tried
from hypothesis import assume, given
from hypothesis import strategies as st

from stockroom.domain.ledger import Tally, price_draw
from stockroom.domain.lots import Balance
from stockroom.errors import StockroomError


@many
@given(STEPS)
def test_the_books_balance_and_are_proved_after_any_sequence_of_actions(new_bench: NewBench, steps: list[Step]) -> None:
    """Bought = on the shelves + in jobs + studio use + wasted + differences, to the cent, after every action."""
    with new_bench() as bench:
        for words, _ in tried(bench, steps):
            assert bench.wrong() == [], words
        assert bench.proved() == ()


@many
@given(STEPS)
def test_what_is_refused_changes_nothing(new_bench: NewBench, steps: list[Step]) -> None:
    with new_bench() as bench:
        before: object = None
        for words, booked in tried(bench, steps):
            rows = bench.store.rows("SELECT count(*) AS entries FROM entry")[0]["entries"]
            now = (bench.balances(), rows, bench.store.revision()[1])
            if not booked:
                assert before is None or now == before, words
            before = now


@many
@given(STEPS, STEP)
def test_an_action_and_its_undoing_leave_every_balance_as_it_was(
    new_bench: NewBench, steps: list[Step], last: Step
) -> None:
    """To the cent; where a count had to be kept as counted, its loss may be priced anew, so there by quantity alone."""
    with new_bench() as bench:
        for _ in tried(bench, steps):
            pass
        before = bench.balances(), bench.spent("J"), bench.spent("K"), bench.sums()
        bench.do(f"day {last.day}")
        words = last.words(bench, len(steps))
        assume("undo" not in words)
        try:
            bench.do(words)
        except StockroomError:
            assume(False)
        kept = bench.store.row(
            "SELECT count(*) AS kept FROM entry WHERE count_action <> action_number "
            "AND action_number = (SELECT max(number) FROM action)"
        )
        done = bench.balances()
        bench.do("undo last")
        undone = {name: held for name, held in bench.balances().items() if name in before[0]}
        assert quantities(undone) == quantities(before[0])
        if kept and not kept["kept"]:
            assert (undone, bench.spent("J"), bench.spent("K"), bench.sums()) == before
        bench.do("undo last")
        assert quantities(bench.balances()) == quantities(done)
        assert bench.proved() == ()


def quantities(balances: dict[str, tuple[int, int]]) -> dict[str, int]:
    return {name: quantity for name, (quantity, _) in balances.items()}


@many
@given(
    held=st.integers(20, 200),
    counted=st.integers(0, 250),
    day=st.integers(1, 9),
    late=st.lists(st.tuples(st.integers(1, 8), st.integers(1, 20)), min_size=1, max_size=4),
)
def test_a_use_booked_late_for_a_day_before_a_count_leaves_the_counted_amount_as_it_was(
    new_bench: NewBench, held: int, counted: int, day: int, late: list[tuple[int, int]]
) -> None:
    """The late use comes out of the unexplained loss; the count's difference is reversed and booked anew."""
    counted = max(counted, 1)
    with new_bench() as bench:
        bench.do(f"receive A {held} for 999", "day 9 15:00", f"count A {counted}")
        assert bench.held("A")[0] == counted
        booked = 0
        for on, amount in late:
            bench.do(f"day {min(on, day)}")
            try:
                bench.do(f"take A {amount} for J")
            except StockroomError:
                assert booked + amount > held
                continue
            booked += amount
            assert bench.held("A")[0] == counted
        row = bench.store.row("SELECT sum(quantity) AS difference FROM entry WHERE count_action IS NOT NULL")
        assert row is not None
        assert (row["difference"] or 0) == counted - (held - booked)
        assert bench.proved() == ()


@given(
    value=st.integers(0, 500),
    quantity=st.integers(1, 300),
    draws=st.lists(st.integers(1, 40), min_size=2, max_size=30),
)
def test_equal_draws_of_one_lot_differ_by_at_most_one_minor_unit(value: int, quantity: int, draws: list[int]) -> None:
    """Whatever was drawn between them; and the draw that empties takes what is left."""
    tally = Tally({1: Balance(quantity=quantity, value=value, base_quantity=quantity, base_value=value)})
    taken: dict[int, list[int]] = {}
    for draw in draws:
        if draw <= tally.balance(1).quantity:
            taken.setdefault(draw, []).append(tally.draw(1, draw))
    for values in taken.values():
        assert max(values) - min(values) <= 1
    if tally.balance(1).quantity:
        tally.draw(1, tally.balance(1).quantity)
    assert tally.balance(1).value == 0


def test_halves_go_up_because_halves_to_even_would_favour_one_of_two_equal_draws() -> None:
    tally = Tally({1: Balance(quantity=20, value=10, base_quantity=20, base_value=10)})
    assert [tally.draw(1, quantity) for quantity in (1, 2, 2)] == [1, 1, 1]
    assert price_draw(tally.balance(1), 15) == 7


def test_the_last_cent_of_a_lot_goes_with_its_last_draw(new_bench: NewBench) -> None:
    """Ten cents over three equal draws, worked by hand: 3.33, 6.67 and 10 round to 3, 7 and 10."""
    with new_bench() as bench:
        bench.do("receive A 30 for 10")
        costs = [bench.do("take A 10 for J").cost for _ in range(3)]
    assert costs == [3, 4, 3]
    assert sum(costs) == 10
