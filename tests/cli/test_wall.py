"""One page for the wall: the coming days with what is booked, to make, to order and due."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pdf_pages import words_on

BATH = "calcium-hydroxide-1-in-4"


@pytest.fixture
def studio(stockroom: Any) -> Any:
    """Powder, paste of 24 November that keeps 7 days, a loan, and baths booked for Friday and for next month."""
    stockroom.on("2026-11-01", "receive", "calcium-hydroxide", "100 g", "--cost", "10.00")
    stockroom.on("2026-11-01", "receive", "wheat-starch", "100 g", "--cost", "10.00")
    stockroom.on("2026-11-24", "make", "wheat-starch-paste", "200 mL")
    stockroom.on("2026-11-10", "take", "L001W", "5 g", "--why", "lent", "--to", "the workshop", "--back", "2026-11-20")
    stockroom.on("2026-11-10", "job", "new", "Sea chart", "--object", "North, 60 x 40 cm")
    told = ("--job", "Sea chart", "--qty", "400 mL", "--fills", "2", "--note", "face down")
    stockroom.on("2026-11-10", "book", BATH, "--for", "2026-11-27", *told)
    stockroom.on("2026-11-10", "book", BATH, "--for", "2026-12-20", *told)
    return stockroom


def wall(studio: Any, *more: str, at: str = "2026-11-25") -> Any:
    return studio.on(at, "wall", *more)


def of_day(page: Any, day: str) -> list[tuple[str, str]]:
    (one,) = [one for one in page["days"] if one["day"] == day]
    return [(item["kind"], item["name"]) for item in one["items"]]


def test_a_week_from_today_with_what_is_booked_first(studio: Any) -> None:
    page = wall(studio)
    assert (page["from"], page["to"], len(page["days"])) == ("2026-11-25", "2026-12-01", 7)
    assert of_day(page, "2026-11-27")[0][0] == "booked"
    (booked,) = [one for day in page["days"] for one in day["items"] if one["kind"] == "booked"]
    assert booked["why"] == "for J001R Sea chart; 2 x 400 mL; face down"


def test_what_must_be_made_and_used_first_stands_on_its_day(studio: Any) -> None:
    """The solution settles a day, so it is begun the day before at the latest; paste of the 24th keeps 7 days."""
    page = wall(studio)
    begun = [
        day["day"] for day in page["days"] for item in day["items"] if item["kind"] in ("make-by", "remake", "short")
    ]
    assert begun and min(begun) <= "2026-11-26"
    assert ("use-first", "Wheat starch paste") in of_day(page, "2026-12-01")


def test_everything_due_is_on_it_once(studio: Any) -> None:
    """The page says what `due` says for the same days, and no more than the bookings beside it."""
    page = wall(studio)
    items = [*page["waiting"], *(item for day in page["days"] for item in day["items"])]
    due = studio.on("2026-11-25", "due", "--within", "6")["items"]
    told = sorted((one["kind"], one["code"]) for one in items if one["kind"] != "booked")
    assert told == sorted((one["kind"], one["code"]) for one in due if one["kind"] != "not-used")
    assert ("loan", "100 g") not in told and [one for one in page["waiting"] if one["kind"] == "loan"]


def test_more_days_and_closed_ones(studio: Any) -> None:
    studio.on("2026-11-25", "closed", "new", "2026-11-28", "--until", "2026-11-29")
    page = wall(studio, "--days", "30")
    assert [one["day"] for one in page["days"] if one["closed"]] == ["2026-11-28", "2026-11-29"]
    assert ("booked", "Calcium hydroxide bath, 1 in 4") in of_day(page, "2026-12-20")
    assert studio("wall", "--days", "0").code == 2


def test_the_page_is_read_back(studio: Any, tmp_path: Path) -> None:
    path = tmp_path / "wall.pdf"
    wall(studio, "--out", str(path))
    words = words_on(path)
    for said in (
        "Wednesday 2026-11-25 to Tuesday 2026-12-01",
        "Fri 27 Nov",
        "2 x 400 mL",
        "Waiting already",
        "on loan",
    ):
        assert said in words
