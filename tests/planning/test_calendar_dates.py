"""Which of what is due stands in a calendar, and under which name."""

from __future__ import annotations

import pytest

from stockroom.planning.calendar_dates import calendar_dates
from stockroom.planning.due import WORDS, Due


def due(kind: str, code: str, by: str | None, why: str = "so") -> Due:
    return Due(kind=kind, code=code, name="Ethanol", by=by, why=why)


def test_a_matter_keeps_its_name_before_its_day_and_after_it() -> None:
    names = [calendar_dates([due(kind, "L001W", "2026-05-01")])[0].name for kind in ("use-first", "past-use-by")]
    assert names == ["use-by-L001W"] * 2


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("remake", "remake-X"),
        ("check", "check-X"),
        ("make-by", "make-by-X"),
        ("reorder", "order-by-X"),
        ("order-late", "delivery-X"),
        ("loan", "loan-X"),
    ],
)
def test_what_has_a_day_of_its_own_stands_there(kind: str, name: str) -> None:
    assert kind in WORDS
    (one,) = calendar_dates([due(kind, "X", "2026-05-01")])
    assert one.name == name and one.title.endswith(": Ethanol (X)")


def test_what_has_no_day_or_only_today_does_not_stand_there() -> None:
    assert calendar_dates([due("low", "X", None), due("remake", "X", None), due("withdrawn", "X", "2026-05-01")]) == []


def test_several_reasons_for_one_thing_stand_once_on_the_earliest_day() -> None:
    found = calendar_dates(
        [
            due("reorder", "X", "2026-05-09", "booked"),
            due("check", "L", "2026-05-04"),
            due("reorder", "X", "2026-05-01", "low"),
        ]
    )
    assert [(one.name, one.by) for one in found] == [("order-by-X", "2026-05-01"), ("check-L", "2026-05-04")]
    assert found[0].words == "booked\nlow"
