"""Which lots a need is taken from."""

from __future__ import annotations

from fractions import Fraction

import shelf_words as words
from hypothesis import given
from hypothesis import strategies as st

from stockroom.planning.picking import pick

NOW = words.moment("2026-03-01T12:00")


def taken(picked) -> list[tuple[str, int]]:  # type: ignore[no-untyped-def]
    return [(draw.lot.code, draw.quantity) for draw in picked.draws]


def test_the_earliest_expiry_goes_first_and_a_second_lot_makes_up_the_rest() -> None:
    """WHO, Good Distribution Practices, Annex 5: first expired first out. Constructed: B10 then A2."""
    a = words.held("A1", 10, use_by="2026-12-31", received_on="2026-01-01")
    b = words.held("B2", 10, use_by="2026-06-30", received_on="2026-02-01")
    assert taken(pick([a, b], 12, NOW)) == [("B2", 10), ("A1", 2)]


def test_of_equal_dates_what_is_open_goes_first_then_what_came_earlier() -> None:
    lots = [
        words.held("A1", 5, use_by="2026-06-30", received_on="2026-02-01"),
        words.held("A2", 5, use_by="2026-06-30", received_on="2026-01-01"),
        words.held("A3", 5, use_by="2026-06-30", received_on="2026-02-15", opened_on="2026-02-20"),
    ]
    assert taken(pick(lots, 15, NOW)) == [("A3", 5), ("A2", 5), ("A1", 5)]


def test_what_is_not_fit_is_passed_over_and_named() -> None:
    old = words.held("A1", 10, use_by="2026-02-28")
    picked = pick([old, words.held("A2", 4)], 6, NOW)
    assert taken(picked) == [("A2", 4)]
    assert picked.missing == 2
    assert [(lot.code, verdict.kind) for lot, verdict in picked.passed_over] == [("A1", "past-use-by")]


def test_a_chosen_lot_is_used_alone_and_its_unfitness_is_told() -> None:
    old = words.held("A1", 10, use_by="2026-02-28")
    picked = pick([old, words.held("A2", 4)], 6, NOW, chosen=["A1"])
    assert taken(picked) == [("A1", 6)]
    assert picked.draws[0].override == "past use-by 2026-02-28"


def test_the_last_chosen_lot_may_be_drawn_beyond_the_books_when_counted_first() -> None:
    picked = pick([words.held("A1", 4)], 6, NOW, chosen=["A1"], count_first=True)
    assert (picked.draws[0].quantity, picked.draws[0].found, picked.missing) == (6, 2, 0)


def test_more_is_taken_of_a_weaker_lot() -> None:
    """Half the purity does half the work, so twice as much is taken."""
    weak = words.held("A1", 100, use_by="2026-03-02")
    strong = words.held("A2", 100)
    picked = pick([weak, strong], 60, NOW, factor=lambda lot: Fraction(2) if lot.code == "A1" else Fraction(1))
    assert taken(picked) == [("A1", 100), ("A2", 10)]


@given(st.lists(st.integers(0, 1000), max_size=6), st.integers(1, 4000))
def test_what_is_taken_and_what_is_missing_make_up_the_need(amounts: list[int], needed: int) -> None:
    lots = [words.held(f"A{number + 1}", amount) for number, amount in enumerate(amounts)]
    picked = pick(lots, needed, NOW)
    assert sum(draw.quantity for draw in picked.draws) + picked.missing == needed
    assert all(0 < draw.quantity <= draw.lot.balance.quantity for draw in picked.draws)
    assert picked.missing == max(0, needed - sum(amounts))
