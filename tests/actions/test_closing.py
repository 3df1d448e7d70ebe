"""Closed books: nothing is booked for a closed day, whatever is done; what turns up is booked today, naming its day."""

from __future__ import annotations

import json

import pytest
from builders import Bench, NewBench
from histories import STEPS, Step, many, tried
from hypothesis import given
from hypothesis import strategies as st

from stockroom.actions.costing import costing
from stockroom.errors import BadInput, Refused, StockroomError

TODAY = "2026-06-30"


def of_days(bench: Bench, until: str) -> list[tuple[object, ...]]:
    """Return every entry of the days up to one."""
    rows = bench.store.rows(
        "SELECT action_number, position, lot_id, quantity, value, other_end, day FROM entry WHERE day <= :day "
        "ORDER BY action_number, position",
        day=until,
    )
    return [tuple(row) for row in rows]


def last_action(bench: Bench) -> dict[str, object]:
    row = bench.store.row("SELECT * FROM action ORDER BY number DESC LIMIT 1")
    assert row is not None
    return {**dict(row), "details": json.loads(row["details"])}


@many
@given(before=STEPS, closed=st.integers(1, 9), after=STEPS)
def test_whatever_is_done_after_closing_no_entry_of_a_closed_day_is_added_and_the_books_stay_proved(
    new_bench: NewBench, before: list[Step], closed: int, after: list[Step]
) -> None:
    with new_bench() as bench:
        for _ in tried(bench, before):
            pass
        bench.do(f"close the books to {closed}")
        until = f"2026-03-0{closed}"
        kept = of_days(bench, until)
        for number, step in enumerate(after, len(before)):
            bench.do(f"day {step.day}")
            words = step.words(bench, number)
            try:
                bench.do(words)
            except StockroomError:
                continue
            assert of_days(bench, until) == kept, words
            assert bench.wrong() == [], words
        assert bench.proved() == ()


def test_what_turns_up_for_a_closed_day_is_booked_today_and_names_its_day(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "close the books to 9", "day 5", "take A 20 for J")
    done = last_action(bench)
    assert (done["day"], done["details"]["for_day"]) == (TODAY, "2026-03-05")  # type: ignore[index]
    assert bench.held("A") == (80, 800)
    assert bench.spent("J") == 200
    bench.do("day 10", "take A 20 for J")
    assert last_action(bench)["day"] == "2026-03-10"
    assert bench.proved() == ()


def test_the_day_after_the_last_closed_one_is_open(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "close the books to 9", "day 10", "take A 1 for J", "day 9", "take A 1 for J")
    days = [row["day"] for row in bench.store.rows("SELECT day FROM action WHERE kind = 'take' ORDER BY number")]
    assert days == ["2026-03-10", TODAY]


def test_undoing_something_of_a_closed_day_is_dated_today(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "day 5", "take A 20 for J", "close the books to 9", "undo 2")
    rows = bench.store.rows("SELECT day, quantity, value FROM entry ORDER BY action_number")
    assert [tuple(row) for row in rows] == [
        ("2026-03-01", 100, 1000),
        ("2026-03-05", -20, -200),
        (TODAY, 20, 200),
    ]
    assert bench.spent("J") == 0


def test_a_count_that_was_undone_is_not_put_back_on_a_closed_day(bench: Bench) -> None:
    """Its difference would be booked today, and its day would not hold what it counted."""
    bench.do("receive A 100 for 1000", "count A 90", "undo 2", "close the books to 1")
    with pytest.raises(Refused, match=r"closed for 2026-03-01.*Count again"):
        bench.do("undo 3")
    assert bench.held("A") == (100, 1000)
    assert bench.proved() == ()


def test_a_count_undone_and_put_back_since_its_day_was_closed_holds(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "count A 90", "close the books to 1", "undo 2", "undo 4")
    assert bench.held("A") == (90, 900)
    assert bench.proved() == ()


def test_a_late_use_of_a_closed_day_comes_out_of_the_loss_that_a_later_count_found(bench: Bench) -> None:
    """10 were missing on the 9th; 4 of them turn up as used on the 5th: 6 stay lost, and what was counted stays."""
    bench.do("receive A 100 for 1000", "day 9", "count A 90", "close the books to 9", "day 5", "take A 4 for J")
    assert bench.held("A") == (90, 900)
    assert bench.sums() == {"bought": 1000, "on_the_shelves": 900, "in_jobs": 40, "wasted": 60}
    assert {row["day"] for row in bench.store.rows("SELECT day FROM entry WHERE action_number = 4")} == {TODAY}
    assert bench.proved() == ()


def test_a_closed_job_keeps_its_figure_and_the_difference_stands_apart(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "day 5", "take A 20 for J", "close J", "close the books to 9", "price A 2000")
    assert bench.spent("J") == 200
    assert bench.sums()["differences"] == 200
    found = costing(bench.store, bench.jobs["J"], bench.now)
    assert (found.total, found.apart) == (200, 200)
    bench.do("undo 2")
    assert bench.spent("J") == 200
    assert bench.proved() == ()


def test_a_day_is_closed_only_when_it_is_over_once_and_with_no_count_going_on(bench: Bench) -> None:
    from datetime import date

    from stockroom.actions.closing import close_books, open_books

    with pytest.raises(BadInput, match="not over yet"):
        close_books(bench.store, bench.occasion(), date(2026, 6, 30))
    bench.do("close the books to 9")
    with pytest.raises(Refused, match="closed up to 2026-03-09 already"):
        bench.do("close the books to 8")
    with pytest.raises(Refused, match="is open"):
        bench.do("open the books from 10")
    with pytest.raises(BadInput, match="Why"):
        open_books(bench.store, bench.occasion(), date(2026, 3, 9))
    with pytest.raises(Refused, match="not by undoing"):
        bench.do("undo last")


def test_opened_again_a_day_takes_entries_as_before(bench: Bench) -> None:
    bench.do("receive A 100 for 1000", "close the books to 9", "open the books from 5", "day 5", "take A 20 for J")
    assert last_action(bench)["day"] == "2026-03-05"
    bench.do("day 4", "take A 20 for J")
    assert last_action(bench)["day"] == TODAY
    assert bench.proved() == ()


def test_a_count_of_a_closed_day_is_refused_and_nothing_is_booked_where_today_is_closed(bench: Bench) -> None:
    from datetime import datetime

    from builders import ZONE

    bench.do("receive A 100 for 1000", "close the books to 9", "day 5")
    with pytest.raises(Refused, match="Count again"):
        bench.do("count A 90")
    bench.now = datetime(2026, 3, 7, 12, tzinfo=ZONE)
    with pytest.raises(Refused, match="Nothing is booked"):
        bench.do("take A 20 for J")
    assert bench.held("A") == (100, 1000)


def test_the_setting_and_the_actions_agree_on_how_far_the_books_are_closed(bench: Bench) -> None:
    from stockroom.store.stockroom_settings import set_setting

    bench.do("close the books to 9")
    with bench.store.write():
        set_setting(bench.store, "books_closed_until", "2026-03-01")
    assert [problem.kind for problem in bench.wrong()] == ["closed"]
