"""The moving average against worked examples; and that it makes or loses no cent."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from worked_costs import DELIVERIES, TRADER, Move

from stockroom.science.cost_formulas import Pool


def at_average(moves: list[Move]) -> tuple[list[int], Pool]:
    """Return the cost of each issue, and what is left."""
    pool, issues = Pool(), []
    for quantity, value in moves:
        if quantity > 0:
            pool = pool.bring_in(quantity, value)
        else:
            pool, cost = pool.take(-quantity)
            issues.append(cost)
    return issues, pool


def test_the_moving_average_leaves_636_32_and_loses_no_cent() -> None:
    """Printed 636.36 with unit costs to three decimals; exactly 636.3235, issues 19,153.6765, in all 19,790.00."""
    issues, left = at_average(TRADER)
    assert (left.quantity, left.value) == (20, 63_632)
    assert sum(issues) == 1_915_368
    assert sum(issues) + left.value == 1_979_000
    exact, held = Fraction(0), 0
    for quantity, value in TRADER:
        exact = exact + value if quantity > 0 else exact * (held + quantity) / held
        held += quantity
    assert round(float(exact) / 100, 4) == 636.3235


def test_the_average_of_a_period_is_that_of_issues_after_all_its_deliveries() -> None:
    """Printed 618.44 (19,790.00 over 640 is 30.922); exactly 618.4375. IAS 2, 27: periodic, or at each delivery."""
    issues, left = at_average(sorted(TRADER, key=lambda move: move[0] < 0))
    assert (left.quantity, left.value, sum(issues)) == (20, 61_844, 1_917_156)


def test_the_textbook_case_of_four_deliveries() -> None:
    """Printed: average 4.50, closing 58.50, cost of sales 31.50."""
    issues, left = at_average([*DELIVERIES, (-7, 0)])
    assert (issues, left.quantity, left.value) == ([3_150], 13, 5_850)


def test_the_textbook_case_in_which_rounding_created_a_dollar() -> None:
    """500 for 1,200.00, 300 out, 100 at 3.50, 250 out, 300 at 4.00.

    Printed (Instantcert Credit, Financial Accounting, lesson 318): average 2.77, issue 692.50 and balance 138.50,
    which is 831.00 out of 830.00. Conserved: 691.67 and 138.33; closing 350 worth 1,338.33.
    """
    issues, left = at_average([(500, 120_000), (-300, 0), (100, 35_000), (-250, 0)])
    assert (issues, left.value) == ([72_000, 69_167], 13_833)
    assert left.bring_in(300, 120_000).value == 133_833


@given(st.lists(st.tuples(st.booleans(), st.integers(1, 60), st.integers(0, 500)), max_size=30))
def test_used_and_left_are_what_came_in_to_the_cent_and_nothing_left_is_worth_nothing(
    tried: list[tuple[bool, int, int]],
) -> None:
    done: list[Move] = []
    held = 0
    for comes, quantity, value in tried:
        if comes:
            done.append((quantity, value))
            held += quantity
        elif held:
            done.append((-min(quantity, held), 0))
            held -= min(quantity, held)
    issues, left = at_average(done)
    assert sum(issues) + left.value == sum(value for quantity, value in done if quantity > 0)
    assert left.quantity == held
    assert held or left.value == 0
    assert left.value >= 0 and all(issue >= 0 for issue in issues)


def test_more_than_there_is_cannot_go_out() -> None:
    with pytest.raises(ValueError):
        Pool().bring_in(5, 10).take(6)
