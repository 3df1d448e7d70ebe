"""What booked treatments are expected to cost: the same as they cost where nothing differed."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction

from builders import STUFF, ZONE, Bench, NewBench
from histories import many
from hypothesis import given
from hypothesis import strategies as st

from stockroom.actions.bookings import book
from stockroom.actions.costing import costing
from stockroom.actions.using import use
from stockroom.domain.recipes import Line, Recipe, RecipeVersion
from stockroom.planning.cost_causes import Amounts, Cause, causes
from stockroom.science.amounts import MakeUp, Share
from stockroom.store.recipes import add_recipe

NOON = datetime(2026, 3, 9, 12, tzinfo=ZONE)
DAY = date(2026, 3, 9)


def with_rinse(bench: Bench) -> None:
    """Add a bath of one part of the stuff in four."""
    lines = (
        Line(position=1, material=STUFF.key, amount=Share(parts=Fraction(1, 4))),
        Line(position=2, material="tap-water", amount=MakeUp()),
    )
    with bench.store.write():
        add_recipe(
            bench.store,
            Recipe(key="rinse", name="Rinse", kind="bath", version=RecipeVersion(lines=lines)),
            "AB",
            "2026-03-01T12:00:00Z",
        )


@many
@given(
    lots=st.lists(st.tuples(st.integers(1, 90), st.integers(0, 500)), min_size=1, max_size=4),
    fills=st.lists(st.tuples(st.integers(4, 80), st.integers(1, 3)), min_size=1, max_size=4),
)
def test_an_estimate_is_what_it_cost_where_nothing_differed(
    new_bench: NewBench, lots: list[tuple[int, int]], fills: list[tuple[int, int]]
) -> None:
    """Treatments booked together and done one after the other, from whatever lots: the same to the cent."""
    with new_bench() as bench:
        with_rinse(bench)
        needed = sum(size * number for size, number in fills)
        for number, (amount, cost) in enumerate([*lots, (needed, 777)]):
            bench.do(f"receive L{number} {amount} for {cost}")
        bench.now = NOON
        bench.do("day 9")
        codes = [
            book(
                bench.store, "rinse", bench.jobs["K"], DAY, today=DAY, fill=f"{size * 4} µL", fills=number
            ).booking.code
            for size, number in fills
        ]
        expected = costing(bench.store, bench.jobs["K"], NOON)
        assert expected.to_come == expected.estimate and expected.expected_complete
        for code in codes:
            use(bench.store, bench.occasion(), "rinse", bench.jobs["K"], booking=code, tested="AB")
        found = costing(bench.store, bench.jobs["K"], NOON)
        assert found.total == expected.to_come
        assert found.to_come == 0
        drawn = sum(one.quantity.quanta for one in found.used)
        assert drawn == sum(size * number for size, number in fills)


def test_one_treatment_is_expected_and_costs_the_same_with_no_cause_to_tell(bench: Bench) -> None:
    with_rinse(bench)
    bench.do("receive A 30 for 100")
    bench.now = NOON
    bench.do("day 9")
    code = book(bench.store, "rinse", bench.jobs["K"], DAY, today=DAY, fill="40 µL").booking.code
    use(bench.store, bench.occasion(), "rinse", bench.jobs["K"], booking=code, tested="AB")
    found = costing(bench.store, bench.jobs["K"], NOON)
    assert (found.expected, found.total, found.causes) == (33, 33, {})
    assert [(bar.name, bar.expected, bar.actual, bar.to_come) for bar in found.bars] == [("Rinse", 33, 33, 0)]


@given(st.integers(1, 500), st.integers(0, 500), st.integers(1, 500), st.integers(0, 500))
def test_the_causes_add_up_to_the_difference(was: int, cost: int, became: int, now: int) -> None:
    parts = causes(Amounts(quantity=was, value=cost), Amounts(quantity=became, value=now))
    assert sum(part.value for part in parts) == now - cost


def test_price_and_quantity_are_told_apart_as_a_textbook_does() -> None:
    """Expected 10 at 3.00, used 12 at 3.50, worked by hand: 12.00 more, 6.00 by quantity, 6.00 by price."""
    parts = causes(Amounts(quantity=10, value=3_000), Amounts(quantity=12, value=4_200))
    assert parts == (Cause(kind="quantity", value=600), Cause(kind="price", value=600))
