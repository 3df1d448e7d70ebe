"""A stock-take is a round: left, come back to, and confirmed once. Not seen is not zero."""

from __future__ import annotations

from dataclasses import replace

import pytest
from builders import Bench

from stockroom.actions.moving import move
from stockroom.actions.stock_taking import StockTake, confirm_round, drop_round, go_round
from stockroom.errors import BadInput, Refused
from stockroom.store.lots import lots_at
from stockroom.store.studio import find_place


@pytest.fixture
def shelf(bench: Bench) -> Bench:
    """A, B and C on the shelf, D in the refrigerator."""
    bench.do(*(f"receive {name} 100 for 1000" for name in "ABCD"))
    for name in "ABC":
        move(bench.store, bench.occasion(), bench.lots[name], "shelf")
    move(bench.store, bench.occasion(), bench.lots["D"], "refrigerator")
    bench.do("day 5")
    return bench


def seen(bench: Bench, *lines: str) -> StockTake:
    """Go on with the round at the shelf: `A=90` or `A`, by letter and microlitres."""
    told = []
    for line in lines:
        name, given, amount = line.partition("=")
        told.append(bench.lots[name] + (f"={int(amount) / 1000} mL" if given else ""))
    return go_round(bench.store, bench.occasion(), "shelf", told)


def codes(bench: Bench, lines: tuple[object, ...]) -> list[str]:
    names = {code: name for name, code in bench.lots.items()}
    return [names[line.code] for line in lines]  # type: ignore[attr-defined]


def test_a_round_is_gone_on_with_until_it_is_confirmed(shelf: Bench) -> None:
    first = seen(shelf, "A=90")
    second = seen(shelf, "B")
    assert (first.round, second.round) == (first.round, first.round)
    assert codes(shelf, second.seen) == ["A", "B"]
    assert codes(shelf, second.not_seen) == ["C"]
    confirmed = confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert (confirmed.state, confirmed.round) == ("confirmed", first.round)
    assert seen(shelf, "A").round != first.round


def test_nothing_is_in_the_books_before_it_is_confirmed(shelf: Bench) -> None:
    before = shelf.store.revision()[1]
    seen(shelf, "A=90", "B=120", "D")
    assert (shelf.store.revision()[1], shelf.held("A")) == (before, (100, 1000))
    assert confirm_round(shelf.store, shelf.occasion(), "shelf", dry_run=True).action is None
    assert shelf.store.revision()[1] == before


def test_one_page_shows_what_was_not_seen_what_is_elsewhere_and_what_is_more_or_less(shelf: Bench) -> None:
    page = seen(shelf, "A=90", "B=120", "D")
    assert codes(shelf, page.not_seen) == ["C"]
    assert codes(shelf, page.elsewhere) == ["D"]
    assert (codes(shelf, page.more), codes(shelf, page.less)) == (["B"], ["A"])
    assert [line.difference.quanta for line in page.seen] == [-10, 20, 0]
    assert page.elsewhere[0].elsewhere == "booked at refrigerator"


def test_confirming_books_counts_places_and_what_is_to_be_looked_for_as_one_action(shelf: Bench) -> None:
    seen(shelf, "A=90", "B=120", "D")
    before = shelf.store.revision()[1]
    page = confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert shelf.store.revision()[1] == before + 1
    assert [shelf.held(name) for name in "ABCD"] == [(90, 900), (120, 1000), (100, 1000), (100, 1000)]
    assert page.value == -100
    assert {lot.code for lot in lots_at(shelf.store, find_place(shelf.store, "shelf").id)} == set(shelf.lots.values())
    assert shelf.lot("C").look_for == "not seen at shelf on 2026-03-05"
    assert shelf.proved() == ()


def test_not_seen_is_not_zero(shelf: Bench) -> None:
    seen(shelf, "A")
    confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert (shelf.held("B"), shelf.lot("B").state) == ((100, 1000), "on the shelf")
    assert shelf.lot("A").look_for is None


def test_what_was_looked_for_and_is_seen_is_looked_for_no_more(shelf: Bench) -> None:
    seen(shelf, "A")
    confirm_round(shelf.store, shelf.occasion(), "shelf")
    shelf.do("day 6")
    seen(shelf, "B", "C=50")
    confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert [shelf.lot(name).look_for for name in "BC"] == [None, None]
    assert shelf.lot("A").look_for


def test_moving_a_lot_is_seeing_it(shelf: Bench) -> None:
    shelf.look_for("A", "not seen")
    move(shelf.store, shelf.occasion(), shelf.lots["A"], "refrigerator")
    assert shelf.lot("A").look_for is None


def test_a_lot_is_pinned_when_it_was_seen_not_when_the_round_was_confirmed(shelf: Bench) -> None:
    """Counted 90 in the morning, 30 used at noon: 60 are left, whenever it is confirmed."""
    shelf.do("day 5 09:00")
    seen(shelf, "A=90")
    shelf.do("day 5 12:00", "take A 30 for J", "day 5 17:00")
    confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert shelf.held("A")[0] == 60
    assert shelf.store.rows("SELECT books_said FROM counted")[0]["books_said"] == 100
    assert shelf.proved() == ()


def test_seen_again_the_later_amount_holds(shelf: Bench) -> None:
    seen(shelf, "A=90")
    page = seen(shelf, "A=80")
    assert [line.counted.quanta for line in page.seen] == [80]


def test_undoing_a_stock_take_takes_all_of_it_back(shelf: Bench) -> None:
    before = shelf.balances()
    seen(shelf, "A=90", "B=120", "D")
    page = confirm_round(shelf.store, shelf.occasion(), "shelf")
    shelf.actions.append(str(page.action))
    shelf.do("undo last")
    assert shelf.balances() == before
    assert (shelf.lot("D").place, shelf.lot("C").look_for) == ("refrigerator", None)
    shelf.do("undo last")
    assert [shelf.held(name)[0] for name in "ABCD"] == [90, 120, 100, 100]
    assert shelf.lot("D").place == "shelf"
    assert shelf.proved() == ()


def test_a_round_that_is_dropped_books_nothing(shelf: Bench) -> None:
    seen(shelf, "A=90")
    assert drop_round(shelf.store, "shelf").state == "dropped"
    with pytest.raises(Refused, match="No stock-take is in progress"):
        confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert shelf.held("A") == (100, 1000)


def test_a_round_in_which_nothing_was_seen_is_not_confirmed(shelf: Bench) -> None:
    """Else a slip of the finger would have everything looked for."""
    seen(shelf)
    with pytest.raises(Refused, match="Nothing was seen"):
        confirm_round(shelf.store, shelf.occasion(), "shelf")


def test_a_line_that_cannot_be_read_notes_none_of_them(shelf: Bench) -> None:
    with pytest.raises(BadInput):
        go_round(shelf.store, shelf.occasion(), "shelf", [shelf.lots["A"], f"{shelf.lots['B']}=many"])
    assert seen(shelf).seen == ()


def test_an_ended_lot_is_seen_only_with_its_amount(shelf: Bench) -> None:
    shelf.do("empty A unknown")
    with pytest.raises(BadInput, match="say how much"):
        seen(shelf, "A")
    seen(shelf, "A=30")
    confirm_round(shelf.store, shelf.occasion(), "shelf")
    assert (shelf.held("A"), shelf.lot("A").state) == ((30, 0), "on the shelf")


def test_a_round_booked_late_keeps_a_later_count(shelf: Bench) -> None:
    shelf.do("day 8", "count A 70", "day 5")
    seen(shelf, "A=90")
    page = confirm_round(shelf.store, replace(shelf.occasion(), at=shelf.now), "shelf")
    assert [(one.was, one.became) for one in page.reworked] == [(-30, -20)]
    assert shelf.held("A")[0] == 70
