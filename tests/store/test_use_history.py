"""What was used of a material, net of what came back, was undone or put right."""

from __future__ import annotations

from builders import MIXTURE, STUFF, Bench

from stockroom.store.materials import find_material
from stockroom.store.use_history import first_here, last_used, used_since, used_without_booking


def used(bench: Bench, material: str = STUFF.key, since: str = "2026-01-01") -> dict[str, int]:
    """Return days of March and what was used on them."""
    found = used_without_booking(bench.store, find_material(bench.store, material).id, since)
    return {day.removeprefix("2026-03-"): quantity for day, quantity in found}


def test_use_for_jobs_and_in_the_studio_is_told_by_day(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 3", "take A 20 for J", "take A 5 cleaning", "day 9", "take A 1 test")
    assert used(bench) == {"03": 25, "09": 1}
    assert used(bench, since="2026-03-04") == {"09": 1}


def test_what_is_lost_thrown_away_counted_off_or_sent_back_is_no_use(bench: Bench) -> None:
    bench.do("receive A 100 for 90", "take A 5 spilled", "count A 60", "return A 10 for 5", "discard A")
    assert used(bench) == {}


def test_what_came_back_was_not_used(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 3", "take A 20 for J", "day 5", "bring back 15 of A")
    assert used(bench) == {"03": 5}
    bench.do("take A 8 lent", "bring back 8 of A")
    assert used(bench) == {"03": 5}


def test_what_was_undone_was_not_used_and_undoing_that_makes_it_use_again(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 3", "take A 20 for J", "undo last")
    assert used(bench) == {}
    bench.do("undo last")
    assert used(bench) == {"03": 20}


def test_an_undone_bringing_back_leaves_the_use_whole(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 3", "take A 20 for J", "bring back 15 of A", "undo last")
    assert used(bench) == {"03": 20}


def test_what_was_put_right_counts_as_it_is_now(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 3", "take A 20 for J", "put right 2 amount 30, day 7")
    assert used(bench) == {"07": 30}


def test_what_goes_into_something_else_is_used_and_the_first_day_known(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 4", "make B 40 from A 30", "day 6", "take B 10 for J")
    assert used(bench) == {"04": 30}
    assert used(bench, MIXTURE.key) == {"06": 10}
    assert first_here(bench.store, find_material(bench.store, MIXTURE.key).id) == "2026-03-04"


def test_the_last_use_is_known_booked_or_not(bench: Bench) -> None:
    bench.do("receive A 100 for 0", "day 4", "take A 5 for J", "day 8", "take A 5 spilled")
    stuff = find_material(bench.store, STUFF.key).id
    assert last_used(bench.store, stuff) == "2026-03-04"
    assert used_since(bench.store, stuff, "2026-03-04") and not used_since(bench.store, stuff, "2026-03-05")
    assert last_used(bench.store, find_material(bench.store, MIXTURE.key).id) is None
