"""Shares of a whole, and the bare ratio that says two things."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import Unreadable
from stockroom.science.ratios import read_parts, show_parts

shares = st.fractions(0, 1, max_denominator=10**9).filter(bool)


def test_one_in_ten_is_one_part_made_up_to_ten() -> None:
    """USP 37, general notices 6.50.20: "1 in 10" is 1 part diluted to make the finished solution 10 parts (read)."""
    assert read_parts("1 in 10") == Fraction(1, 10)


def test_parts_that_are_mixed_add_up_to_the_whole() -> None:
    """USP 37, general notices 6.50.20: in "(20:5:2)" the numbers of parts are mixed (read); so 1 + 3 is 1 in 4."""
    assert read_parts("1 + 3") == read_parts("1 in 4") == Fraction(1, 4)
    assert read_parts("20 + 7") == Fraction(20, 27)


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("1+3", "1/4"),
        ("1 part + 3 parts", "1/4"),
        ("1 part in 4", "1/4"),
        ("3 in 4", "3/4"),
        ("0.5 in 2", "1/4"),
        ("1 in 2,5", "2/5"),
        ("½ in 1", "1/2"),
        ("1 in 1", "1"),
        ("1 + 0", "1"),
    ],
)
def test_shares_are_read_as_the_trade_writes_them(text: str, share: str) -> None:
    assert read_parts(text) == Fraction(share)


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("1:4", ["1 in 4", "1 + 4"]),
        ("1 : 4", ["1 in 4", "1 + 4"]),
        ("1/4", ["1 in 4", "1 + 4"]),
        ("1 to 4", ["1 in 4", "1 + 4"]),
        ("2:5", ["2 in 5", "2 + 5"]),
        ("4:1", ["1 + 4", "4 + 1"]),
        ("1:1", ["1 + 1"]),
    ],
)
def test_a_bare_ratio_is_asked_about_with_every_reading(text: str, readings: list[str]) -> None:
    with pytest.raises(Unreadable) as refused:
        read_parts(text)
    assert refused.value.details["readings"] == readings
    assert all(reading in refused.value.message for reading in readings)
    assert len({read_parts(reading) for reading in readings}) == len(readings)


@pytest.mark.parametrize("text", ["0 in 4", "0 + 0", "5 in 4", "1 + 1 + 2", "1:100:5", "1 in", "-1 in 4", "4"])
def test_what_is_no_share_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_parts(text)


@given(shares)
def test_a_share_that_is_shown_reads_back_and_is_never_a_bare_ratio(share: Fraction) -> None:
    assert read_parts(show_parts(share)) == share
    assert ":" not in show_parts(share) and "/" not in show_parts(share)
