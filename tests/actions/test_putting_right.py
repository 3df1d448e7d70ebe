"""Putting right: the lot, job, object, day or amount of a past draw, even where later draws stand on it."""

from __future__ import annotations

import json

import pytest
from builders import Bench

from stockroom.actions.costing import used_for
from stockroom.actions.jobs import add_object
from stockroom.actions.lot_page import lot_page
from stockroom.actions.making import make
from stockroom.actions.putting_right import Meant, put_right
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.taking import take
from stockroom.errors import BadInput, Refused
from stockroom.store.history import find_action
from stockroom.store.jobs import find_job
from stockroom.store.left_open import loans_out
from stockroom.store.standing import objects_of_action


def test_a_changed_amount_is_priced_anew_and_the_rest_comes_back(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "take A 30 for K", "put right 2 amount 50")
    assert (bench.held("A"), bench.spent("J"), bench.spent("K")) == ((20, 200), 500, 300)
    assert bench.proved() == ()


def test_reversal_and_new_entry_are_one_action_on_the_day_of_the_draw(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "day 3", "take A 20 for J", "day 9", "put right 2 amount 30")
    rows = bench.store.rows(
        "SELECT quantity, value, day, reverses_action FROM entry WHERE action_number = 3 ORDER BY position"
    )
    assert [tuple(row) for row in rows] == [(20, 200, "2026-03-03", 2), (-30, -300, "2026-03-03", None)]


def test_another_job_takes_over_the_cost(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "put right 2 for K")
    assert (bench.spent("J"), bench.spent("K"), bench.held("A")) == (0, 200, (80, 800))
    assert used_for(bench.store, find_job(bench.store, bench.jobs["J"])) == ()


def test_what_was_spilled_can_turn_out_to_have_been_for_a_job(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 spilled", "put right 2 for K")
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 800, "in_jobs": 200}


def test_another_lot_gives_what_was_drawn_and_the_first_gets_its_own_back(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "receive B 100 for 500", "take A 20 for J", "put right 3 lot B")
    assert bench.balances() == {"A": (100, 1000), "B": (80, 400)}
    assert bench.spent("J") == 100


def test_another_day_is_tested_like_any_other(bench: Bench) -> None:
    bench.do("day 4", "receive A 100 for 1000", "day 6", "take A 20 for J", "put right 2 day 5")
    assert lot_page(bench.store, bench.lots["A"], bench.at).lot.balance.quantity == 80
    with pytest.raises(Refused, match="On 2026-03-02"):
        bench.do("put right 3 day 2")


def test_another_object_is_named_by_the_new_entry(bench: Bench) -> None:
    for name in ("Sheet 1", "Sheet 2"):
        add_object(bench.store, bench.occasion(), bench.jobs["J"], name)
    bench.do("receive A 100 for 1000")
    taken = take(bench.store, bench.occasion(), bench.lots["A"], "0.02 mL", job=bench.jobs["J"], objects=("Sheet 1",))
    righted = put_right(bench.store, bench.occasion("misread"), str(taken.action), Meant(objects=("Sheet 2",)))
    first, second = (find_action(bench.store, str(code)).number for code in (taken.action, righted.action))
    assert objects_of_action(bench.store, first) != objects_of_action(bench.store, second)
    amount = put_right(bench.store, bench.occasion("misread"), str(righted.action), Meant(amount="0.03 mL"))
    third = find_action(bench.store, str(amount.action)).number
    assert objects_of_action(bench.store, third) == objects_of_action(bench.store, second)


def test_a_making_put_right_passes_its_difference_on_like_a_price_put_right_later(bench: Bench) -> None:
    """By hand: the jar took 20 of A (2.00) and should have taken 40 (4.00). Of its 50, 10 went to J and 20 into
    the jar C, of which 5 went to K: J takes a fifth of the 2.00, C two fifths, K a quarter of those."""
    bench.do(
        "receive A 100 for 1000", "make B 50 from A 20", "take B 10 for J", "make C 20 from B 20", "take C 5 for K"
    )
    assert (bench.spent("J"), bench.spent("K")) == (40, 20)
    bench.do("put right 2 amount 40")
    assert bench.balances() == {"A": (60, 600), "B": (20, 160), "C": (15, 120)}
    assert (bench.spent("J"), bench.spent("K")) == (80, 40)
    assert bench.proved() == ()


def test_a_making_put_right_changes_what_the_jar_was_made_from(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "receive D 100 for 500", "make B 50 from A 20", "put right 3 lot D")
    page = lot_page(bench.store, bench.lots["B"], bench.at)
    assert [(link.code, link.amount.quanta) for link in page.made_from] == [(bench.lots["D"], 20)]
    assert bench.held("B") == (50, 100)


def test_a_changed_amount_in_a_making_changes_the_stated_strength_and_marks_earlier_uses(bench: Bench) -> None:
    """25 g in 500 mL is 5 % w/v and 20 g is 4 % w/v: grams in 100 mL (USP general notices, percentage measurements)."""
    powder = receive(
        bench.store, bench.occasion(), Delivery(material="methyl-cellulose", quantity="100 g", cost=2000)
    ).codes[0]
    made = make(bench.store, bench.occasion(), "methyl-cellulose-gel-5", "500 mL")
    bench.lots["G"] = str(made.codes[0])
    assert bench.lot("G").strength == "5 % w/v"
    bench.do("day 3")
    used = take(bench.store, bench.occasion(), bench.lots["G"], "50 mL", job=bench.jobs["J"])
    entry = next(number for number, draw in enumerate(made.drawn, 1) if draw.code == powder)
    righted = put_right(
        bench.store, bench.occasion("scale misread"), str(made.action), Meant(amount="20 g", entry=entry)
    )
    assert bench.lot("G").strength == "4 % w/v"
    assert righted.strengths == ((bench.lots["G"], "5 % w/v", "4 % w/v"),)
    assert righted.earlier_uses == (used.action,)
    details = json.loads(find_action(bench.store, str(righted.action)).details)
    assert details["earlier_uses"] == [used.action]
    assert bench.proved() == ()


def test_another_amount_of_the_water_leaves_the_stated_strength(bench: Bench) -> None:
    with bench.store.write():
        bench.store.run("UPDATE material SET metered = 'metered' WHERE key = 'deionised-water'")
    receive(bench.store, bench.occasion(), Delivery(material="methyl-cellulose", quantity="100 g", cost=2000))
    water = receive(
        bench.store, bench.occasion(), Delivery(material="deionised-water", quantity="2 L", cost=100)
    ).codes[0]
    made = make(bench.store, bench.occasion(), "methyl-cellulose-gel-5", "500 mL")
    entry = next(number for number, draw in enumerate(made.drawn, 1) if draw.code == water)
    righted = put_right(bench.store, bench.occasion("misread"), str(made.action), Meant(amount="480 mL", entry=entry))
    assert (righted.strengths, righted.earlier_uses) == ((), ())


def test_a_count_after_the_draw_stays_as_counted(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "day 5", "count A 70", "put right 2 amount 25")
    assert bench.held("A")[0] == 70
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 700, "in_jobs": 250, "wasted": 50}


def test_what_was_put_right_can_be_put_right_again_and_undone(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "put right 2 amount 30", "put right 3 amount 10")
    assert bench.held("A") == (90, 900)
    with pytest.raises(Refused, match="put right already"):
        bench.do("put right 2 amount 5")
    bench.do("undo 4", "undo 3")
    assert bench.held("A") == (80, 800)
    bench.do("put right 2 amount 5")
    assert bench.held("A") == (95, 950)
    assert bench.proved() == ()


def test_an_action_that_was_put_right_is_not_undone_before_that_is(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "put right 2 amount 30")
    with pytest.raises(Refused, match=f"{bench.actions[2]} .*put it right"):
        bench.do("undo 2")


def test_what_came_back_in_part_is_not_put_right_before_that_is_undone(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "bring back 5 of A")
    with pytest.raises(Refused, match=bench.actions[2]):
        bench.do("put right 2 for K")


def test_more_than_there_was_cannot_have_been_drawn(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "day 2", "take A 70 for K")
    with pytest.raises(Refused, match="On 2026-03-02"):
        bench.do("put right 2 amount 40")
    assert bench.held("A") == (10, 100)


def test_a_jar_is_not_made_from_what_was_made_of_it(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 50 from A 20", "make C 40 from B 40")
    for lot in ("B", "C"):
        with pytest.raises(Refused, match="holds some of"):
            bench.do(f"put right 2 lot {lot}")


def test_a_closed_job_takes_nothing_more_and_keeps_its_figure(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 for J", "take A 10 for K", "close J")
    with pytest.raises(Refused, match="closed"):
        bench.do("put right 3 for J")
    bench.do("put right 2 for K")
    assert (bench.spent("J"), bench.spent("K")) == (200, 300)
    assert bench.sums()["differences"] == -200


def test_a_loan_is_still_out_with_the_amount_put_right_and_no_more_once_it_was_for_a_job(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 20 lent", "put right 2 amount 30")
    (loan,) = loans_out(bench.store)
    assert (loan.code, loan.words[:7]) == (bench.actions[2], "0.03 mL")
    bench.do("put right 3 for J")
    assert loans_out(bench.store) == []


@pytest.mark.parametrize("meant", [Meant(), Meant(lot="L001W"), Meant(amount="1 mL")])
def test_what_was_meant_and_which_draw_must_be_said(bench: Bench, meant: Meant) -> None:
    bench.do("receive A 100 for 1000", "receive B 100 for 1000", "make C 20 from A 10, B 10")
    with pytest.raises(BadInput, match=r"Say (at least one|which one)"):
        put_right(bench.store, bench.occasion("misread"), bench.actions[2], meant)


def test_a_receipt_is_not_put_right_here(bench: Bench) -> None:
    bench.do("receive A 100 for 1000")
    with pytest.raises(Refused, match="no draw"):
        bench.do("put right 1 amount 30")
