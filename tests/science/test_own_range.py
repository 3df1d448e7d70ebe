"""A reading against a range of its own: by the whole of the reading, with its error."""

from __future__ import annotations

from decimal import Decimal

import pytest

from stockroom.errors import BadInput, Unreadable
from stockroom.science.own_range import judge_in_range, last_digit, read_figure
from stockroom.science.verdicts import Verdict


def judged(figure: str, error: str, low: str | None, high: str | None) -> Verdict:
    least, most = (None if end is None else Decimal(end) for end in (low, high))
    return judge_in_range(
        Decimal(figure), Decimal(error), low=least, high=most, unit="pH", range_from="own trial", error_from="typed"
    )


@pytest.mark.parametrize(
    ("figure", "low", "high", "word"),
    [
        ("8.2", "8.0", "8.5", "fit"),
        ("8.1", "8.0", "8.5", "fit"),
        ("8.0", "8.0", "8.5", "cannot tell"),
        ("7.9", "8.0", "8.5", "cannot tell"),
        ("7.8", "8.0", "8.5", "unfit"),
        ("8.6", "8.0", "8.5", "cannot tell"),
        ("8.7", "8.0", "8.5", "unfit"),
        ("7.0", None, "8.5", "fit"),
        ("9.0", None, "8.5", "unfit"),
        ("9.0", "8.0", None, "fit"),
        ("7.0", "8.0", None, "unfit"),
    ],
)
def test_a_reading_of_a_tenth_either_way_is_judged_by_all_of_it(
    figure: str, low: str | None, high: str | None, word: str
) -> None:
    """By hand: 8.1 with 0.1 either way ends on 8.0, which is within; 8.0 reaches below it."""
    assert judged(figure, "0.1", low, high).word == word


def test_no_more_digits_are_told_than_the_error_allows() -> None:
    assert judged("8.2", "0.1", "8.0", "8.5").why.startswith("8.1 to 8.3 pH, likeliest 8.2 pH was read")


def test_range_and_error_are_named_with_where_they_come_from() -> None:
    assert judged("8.2", "0.1", "8.0", "8.5").sources == (
        "reading: good to 0.1, typed",
        "range that is fit: 8.0 to 8.5 pH, own trial",
    )


@pytest.mark.parametrize(("low", "high"), [(None, None), ("9", "8")])
def test_a_range_that_is_none_is_refused(low: str | None, high: str | None) -> None:
    with pytest.raises(BadInput, match="range"):
        judged("8.2", "0.1", low, high)


@pytest.mark.parametrize(
    ("typed", "figure", "unit"),
    [
        ("pH 8.2", "8.2", "pH"),
        ("8,2 ph", "8.2", "pH"),
        ("PH8.2", "8.2", "pH"),
        ("0.75 % w/v", "0.75", "% w/v"),
        ("12", "12", ""),
    ],
)
def test_a_reading_is_read_with_its_unit(typed: str, figure: str, unit: str) -> None:
    assert read_figure(typed) == (Decimal(figure), unit)


@pytest.mark.parametrize("typed", ["-1", "pH -8", "strong", "", "1,500"])
def test_what_is_no_reading_is_refused(typed: str) -> None:
    with pytest.raises(Unreadable):
        read_figure(typed)


def test_without_a_stated_error_it_is_one_of_the_last_digit() -> None:
    assert (last_digit(Decimal("8.2")), last_digit(Decimal("12"))) == (Decimal("0.1"), Decimal(1))
