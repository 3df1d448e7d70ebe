"""Jobs, their objects and their booked treatments from the command line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from stockroom.actions.posting import post
from stockroom.cli.output import plain
from stockroom.domain.ledger import Draft
from stockroom.domain.occasion import Occasion
from stockroom.store.jobs import find_job
from stockroom.store.open import Store

TODAY = ("--on", "2026-11-25")


def test_a_new_job_has_a_code_and_its_objects_with_their_sizes(stockroom: Any) -> None:
    made = stockroom.json("job", "new", "Harbour charts", "--object", "Sheet 1, 30 x 40 cm", "--object", "Sheet 2")
    assert made["code"].startswith("J")
    assert made["state"] == "open"
    assert made["objects"] == [
        {"position": 1, "name": "Sheet 1", "length": "300", "width": "400", "unit": "mm"},
        {"position": 2, "name": "Sheet 2"},
    ]
    assert made["jobs"][0]["title"] == "Harbour charts"


@pytest.mark.parametrize("title", ["[A3]", "[/]", "=1+1", "1:100:5", "\"'`;--", "🗺 chart", "خرائط", "a\u202eb"])
def test_what_a_job_is_called_comes_back_as_typed(stockroom: Any, title: str) -> None:
    code = stockroom.json("job", "new", title, "--client", title, "--object", title)["code"]
    shown = stockroom.json("job", "show", code)
    assert (shown["title"], shown["client"], shown["objects"][0]["name"]) == (title, title, title)
    assert plain(title) in stockroom("job", "list").out


def test_a_size_that_cannot_be_read_opens_no_job(stockroom: Any) -> None:
    failed = stockroom("job", "new", "Charts", "--object", "Sheet 1, 30 x 40")
    assert failed.code == 2
    assert "30 x 40" in failed.err
    assert stockroom.json("job", "list")["jobs"] == []


def test_a_job_is_found_by_its_code_its_title_or_a_part_of_it(stockroom: Any) -> None:
    code = stockroom.json("job", "new", "Harbour charts of the north")["code"]
    stockroom.json("job", "new", "Railway posters")
    for words in (code, code.lower(), f" {code[:2]} {code[2:]} ", "harbour charts of the north", "NORTH"):
        assert stockroom.json("job", "show", words)["code"] == code
    assert "several" in stockroom("job", "show", "r").err
    assert stockroom("job", "show", "r").code == 2
    assert stockroom("job", "show", "J00000").code == 2


def test_an_object_is_added_or_given_its_size(stockroom: Any) -> None:
    code = stockroom.json("job", "new", "Charts", "--object", "Sheet 1")["code"]
    assert stockroom.json("job", "object", code, "Sheet 2, 50 x 70 cm")["object"]["position"] == 2
    sized = stockroom.json("job", "object", code, "sheet 1, 60 x 80 cm")
    assert sized["object"] == {"position": 1, "name": "Sheet 1", "length": "600", "width": "800", "unit": "mm"}
    assert len(sized["objects"]) == 2
    assert stockroom("job", "object", code, "Sheet 1").code == 2


def test_a_closed_job_takes_nothing_more_until_it_is_reopened_with_a_reason(stockroom: Any) -> None:
    code = stockroom.json(*TODAY, "job", "new", "Charts", "--object", "Sheet 1, 30 x 40 cm")["code"]
    planned = stockroom.json(*TODAY, "job", "close", code, "--dry-run")
    assert (planned["action"], stockroom.json("job", "show", code)["state"]) == (None, "open")
    closed = stockroom.json(*TODAY, "job", "close", code)
    assert closed["action"].startswith("A")
    assert (closed["state"], closed["closed_on"]) == ("closed", "2026-11-25")
    assert stockroom.json("job", "list", "--open")["jobs"] == []
    assert [job["state"] for job in stockroom.json("job", "list")["jobs"]] == ["closed"]
    for refused in (
        ("job", "close", code),
        ("job", "object", code, "Sheet 2"),
        ("book", "wash", "--job", code, "--for", "2026-12-01"),
    ):
        assert stockroom.json(*TODAY, *refused, code=1)["error"]["kind"] == "refused"
    assert stockroom(*TODAY, "job", "reopen", code).code == 2
    reopened = stockroom.json(*TODAY, "job", "reopen", code, "--why", "the client came back")
    assert reopened["state"] == "open"
    record = stockroom.json("job", "show", code)["actions"]
    assert [(each["kind"], each["by"], each["why"]) for each in record] == [
        ("close-job", "AB", None),
        ("reopen-job", "AB", "the client came back"),
    ]
    assert stockroom(*TODAY, "job", "reopen", code, "--why", "again").code == 1


def test_a_job_is_never_closed_before_the_last_thing_that_was_done_for_it(
    stockroom: Any, store: Store, occasion: Callable[..., Occasion]
) -> None:
    code = stockroom.json(*TODAY, "job", "new", "Charts")["code"]
    with store.write() as booked_at:
        job = find_job(store, code)
        done = post(store, Draft(kind="take", occasion=occasion("2026-11-20"), job_id=job.id), booked_at)
    failed = stockroom(*TODAY, "job", "close", code, "--day", "2026-11-19")
    assert failed.code == 1
    assert done.code in failed.err
    assert stockroom(*TODAY, "job", "close", code, "--day", "2026-11-20").code == 0


def test_closing_names_the_bookings_that_are_still_open(stockroom: Any) -> None:
    code = stockroom.json(*TODAY, "job", "new", "Charts", "--object", "Sheet 1, 30 x 40 cm")["code"]
    booked = stockroom.json(*TODAY, "book", "wash", "--job", code, "--for", "2026-12-01")
    (warning,) = stockroom.json(*TODAY, "job", "close", code)["warnings"]
    assert booked["code"] in warning
    assert "2026-12-01" in warning


def test_a_booking_is_a_plan_that_the_job_shows_and_nothing_is_drawn(stockroom: Any, store: Store) -> None:
    code = stockroom.json("job", "new", "Charts", "--object", "Sheet 1, 30 x 40 cm")["code"]
    booked = stockroom.json(
        *TODAY, "book", "calcium-hydroxide-1-in-4", "--job", code, "--for", "in 6 days", "--qty", "½ L", "--fills", "2"
    )
    assert (booked["job"], booked["recipe"], booked["for"], booked["state"]) == (
        code,
        "calcium-hydroxide-1-in-4",
        "2026-12-01",
        "booked",
    )
    assert (booked["qty"], booked["unit"], booked["fills"], booked["warnings"]) == ("500", "mL", 2, [])
    (shown,) = stockroom.json("job", "show", code)["bookings"]
    assert shown["code"] == booked["code"]
    assert store.rows("SELECT * FROM action") == []


def test_a_booking_that_cannot_be_worked_out_yet_says_why(stockroom: Any) -> None:
    code = stockroom.json("job", "new", "Charts", "--object", "Sheet 1")["code"]
    (warning,) = stockroom.json(*TODAY, "book", "press-between-webs", "--job", code, "--for", "tomorrow")["warnings"]
    assert "Sheet 1" in warning


def test_a_booking_is_moved_and_cancelled_keeping_who_and_why(stockroom: Any, store: Store) -> None:
    job = stockroom.json("job", "new", "Charts", "--object", "Sheet 1, 30 x 40 cm")["code"]
    code = stockroom.json(*TODAY, "book", "wash", "--job", job, "--for", "2026-12-01")["code"]
    moved = stockroom.json(*TODAY, "book", "--move", code.lower(), "2026-12-03", "--why", "the press is broken")
    assert (moved["for"], moved["state"]) == ("2026-12-03", "booked")
    assert stockroom.json(*TODAY, "book", "--cancel", code)["state"] == "cancelled"
    assert stockroom.json(*TODAY, "book", "--cancel", code, code=1)["error"]["kind"] == "refused"
    assert stockroom.json(*TODAY, "book", "--move", code, "2026-12-04", code=1)["error"]["kind"] == "refused"
    rows = store.rows("SELECT * FROM edit WHERE noun = 'booking' ORDER BY id")
    assert [(row["field"], row["was"], row["became"], row["initials"], row["reason"]) for row in rows] == [
        ("for_day", "2026-12-01", "2026-12-03", "AB", "the press is broken"),
        ("state", "booked", "cancelled", "AB", None),
    ]


@pytest.mark.parametrize(
    ("arguments", "code", "named"),
    [
        (("book", "wash", "--job", "Charts", "--for", "2026-11-24"), 2, "passed"),
        (("book", "wash", "--job", "Charts", "--for", "03/04/2027"), 2, "2027-04-03"),
        (("book", "wash", "--job", "Charts"), 2, "--for"),
        (("book",), 2, "--cancel"),
        (("book", "wash", "--job", "Charts", "--for", "tomorrow", "--cancel", "K0001"), 2, "one of"),
        (("book", "wash", "--job", "Charts", "--for", "tomorrow", "--fills", "0"), 2, "0 fills"),
        (("book", "wash", "--job", "Charts", "--for", "tomorrow", "--qty", "500 g"), 2, "500 g"),
        (("book", "wash", "--job", "Posters", "--for", "tomorrow"), 2, "Posters"),
        (("book", "wheat-starch-paste", "--job", "Charts", "--for", "tomorrow"), 1, "stock"),
        (("book", "--move", "K0001", "tomorrow"), 2, "K0001"),
    ],
)
def test_what_cannot_be_booked_says_why(stockroom: Any, arguments: tuple[str, ...], code: int, named: str) -> None:
    stockroom.json("job", "new", "Charts", "--object", "Sheet 1, 30 x 40 cm")
    failed = stockroom(*TODAY, *arguments)
    assert failed.code == code
    assert named in failed.err
    assert stockroom.json("job", "show", "Charts")["bookings"] == []
