"""`due --ics`: the dates of what is due as a calendar file."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import icalendar
import pytest
import vobject
from conftest import CommandLine

NOW = "2026-03-01T12:00"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "stockroom.ics"


def written(stockroom: CommandLine, file: Path, *more: str, on: str = NOW) -> dict[str, Any]:
    return stockroom.json("--on", on, "due", "--ics", str(file), *more)


def entries(file: Path) -> dict[str, icalendar.Event]:
    """Read the entries back, by the part of their UID before the @."""
    calendar = icalendar.Calendar.from_ical(file.read_bytes())
    return {event.uid.partition("@")[0]: event for event in calendar.events}


def bottle(stockroom: CommandLine, use_by: str = "2026-08-15", material: str = "ethanol") -> str:
    code = stockroom.json(
        "--on", "2026-02-01", "receive", material, "1 L", "--cost", "13.90", "--use-by", use_by
    )["code"]  # fmt: skip
    return str(code)


def test_a_date_to_come_is_an_all_day_entry(stockroom: CommandLine, file: Path) -> None:
    code = bottle(stockroom)
    found = written(stockroom, file)
    assert (found["entries"], found["cancelled"], found["file"]) == (1, 0, str(file))
    entry = entries(file)[f"use-by-{code}"]
    assert entry.start == date(2026, 8, 15)
    assert entry["SUMMARY"] == f"Use by: Ethanol 96 % ({code})"
    assert datetime(2026, 3, 1, 11, tzinfo=UTC) == entry.DTSTAMP


def test_a_date_in_hours_is_a_timed_entry_in_utc(stockroom: CommandLine, file: Path) -> None:
    """A jar made at noon in Berlin that keeps for hours ends at a minute, an hour earlier in UTC."""
    stockroom.json("--on", "2026-02-01", "receive", "hydrogen-peroxide-3", "500 mL", "--cost", "4.20")
    recipe = file.with_name("fresh.toml")
    recipe.write_text(
        """
        [recipe]
        key = "fresh"
        name = "Fresh peroxide"
        kind = "stock"
        makes = "fresh-peroxide"
        batch = "100 mL"
        life = "4 h"
        [[line]]
        material = "hydrogen-peroxide-3"
        amount = "1 in 2"
        [[line]]
        material = "deionised-water"
        amount = "make up"
        """,
        "utf-8",
    )
    stockroom.json("material", "new", "Fresh peroxide", "--measured-by", "volume")
    stockroom.json("recipe", "new", "--from", str(recipe))
    code = stockroom.json("--on", NOW, "make", "fresh", "100 mL")["code"]
    written(stockroom, file)
    assert entries(file)[f"use-by-{code}"].start == datetime(2026, 3, 1, 15, tzinfo=UTC)


def test_a_second_parser_reads_the_same(stockroom: CommandLine, file: Path) -> None:
    name = 'Size; "strong", 5 \\ 10 %, für Papier' + ", sehr lang" * 12
    stockroom.json("material", "new", name, "--measured-by", "volume")
    code = bottle(stockroom, material=name)
    written(stockroom, file)
    calendar = vobject.readOne(file.read_text("utf-8"))
    read = calendar.vevent
    assert read.summary.value == f"Use by: {name} ({code})"
    assert read.dtstart.value == date(2026, 8, 15)
    assert read.uid.value == entries(file)[f"use-by-{code}"].uid
    assert all(len(line) <= 75 for line in file.read_bytes().split(b"\r\n"))  # RFC 5545, 3.1


def test_written_again_nothing_changes(stockroom: CommandLine, file: Path) -> None:
    bottle(stockroom)
    written(stockroom, file)
    before = file.read_bytes()
    written(stockroom, file, on="2026-03-01T18:00")
    assert file.read_bytes() == before


def test_a_changed_date_keeps_its_uid_and_raises_its_sequence(stockroom: CommandLine, file: Path) -> None:
    """RFC 5545, 3.8.7.4: the sequence rises with a significant revision; 3.8.7.2: the stamp with any."""
    stockroom.json("material", "new", "Paste", "--measured-by", "volume", "--life-opened", "14 days")
    code = bottle(stockroom, material="paste")
    written(stockroom, file)
    before = entries(file)[f"use-by-{code}"]
    stockroom.json("--on", "2026-03-02", "open", code)
    written(stockroom, file, on="2026-03-02")
    opened = entries(file)[f"use-by-{code}"]
    assert (opened.uid, opened.start) == (before.uid, date(2026, 3, 16))
    assert opened.sequence > before.sequence and opened.DTSTAMP > before.DTSTAMP
    written(stockroom, file, on="2026-03-20")
    past = entries(file)[f"use-by-{code}"]
    assert past["DESCRIPTION"] != opened["DESCRIPTION"]
    assert past.sequence == opened.sequence and past.DTSTAMP > opened.DTSTAMP


def test_what_is_done_is_cancelled_and_comes_back_when_that_is_undone(stockroom: CommandLine, file: Path) -> None:
    code = stockroom.json("--on", "2026-02-01", "receive", "blotter", "25 sheets", "--cost", "30")["code"]
    lend = ["take", code, "4 sheets", "--why", "lent", "--to", "the workshop", "--back"]
    loan = stockroom.json("--on", "2026-02-02", *lend, "2026-03-10")["action"]
    written(stockroom, file)
    first = entries(file)
    back = stockroom.json("--on", "2026-03-03", "bring-back", code, "4 sheets")["action"]
    found = written(stockroom, file, on="2026-03-03")
    assert (found["entries"], found["cancelled"]) == (0, 1)
    gone = entries(file)[f"loan-{loan}"]
    assert gone["STATUS"] == "CANCELLED"
    assert gone.sequence == first[f"loan-{loan}"].sequence + 1
    written(stockroom, file, on="2026-03-04")
    assert entries(file)[f"loan-{loan}"].sequence == gone.sequence
    stockroom.json("--on", "2026-03-04", "undo", back, "--why", "mistyped")
    written(stockroom, file, on="2026-03-04")
    again = entries(file)[f"loan-{loan}"]
    assert "STATUS" not in again and again.sequence > gone.sequence


def test_cancelled_entries_are_dropped_after_a_while(stockroom: CommandLine, file: Path) -> None:
    code = bottle(stockroom, "2026-04-01")
    written(stockroom, file)
    stockroom.json("--on", "2026-03-03", "discard", code, "--why", "spoilt")
    assert written(stockroom, file, on="2026-03-04")["cancelled"] == 1
    assert written(stockroom, file, on="2026-08-04")["cancelled"] == 0


def test_a_strange_file_is_left_alone_unless_it_is_to_be_replaced(stockroom: CommandLine, file: Path) -> None:
    bottle(stockroom)
    for content in (b"", b"notes", b"BEGIN:VCALENDAR\r\nPRODID:-//another//EN\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n"):
        file.write_bytes(content)
        ran = stockroom("--on", NOW, "due", "--ics", str(file))
        assert ran.code == 1 and "is not a calendar of this stockroom" in ran.err
        assert file.read_bytes() == content
    assert written(stockroom, file, "--replace")["entries"] == 1


def test_the_calendar_of_another_stockroom_is_left_alone(
    stockroom: CommandLine, new_store: Any, command_line: Any, file: Path
) -> None:
    bottle(stockroom)
    written(stockroom, file)
    other = command_line(new_store().path)
    other.json("--on", "2026-02-02", "receive", "ethanol", "1 L", "--cost", "9", "--use-by", "2026-05")
    assert other("--on", NOW, "due", "--ics", str(file)).code == 1


def test_neither_the_stockroom_nor_a_missing_folder_is_written_to(stockroom: CommandLine, tmp_path: Path) -> None:
    before = stockroom.path.read_bytes()
    assert stockroom("due", "--ics", str(stockroom.path), "--replace").code == 2
    assert stockroom.path.read_bytes() == before
    assert stockroom("due", "--ics", str(tmp_path / "no" / "x.ics")).code == 2
    assert stockroom("due", "--ics", str(tmp_path)).code == 2
    assert stockroom("due", "--replace").code == 2


def test_control_characters_never_reach_the_file(stockroom: CommandLine, file: Path) -> None:
    code = stockroom.json("--on", "2026-02-01", "receive", "blotter", "25 sheets", "--cost", "30")["code"]
    stockroom.json(
        "--on",
        "2026-02-02",
        "take",
        code,
        "2 sheets",
        "--why",
        "lent",
        "--to",
        "a\x07\x1b[31m",
        "--back",
        "2026-03-10",
    )
    written(stockroom, file)
    assert all(byte >= 0x20 or byte in b"\r\n\t" for byte in file.read_bytes())
    assert len(entries(file)) == 1
