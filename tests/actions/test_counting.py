"""Counting one lot: the difference is booked, and the count pins the amount at its moment."""

from __future__ import annotations

from typing import Any

import pytest
from builders import Bench

from stockroom.actions.counting import EMPTY_REASONS, count
from stockroom.domain.materials import Material
from stockroom.errors import BadInput, Refused
from stockroom.science.quantities import Dimension
from stockroom.store.materials import add_material


def test_less_than_the_books_say_is_waste_with_its_share_of_value(bench: Bench) -> None:
    """By hand: 100 for 10.00 of which 20 are used; 15 of the other 80 are missing, 1.50."""
    counting = bench.do("receive A 100 for 1000", "take A 20 for J", "count A 65")
    assert (counting.books_said.quanta, counting.difference.quanta, counting.value) == (80, -15, -150)
    assert bench.held("A") == (65, 650)
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 650, "in_jobs": 200, "wasted": 150}


def test_more_than_the_books_say_is_found_without_value(bench: Bench) -> None:
    counting = bench.do("receive A 100 for 1000", "take A 20 for J", "count A 95")
    assert (counting.difference.quanta, counting.value) == (15, 0)
    assert bench.held("A") == (95, 800)


def test_what_was_counted_what_the_books_said_and_how_are_kept(bench: Bench) -> None:
    bench.do("receive A 100 for 1000")
    count(bench.store, bench.occasion("autumn round"), bench.lots["A"], "0.09 mL", method="by eye")
    row = bench.store.row("SELECT quantity, books_said, method, reason FROM counted")
    assert row is not None
    assert tuple(row) == (90, 100, "by eye", "autumn round")


def test_a_count_that_agrees_with_the_books_is_kept_and_moves_nothing(bench: Bench) -> None:
    counting = bench.do("receive A 100 for 1000", "count A 100")
    assert counting.difference.quanta == 0
    assert bench.store.rows("SELECT quantity FROM entry WHERE action_number > 1") == []
    assert bench.store.rows("SELECT quantity FROM counted")[0]["quantity"] == 100


def test_water_gone_from_a_jar_takes_no_value_and_leaves_the_strength_unknown(bench: Bench) -> None:
    """Quantity goes, value stays: what is drawn afterwards is dearer for its amount."""
    bench.do("receive A 100 for 1000", "make B 50 from A 50", "day 4", "count B 40 evaporated")
    assert bench.held("B") == (40, 500)
    assert bench.lot("B").strength == "2 % w/v, not known since 2026-03-04"
    assert bench.do("take B 20 for J").cost == 250
    assert bench.sums()["on_the_shelves"] == 750
    assert "wasted" not in bench.sums()


def test_a_jar_over_its_solid_stays_saturated_when_water_goes(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 50 over solid from A 50", "count B 40 evaporated")
    assert bench.lot("B").strength == "2 % w/v"
    assert bench.held("B") == (40, 500)


def test_what_evaporates_of_a_bought_solvent_is_the_thing_itself_and_is_waste(bench: Bench) -> None:
    counting = bench.do("receive A 100 for 1000", "count A 90 evaporated")
    assert (bench.held("A"), counting.value) == ((90, 900), -100)
    assert bench.store.rows("SELECT reason FROM counted")[0]["reason"] == "evaporated"


def test_where_the_solute_leaves_too_a_jar_loses_value_and_its_strength_is_unknown(bench: Bench) -> None:
    """Alcohol leaves a mixture with water: the loss is waste."""
    with bench.store.write():
        add_material(bench.store, Material(key="spirit", name="Spirit", kind="solvent", dimension=Dimension.VOLUME))
    bench.do("receive A 100 of spirit for 1000", "make B 50 from A 50", "count B 40 evaporated")
    assert bench.held("B") == (40, 400)
    assert bench.lot("B").strength == "2 % w/v, not known since 2026-03-01"


def test_nothing_evaporated_where_no_less_is_found(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 50 from A 50")
    with pytest.raises(BadInput, match="nothing evaporated"):
        bench.do("count B 50 evaporated")


@pytest.mark.parametrize("why", EMPTY_REASONS)
def test_an_empty_lot_ends_with_its_reason_and_its_value_is_waste(bench: Bench, why: str) -> None:
    counting = bench.do("receive A 100 for 1000", "take A 40 for J", "day 5", f"empty A {why}")
    assert counting.ended
    lot = bench.lot("A")
    assert (lot.state, lot.ended_on, lot.ended_why) == ("ended", "2026-03-05", f"empty: {why}")
    assert bench.sums() == {"bought": 1000, "in_jobs": 400, "wasted": 600}


def test_a_jar_over_its_solid_that_is_empty_has_ended_too(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "make B 50 over solid from A 50", "empty B unknown")
    assert bench.lot("B").state == "ended"


@pytest.mark.parametrize("why", [None, "because", "Unknown"])
def test_an_empty_lot_needs_one_of_the_reasons_that_losses_are_told_by(bench: Bench, why: str | None) -> None:
    bench.do("receive A 100 for 1000")
    with pytest.raises(BadInput, match="measured short"):
        count(bench.store, bench.occasion(why), bench.lots["A"], empty=True)
    with pytest.raises(BadInput, match="--empty"):
        count(bench.store, bench.occasion("unknown"), bench.lots["A"], "0 mL")


def test_a_lot_found_to_hold_some_after_all_is_back_on_the_shelf(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "empty A unknown", "count A 30")
    assert (bench.lot("A").state, bench.lot("A").ended_on, bench.held("A")) == ("on the shelf", None, (30, 0))


def test_what_was_thrown_away_is_not_counted(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "discard A")
    with pytest.raises(Refused, match="past its date"):
        bench.do("count A 30")


def test_a_lot_cannot_be_counted_before_it_came(bench: Bench) -> None:
    bench.do("day 5 15:00", "receive A 100 for 1000", "day 5")
    with pytest.raises(Refused, match="was not here yet"):
        bench.do("count A 90")


def test_a_late_use_comes_out_of_the_unexplained_loss(bench: Bench) -> None:
    """By hand: 30 missing on the 5th; 20 of them turn out to have been used on the 3rd."""
    bench.do("receive A 100 for 1000", "day 5", "count A 70", "day 3")
    bench.do("take A 20 for J")
    assert bench.held("A") == (70, 700)
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 700, "in_jobs": 200, "wasted": 100}
    bench.do("take A 15 for J")
    assert bench.held("A")[0] == 70
    assert bench.sums()["in_jobs"] == 1000 - bench.held("A")[1]
    assert bench.proved() == ()


def test_only_the_first_later_count_is_kept_by_its_difference_the_next_ones_stand_on_it(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "day 5", "count A 70", "day 8", "count A 60", "day 3", "take A 20 for J")
    rows = bench.store.rows(
        "SELECT count_action AS number, sum(quantity) AS moved FROM entry WHERE count_action IS NOT NULL "
        "GROUP BY count_action ORDER BY count_action"
    )
    assert [(row["number"], row["moved"]) for row in rows] == [(2, -10), (3, -10)]
    assert bench.held("A")[0] == 60


def test_a_count_booked_late_takes_over_part_of_the_difference_of_the_count_after_it(bench: Bench) -> None:
    counting = bench.do("receive A 100 for 1000", "day 8", "count A 60", "day 5", "count A 90")
    assert [(one.was, one.became) for one in counting.reworked] == [(-40, -30)]
    assert bench.held("A")[0] == 60
    assert bench.wrong() == []


def test_within_one_moment_what_was_booked_first_happened_first(bench: Bench) -> None:
    """Everything at noon of one day: the take after the count comes out of what was counted, its undoing too."""
    bench.do("receive A 100 for 1000", "take A 10 for J", "count A 80", "take A 5 for J")
    assert bench.held("A")[0] == 75
    bench.do("undo 2")
    assert bench.held("A")[0] == 75
    bench.do("put right 4 amount 8")
    assert bench.held("A")[0] == 72
    bench.do("undo last")
    assert bench.held("A")[0] == 75
    assert bench.proved() == ()


def test_a_draw_before_a_count_cannot_be_more_than_there_was(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "day 1 15:00", "count A 95", "day 1")
    with pytest.raises(Refused, match="less than nothing"):
        bench.posted_draw("A", 120)
    assert bench.held("A") == (95, 950)


def test_undoing_a_count_reverses_its_difference_as_it_stands_and_undoing_that_brings_the_amount_back(
    bench: Bench,
) -> None:
    bench.do("receive A 100 for 1000", "day 5", "count A 70", "day 3", "take A 20 for J")
    bench.do("undo 2")
    assert bench.held("A") == (80, 800)
    bench.do("day 4", "take A 5 for K")
    assert bench.held("A")[0] == 75
    bench.do("undo 4")
    assert bench.held("A")[0] == 70
    assert bench.sums()["wasted"] == 50
    assert bench.proved() == ()


@pytest.mark.parametrize("found", ["count A 40", "take A 10 spilled"])
def test_a_lot_that_was_looked_for_and_turns_up_is_looked_for_no_more(bench: Bench, found: str) -> None:
    bench.do("receive A 50 for 1000")
    bench.look_for("A", "not seen on the bench shelf")
    assert bench.lot("A").look_for
    bench.do(found)
    assert bench.lot("A").look_for is None


def test_undoing_something_older_does_not_mean_that_a_lot_turned_up(bench: Bench) -> None:
    bench.do("receive A 50 for 1000", "take A 10 for J")
    bench.look_for("A", "not seen on the bench shelf")
    bench.do("undo 2")
    assert bench.lot("A").look_for == "not seen on the bench shelf"


def test_a_plan_shows_what_would_be_booked_and_books_nothing(bench: Bench) -> None:
    bench.do("receive A 50 for 1000")
    plan = count(bench.store, bench.occasion(), bench.lots["A"], "0.04 mL", dry_run=True)
    booked: Any = bench.do("count A 40")
    assert plan.action is None
    assert booked.as_plan() == plan
    assert len(bench.store.rows("SELECT number FROM action")) == 2
