"""A price put right later follows the lot's entries: value alone, shared by quantity, jar by jar, dated today."""

from __future__ import annotations

import pytest
from builders import Bench

from stockroom.actions.prices import put_price_right
from stockroom.actions.receiving import Delivery, receive
from stockroom.errors import BadInput, Refused


def test_the_difference_is_shared_by_quantity_over_what_is_left_and_every_draw(bench: Bench) -> None:
    """By hand: 100 for 10.00 were really 12.00. 20 are in J, 10 in K, 10 spilled, 60 left: 2.00 as 40, 20, 20, 120."""
    bench.do("receive A 100 for 1000", "take A 20 for J", "take A 10 for K", "take A 10 spilled", "price A 1200")
    assert (bench.held("A"), bench.spent("J"), bench.spent("K")) == ((60, 720), 240, 120)
    assert bench.sums() == {"bought": 1200, "on_the_shelves": 720, "in_jobs": 360, "wasted": 120}


def test_the_odd_cents_go_to_the_largest_remainders_and_none_is_lost(bench: Bench) -> None:
    """By hand: 10 more cents over 33, 33 and 34 hundredths: 3.3, 3.3 and 3.4, so 3, 3 and 4."""
    bench.do("receive A 100 for 1000", "take A 33 for J", "take A 33 for K", "price A 1010")
    assert (bench.spent("J"), bench.spent("K"), bench.held("A")) == (333, 333, (34, 344))


def test_it_goes_on_through_every_jar_to_any_depth(bench: Bench) -> None:
    bench.do("receive A 16 for 1600", "make B 16 from A 16", "make C 8 from B 8", "make D 4 from C 4", "take D 2 for J")
    bench.do("price A 3200")
    assert bench.balances() == {"A": (0, 0), "B": (8, 1600), "C": (4, 800), "D": (2, 400)}
    assert bench.spent("J") == 400
    assert bench.proved() == ()


def test_what_was_drawn_from_a_jar_before_its_top_up_does_not_pay_for_the_top_up(bench: Bench) -> None:
    bench.do("receive A 10 for 100", "receive T 10 for 100", "make B 10 from A 10", "take B 5 for J")
    bench.do("top up B 5 with T 10", "take B 5 for K", "price T 300")
    assert (bench.spent("J"), bench.spent("K"), bench.held("B")) == (50, 175, (5, 175))


def test_what_came_back_carries_no_difference(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "bring back 20 of A", "take A 10 for K", "price A 2000")
    assert (bench.spent("J"), bench.spent("K"), bench.held("A")) == (0, 200, (90, 1800))


def test_what_is_brought_back_later_brings_its_difference_along(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "price A 2000", "bring back 20 of A")
    assert (bench.spent("J"), bench.held("A")) == (0, (100, 2000))


def test_what_evaporated_pays_nothing_and_what_was_lost_pays_its_share(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 100 from A 100", "count B 80 evaporated", "count B 40", "price A 2000")
    assert bench.held("B") == (40, 1000)
    assert bench.sums()["wasted"] == 1000


def test_a_lower_price_takes_back_no_more_than_there_is(bench: Bench) -> None:
    """Rounding left the draws 3, 4 and 3 cents of ten; a lot that turns out a gift leaves nothing anywhere."""
    bench.do("receive A 30 for 10", "take A 10 for J", "take A 10 for K", "price A 0")
    assert (bench.held("A"), bench.sums()) == ((10, 0), {})
    bench.do("price A 10")
    assert bench.sums()["bought"] == 10
    assert bench.proved() == ()


def test_a_closed_job_keeps_its_figure_and_the_difference_stands_apart(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "close J", "price A 2000")
    assert (bench.spent("J"), bench.held("A")) == (200, (80, 1600))
    assert bench.sums() == {"bought": 2000, "on_the_shelves": 1600, "in_jobs": 200, "differences": 200}


def test_it_is_dated_the_day_it_is_booked(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "price A 2000")
    rows = bench.store.rows("SELECT quantity, day FROM entry WHERE action_number = 3")
    assert {tuple(row) for row in rows} == {(0, "2026-06-30")}


def test_what_is_drawn_afterwards_costs_the_right_price(bench: Bench) -> None:
    assert bench.do("receive A 100 for 1000", "take A 20 for J", "price A 2000", "take A 10 for K").cost == 200


def test_a_price_is_undone_only_while_nothing_moved_at_it(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "price A 2000", "undo 3")
    assert (bench.held("A"), bench.spent("J")) == ((80, 800), 200)
    bench.do("price A 2000", "take A 10 for K")
    with pytest.raises(Refused, match="at the value it gave"):
        bench.do("undo 5")
    bench.do("price A 1000")
    assert (bench.held("A"), bench.spent("J"), bench.spent("K")) == ((70, 700), 200, 100)


def test_what_went_back_to_the_supplier_is_settled_by_its_credit(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "return A 50 for 500", "price A 2000")
    assert bench.sums() == {"bought": 1500, "on_the_shelves": 1000, "wasted": 500}


def test_a_price_needs_a_reason_and_a_lot_that_was_bought(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 20 from A 10")
    with pytest.raises(BadInput, match="--why"):
        put_price_right(bench.store, bench.occasion(), bench.lots["A"], 900)
    with pytest.raises(Refused, match="no price of its own"):
        bench.do("price B 900")
    found = receive(bench.store, bench.occasion(), Delivery(material="stuff", quantity="1 mL", found=True)).codes[0]
    with pytest.raises(Refused, match="found stock"):
        put_price_right(bench.store, bench.occasion("invoice"), str(found), 900)
    with pytest.raises(Refused, match="already"):
        bench.do("price A 1000")
