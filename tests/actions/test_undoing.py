"""Undoing: of an action, once, with the very values, and only while nothing stands on it."""

from __future__ import annotations

import pytest
from builders import Bench

from stockroom.actions.bookings import book
from stockroom.actions.bringing_back import bring_back
from stockroom.actions.jobs import close_job
from stockroom.actions.moving import move
from stockroom.actions.opening import open_lot
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.undoing import last_actions, undo
from stockroom.actions.using import use
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.store.jobs import find_booking, find_job


def test_a_reason_is_required(bench: Bench) -> None:
    bench.do("receive A 100 for 1000")
    with pytest.raises(BadInput, match="--why"):
        undo(bench.store, bench.occasion(), bench.actions[0])


def test_an_action_is_undone_with_the_very_values_on_its_own_day(bench: Bench) -> None:
    """Ten cents over 30: the second of three equal draws cost 4, and 4 come back."""
    bench.do("receive A 30 for 10", "day 2", "take A 10 for J", "day 3", "take A 10 for J", "day 7", "undo 3")
    row = bench.store.row("SELECT quantity, value, day, at, reverses_action FROM entry WHERE action_number = 4")
    assert row is not None
    assert tuple(row) == (10, 4, "2026-03-03", "2026-03-03T11:00:00Z", 3)
    assert bench.spent("J") == 3


def test_an_action_is_undone_once(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J", "undo 2")
    with pytest.raises(Refused, match=f"undone already, by {bench.actions[2]}"):
        bench.do("undo 2")


def test_an_undoing_may_itself_be_undone_and_the_action_undone_again(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J", "undo 2", "undo 3")
    assert bench.held("A") == (90, 900)
    bench.do("undo 2")
    assert bench.held("A") == (100, 1000)
    bench.do("undo 5")
    assert bench.held("A") == (90, 900)
    assert bench.proved() == ()


def test_undoing_what_put_an_action_back_undoes_that_action_again(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J", "undo 2", "undo 3", "undo 4")
    assert bench.held("A") == (100, 1000)
    assert [row["undoes"] for row in bench.store.rows("SELECT undoes FROM action ORDER BY number")][2:] == [2, 3, 2]
    assert bench.proved() == ()


def test_it_is_refused_where_a_later_day_would_fall_below_nothing_naming_day_and_action(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "day 2", "take A 60 for J", "day 3", "bring back 50 of A")
    bench.do("day 4", "take A 80 for K", "day 5")
    with pytest.raises(Refused, match=r"On 2026-03-04 .* would hold 0.04 mL less than nothing") as refused:
        bench.do("undo 3")
    assert bench.actions[3] in refused.value.message
    assert bench.held("A") == (10, 100)


def test_it_is_refused_where_what_it_began_was_drawn_from(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J")
    with pytest.raises(Refused, match=f"{bench.actions[1]} \\(take\\) stands on it"):
        bench.do("undo 1")
    bench.do("undo 2", "undo 1")
    assert (bench.held("A"), bench.lot("A").state) == ((0, 0), "ended")
    assert bench.lot("A").ended_why == "undone: mistyped"


@pytest.mark.parametrize("later", ["count A 90", "price A 900", "make B 5 from A 5"])
def test_it_is_refused_where_what_it_began_was_counted_priced_or_made_something_of(bench: Bench, later: str) -> None:
    bench.do("receive A 100 for 1000", later)
    with pytest.raises(Refused, match=bench.actions[1]):
        bench.do("undo 1")


def test_it_is_refused_where_part_was_brought_back(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 60 for J", "bring back 5 of A")
    with pytest.raises(Refused, match=f"{bench.actions[2]} .*brings back"):
        bench.do("undo 2")
    bench.do("undo 3", "undo 2")
    assert bench.held("A") == (100, 1000)


def test_it_is_refused_where_the_fact_was_changed_since(bench: Bench) -> None:
    bench.do("receive A 100 for 1000")
    first = move(bench.store, bench.occasion(), bench.lots["A"], "shelf").action
    second = move(bench.store, bench.occasion(), bench.lots["A"], "refrigerator").action
    with pytest.raises(Refused, match=str(second)):
        undo(bench.store, bench.occasion("mistyped"), str(first))
    undo(bench.store, bench.occasion("mistyped"), str(second))
    assert bench.lot("A").place == "shelf"
    undo(bench.store, bench.occasion("mistyped"), str(first))
    assert bench.lot("A").place is None


def test_a_jar_that_was_topped_up_and_drawn_from_keeps_its_top_up(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 20 from A 20", "top up B 10 with A 10", "take B 5 for J")
    with pytest.raises(Refused, match="filled up"):
        bench.do("undo 3")


def test_undoing_a_making_brings_the_ingredients_back_and_ends_the_jar(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "receive C 10 for 37", "make B 50 from A 20, C 3", "undo 3")
    assert bench.balances() == {"A": (100, 1000), "C": (10, 37), "B": (0, 0)}
    assert bench.lot("B").state == "ended"
    bench.do("undo 4")
    assert bench.lot("B").state == "on the shelf"
    assert bench.held("B") == (50, 211)


def test_a_lot_that_was_used_up_is_back_on_the_shelf(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 100 for J")
    assert bench.lot("A").ended_why == "used up"
    bench.do("undo 2")
    assert (bench.lot("A").state, bench.lot("A").ended_on, bench.lot("A").ended_why) == ("on the shelf", None, None)


def test_a_discard_done_again_says_why_once_more(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "discard A")
    ended = bench.lot("A")
    bench.do("undo 2", "undo 3")
    assert (bench.lot("A").state, bench.lot("A").ended_why) == ("ended", ended.ended_why)


def test_a_bottle_opened_by_a_draw_is_closed_again_unless_it_was_drawn_from_since(bench: Bench) -> None:
    with bench.store.write():
        bench.store.run("UPDATE material SET life_opened = '6 months' WHERE key = 'stuff'")
    bench.do("receive A 100 for 1000", "take A 10 for J", "take A 10 for J")
    assert bench.lot("A").opened_on == "2026-03-01"
    bench.do("undo 2")
    assert bench.lot("A").opened_on == "2026-03-01"
    bench.do("undo 3")
    assert bench.lot("A").opened_on == "2026-03-01"
    bench.do("receive B 100 for 1000", "take B 10 for J", "undo last")
    assert bench.lot("B").opened_on is None


def test_opening_is_not_undone_once_something_was_taken(bench: Bench) -> None:
    bench.do("receive A 100 for 1000")
    opened = open_lot(bench.store, bench.occasion(), bench.lots["A"]).action
    bench.do("take A 10 for J")
    with pytest.raises(Refused, match=r"\(take\)"):
        undo(bench.store, bench.occasion("mistyped"), str(opened))


def test_undoing_the_closing_of_a_job_opens_it_again(bench: Bench) -> None:
    closed = close_job(bench.store, bench.occasion(), bench.jobs["J"]).action
    undone = undo(bench.store, bench.occasion("mistyped"), str(closed)).action
    assert find_job(bench.store, bench.jobs["J"]).state == "open"
    undo(bench.store, bench.occasion("mistyped"), str(undone))
    job = find_job(bench.store, bench.jobs["J"])
    assert (job.state, job.closed_on) == ("closed", "2026-03-01")


def test_a_closed_job_keeps_its_figure_when_what_it_drew_is_undone(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J", "close J", "undo 2")
    assert (bench.held("A"), bench.spent("J")) == ((100, 1000), 100)
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 1000, "in_jobs": 100, "differences": -100}
    bench.do("undo 4")
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 900, "in_jobs": 100}


def test_value_put_right_later_comes_back_with_the_draw(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J", "price A 2000", "undo 2")
    assert (bench.held("A"), bench.spent("J")) == ((100, 2000), 0)


def test_without_an_action_this_persons_last_ones_are_told_in_words(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "take A 10 for J", "undo 2")
    told = last_actions(bench.store, bench.occasion())
    assert [one.code for one in told] == bench.actions[::-1]
    assert told[1].words == f"take 0.01 mL of Stuff ({bench.lots['A']}) for {bench.jobs['J']} Job J"
    assert told[0].words == f"undo {bench.actions[1]} (take) (mistyped)"
    assert [one.in_effect for one in told] == [True, False, True]


def test_an_action_that_never_was_cannot_be_undone(bench: Bench) -> None:
    with pytest.raises(NotFound):
        undo(bench.store, bench.occasion("mistyped"), "A9999")


def test_undoing_a_treatment_leaves_its_booking_to_be_done(bench: Bench) -> None:
    solution = Delivery(material="calcium-hydroxide-solution", quantity="1 L", cost=1000)
    receive(bench.store, bench.occasion(), solution)
    day = bench.at.date()
    booking = book(bench.store, "calcium-hydroxide-1-in-4", bench.jobs["J"], day, today=day).booking.code
    used = use(bench.store, bench.occasion(), "calcium-hydroxide-1-in-4", bench.jobs["J"], booking=booking)
    assert find_booking(bench.store, booking).state == "done"
    undone = undo(bench.store, bench.occasion("mistyped"), str(used.action))
    assert find_booking(bench.store, booking).state == "booked"
    undo(bench.store, bench.occasion("mistyped"), str(undone.action))
    assert find_booking(bench.store, booking).state == "done"


def test_a_treatment_whose_bath_was_partly_kept_is_not_undone(bench: Bench) -> None:
    solution = Delivery(material="calcium-hydroxide-solution", quantity="1 L", cost=1000)
    receive(bench.store, bench.occasion(), solution)
    used = use(bench.store, bench.occasion(), "calcium-hydroxide-1-in-4", bench.jobs["J"])
    kept = bring_back(bench.store, bench.occasion(), str(used.action), "200 mL")
    with pytest.raises(Refused, match=f"{kept.action} .*keeps what was left"):
        undo(bench.store, bench.occasion("mistyped"), str(used.action))
