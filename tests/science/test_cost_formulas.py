"""Cost formulas against worked examples; and that none of them makes or loses a cent."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.science.cost_formulas import Move, Pool, first_in_first_out, moving_average, periodic_average

MOYO: list[Move] = [
    (50, 150_000), (-30, 0), (100, 300_000), (-80, 0), (120, 366_000), (-90, 0), (-50, 0), (150, 465_000), (-100, 0),
    (-30, 0), (120, 378_000), (-120, 0), (100, 320_000), (-120, 0),
]  # fmt: skip
"""Opening 50 at 30.00; 100 at 30.00, 120 at 30.50, 150 at 31.00, 120 at 31.50, 100 at 32.00; 620 issued in eight.

The worked question on a trader's stock set for Cambridge International A Level Accounting (9706), January to March;
read as lecture notes on revision.co.zw. Its slips (a balance printed 860 for 1,240, a unit cost 30.725 for 30.375) are
not followed. Money is in cents of the dollar."""


def test_first_in_first_out_leaves_640_and_charges_19150() -> None:
    """Printed: 20 left at 32.00 are 640.00; the issues by hand: 900, 2,400, 2,725, 1,525, 3,090, 930, 3,760, 3,820."""
    issues, left = first_in_first_out(MOYO)
    assert issues == [90_000, 240_000, 272_500, 152_500, 309_000, 93_000, 376_000, 382_000]
    assert (left.quantity, left.value, sum(issues)) == (20, 64_000, 1_915_000)


def test_the_moving_average_leaves_636_32_and_loses_no_cent() -> None:
    """Printed 636.36 with unit costs to three decimals; exactly 636.3235, issues 19,153.6765, in all 19,790.00."""
    issues, left = moving_average(MOYO)
    assert (left.quantity, left.value) == (20, 63_632)
    assert sum(issues) == 1_915_368
    assert sum(issues) + left.value == 1_979_000
    exact, held = Fraction(0), 0
    for quantity, value in MOYO:
        exact = exact + value if quantity > 0 else exact * (held + quantity) / held
        held += quantity
    assert round(float(exact) / 100, 4) == 636.3235


def test_the_average_of_the_period_leaves_618_44() -> None:
    """Printed 618.44 (19,790.00 over 640 is 30.922); exactly 618.4375."""
    issues, left = periodic_average(MOYO)
    assert (left.quantity, left.value, issues) == (20, 61_844, 1_917_156)


LAYERS: list[Move] = [(5, 1_750), (5, 2_000), (5, 2_500), (5, 2_750)]
"""Five each at 3.50, 4.00, 5.00 and 5.50; 13 are left: ACCA Financial Accounting, study text by Kaplan Publishing."""


def test_the_textbook_case_of_four_deliveries() -> None:
    """Printed: average 4.50, closing 58.50, cost of sales 31.50. First in, first out, by hand: 64.50 and 25.50."""
    assert periodic_average([*LAYERS, (-7, 0)]) == (3_150, Pool(quantity=13, value=5_850))
    issues, left = first_in_first_out([*LAYERS, (-7, 0)])
    assert (issues, left.value) == ([2_550], 6_450)


def test_specific_identification_is_first_in_first_out_of_each_lot_by_itself() -> None:
    """Of the four deliveries the seven used are five at 5.50 and two at 5.00: 37.50, by hand; 52.50 are left."""
    used = [first_in_first_out([LAYERS[3], (-5, 0)]), first_in_first_out([LAYERS[2], (-2, 0)])]
    assert sum(issues[0] for issues, _ in used) == 3_750
    assert sum(left.value for _, left in used) + LAYERS[0][1] + LAYERS[1][1] == 5_250


def test_the_textbook_case_in_which_rounding_created_a_dollar() -> None:
    """500 for 1,200.00, 300 out, 100 at 3.50, 250 out, 300 at 4.00.

    Printed (Instantcert Credit, Financial Accounting, lesson 318): average 2.77, issue 692.50 and balance 138.50,
    which is 831.00 out of 830.00. Conserved: 691.67 and 138.33; closing 350 worth 1,338.33.
    """
    issues, left = moving_average([(500, 120_000), (-300, 0), (100, 35_000), (-250, 0)])
    assert (issues, left.value) == ([72_000, 69_167], 13_833)
    assert left.bring_in(300, 120_000).value == 133_833


moves = st.lists(st.tuples(st.booleans(), st.integers(1, 60), st.integers(0, 500)), max_size=30)


@pytest.mark.parametrize("formula", [moving_average, first_in_first_out, periodic_average])
@given(tried=moves)
def test_used_and_left_are_what_came_in_to_the_cent_and_nothing_left_is_worth_nothing(
    formula: object, tried: list[tuple[bool, int, int]]
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
    issues, left = formula(done)  # type: ignore[operator]
    used = issues if isinstance(issues, int) else sum(issues)
    assert used + left.value == sum(value for quantity, value in done if quantity > 0)
    assert left.quantity == held
    assert held or left.value == 0
    assert left.value >= 0 and used >= 0


def test_more_than_there_is_cannot_go_out() -> None:
    for formula in (moving_average, first_in_first_out, periodic_average):
        with pytest.raises(ValueError):
            formula([(5, 10), (-6, 0)])
