"""Until when a lot may be used: the earliest of every rule that holds, and which of them it was."""

from __future__ import annotations

import pytest
import shelf_words as words

from stockroom.planning.shelf_life import made_limits, opened_limits, received_limits

MADE = words.moment("2026-11-01T09:00")


@pytest.mark.parametrize(
    ("life", "last"),
    [
        ("14 days", "2026-11-15"),
        ("14 days counting the day of making", "2026-11-14"),
        ("35 days counting the day of making", "2026-12-05"),
        ("4 h", "2026-11-01T13:00"),
        ("1 year", "2027-11-01"),
    ],
)
def test_a_solution_keeps_for_its_own_life(life: str, last: str) -> None:
    """USP <795>, 2023 (secondary): 14 days unpreserved, 35 preserved, the day of compounding being day 1.

    Written for medicines; here by analogy, and only where the life says so.
    """
    assert made_limits(MADE, life, []) == (last, f"keeps: {life}")


@pytest.mark.parametrize(
    ("ingredients", "last", "rule"),
    [
        (("2026-12-31", "2026-11-10"), "2026-11-10", "as long as Solution B2"),
        (("2026-11-10", "2026-12-31"), "2026-11-10", "as long as Solution A1"),
        (("2026-12-31", "2027-01-31"), "2026-11-15", "keeps: 14 days"),
    ],
)
def test_no_solution_outlives_what_went_into_it(ingredients: tuple[str, ...], last: str, rule: str) -> None:
    """The expiration date of the solution should not exceed that of any component (a laboratory's procedure, read)."""
    lots = [words.lot(code, use_by=day) for code, day in zip(("A1", "B2"), ingredients, strict=True)]
    assert made_limits(MADE, "14 days", lots) == (last, rule)


def test_a_solution_without_a_life_or_ingredients_that_end_has_no_date() -> None:
    assert made_limits(MADE, None, [words.lot("A1")]) == (None, None)


def test_hours_end_before_the_end_of_the_same_day() -> None:
    lots = [words.lot("A1", use_by="2026-11-01")]
    assert made_limits(MADE, "4 h", lots)[0] == "2026-11-01T13:00"


@pytest.mark.parametrize(
    ("made", "last"),
    [("2027-01-31T10:00", "2027-02-28"), ("2028-01-31T10:00", "2028-02-29"), ("2028-02-29T10:00", "2028-03-29")],
)
def test_a_month_from_the_31st_ends_with_the_next_month(made: str, last: str) -> None:
    """A month after 31 January is 28 or 29 February (python-dateutil, relativedelta, from memory)."""
    assert made_limits(words.moment(made), "1 month", [])[0] == last


@pytest.mark.parametrize(
    ("maker", "closed", "opened_life", "opened", "expected"),
    [
        ("2027-06-30", "5 years", None, None, ("2027-06-30", "maker's date")),
        (None, "5 years", None, None, ("2031-11-01", "kept closed: 5 years")),
        ("2027-06-30", None, "6 months", "2026-11-20T10:00", ("2027-05-20", "once opened: 6 months")),
        ("2027-01-31", None, "6 months", "2026-11-20T10:00", ("2027-01-31", "maker's date")),
        (None, None, None, None, (None, None)),
    ],
)
def test_the_makers_date_the_closed_life_and_the_opened_life(
    maker: str | None,
    closed: str | None,
    opened_life: str | None,
    opened: str | None,
    expected: tuple[str | None, str | None],
) -> None:
    """A life after first opening must be observed (EMA CPMP/QWP/159/96, read in part)."""
    moment = words.moment(opened) if opened else None
    assert received_limits(maker, closed, opened_life, MADE, moment) == expected


def test_opening_shortens_a_date_and_never_lengthens_it() -> None:
    opened = words.moment("2026-11-25T14:10")
    near = words.lot("A1", use_by="2026-12-01", use_by_rule="maker's date", life_opened="30 days")
    far = words.lot("A1", use_by="2027-12-01", use_by_rule="maker's date", life_opened="30 days")
    assert opened_limits(near, opened) == ("2026-12-01", "maker's date")
    assert opened_limits(far, opened) == ("2026-12-25", "once opened: 30 days")
