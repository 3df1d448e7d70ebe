"""Order quantities against worked examples."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.order_size import best_at_breaks, economic_quantity, in_whole_packs, yearly_cost


def test_harris_makes_2190_at_once() -> None:
    """F. W. Harris, "How Many Parts to Make at Once", Factory 10(2), 1913: 1,000 a month, 2.00 an order, 0.10 a part.

    He reckons 10 % a year on the average half lot, and cuts 2,190.89 off after the point.
    """
    assert int(economic_quantity(12_000, 2.00, 0.10 * 0.10)) == 2190


@pytest.mark.parametrize(
    ("yearly_use", "order_cost", "keeping_cost", "quantity"),
    [
        # C. Caplice, ESD.260 Logistics Systems, lecture 12, MIT OpenCourseWare 2006: 228
        (13_000, 50, 25, 228.04),
        # W. J. Stevenson, Operations Management, an end-of-chapter problem: 72.11 boxes
        (260, 2, 0.20, 72.11),
        # an exercise as posted, its book not named: 100 at a time for 200 a year
        (1_000, 10, 2, 100.0),
    ],
)
def test_published_order_quantities(yearly_use: float, order_cost: float, keeping_cost: float, quantity: float) -> None:
    assert economic_quantity(yearly_use, order_cost, keeping_cost) == pytest.approx(quantity, abs=0.005)


def test_at_the_economic_quantity_ordering_costs_what_keeping_costs() -> None:
    """From the formula itself: both halves are sqrt(D S H / 2). The third example above costs 200 a year."""
    assert yearly_cost(100, 1_000, 10, 2) == pytest.approx(200)
    assert yearly_cost(100, 1_000, 10, 2) == pytest.approx(sqrt(2 * 1_000 * 10 * 2))


@pytest.mark.parametrize(
    ("prices", "use", "order_cost", "share", "quantity", "cost"),
    [
        # a textbook exercise without its book's name, its five prices and totals as printed, recomputed by hand
        ([(0, 53), (50, 51.5), (100, 49.5), (200, 48), (500, 47)], 800, 60, 0.30, 200, 40_080.00),
        # open lecture notes on operations research, quantity discounts (NeoPrimate, IEOR): 1,000 at 109,500
        ([(0, 10), (500, 9.5), (1_000, 9)], 12_000, 50, 0.20, 1_000, 109_500.00),
    ],
)
def test_published_price_breaks(
    prices: list[tuple[float, float]], use: float, order_cost: float, share: float, quantity: float, cost: float
) -> None:
    best = best_at_breaks(prices, use, order_cost, share)
    assert best.quantity == pytest.approx(quantity)
    assert best.yearly_cost == pytest.approx(cost, abs=0.005)


@pytest.mark.parametrize(("quantity", "cost"), [(78.87, 42_417.87), (100, 40_822.50), (500, 41_221.00)])
def test_the_other_totals_of_the_first_example(quantity: float, cost: float) -> None:
    """As printed there: 42,417.9 for the economic quantity of 79 at 51.50, 40,822.5 for 100, 41,221 for 500."""
    price = {78.87: 51.5, 100: 49.5, 500: 47}[quantity]
    assert 800 * price + yearly_cost(quantity, 800, 60, 0.30 * price) == pytest.approx(cost, abs=0.06)


def test_packs_are_rounded_to_the_cheaper_neighbour() -> None:
    """Made up as a check: of packs of 10, 20 cost 2,285.20 and 30 cost 2,356.80 a year; the best is 22.67."""
    assert yearly_cost(20, 952, 27, 100) == pytest.approx(2_285.20)
    assert yearly_cost(30, 952, 27, 100) == pytest.approx(2_356.80)
    assert in_whole_packs(10, 952, 27, 100) == 2
    assert in_whole_packs(1, 952, 27, 100) == 23
    assert yearly_cost(23, 952, 27, 100) == pytest.approx(2_267.57, abs=0.005)
    assert in_whole_packs(1_000, 952, 27, 100) == 1


@given(
    use=st.floats(1, 1e5), order=st.floats(0.1, 1e3), share=st.floats(0.01, 1), first=st.floats(1, 1e3),
    steps=st.lists(st.tuples(st.floats(1, 1e4), st.floats(0.5, 0.99)), max_size=4),
)  # fmt: skip
def test_no_quantity_costs_less_than_the_one_found(
    use: float, order: float, share: float, first: float, steps: list[tuple[float, float]]
) -> None:
    """Compared with a plain walk through quantities, each at the price it earns."""
    prices = [(0.0, first)]
    for more, less in steps:
        prices.append((prices[-1][0] + more, prices[-1][1] * less))
    best = best_at_breaks(prices, use, order, share)
    for quantity in (1.1**exponent for exponent in range(-20, 140)):
        price = next(price for least, price in reversed(prices) if quantity >= least)
        cost = use * price + yearly_cost(quantity, use, order, share * price)
        assert best.yearly_cost <= cost * (1 + 1e-9)


@pytest.mark.parametrize("wrong", [(0, 1, 1), (1, 0, 1), (1, 1, 0), (-1, 1, 1)])
def test_nothing_is_no_basis(wrong: tuple[float, float, float]) -> None:
    with pytest.raises(BadInput):
        economic_quantity(*wrong)


def test_prices_that_rise_with_quantity_are_refused() -> None:
    with pytest.raises(BadInput):
        best_at_breaks([(0, 1), (10, 2)], 1, 1, 1)
