"""Quotes stay as they were given, and are compared with what was used; both sheets read back from paper."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from conftest import CommandLine
from pdf_pages import pages_of, words_on

DAY = ("--on", "2026-11-28T10:00")
LATER = ("--on", "2026-12-01T15:00")
"""A millilitre is a cent, and a fill of 400 mL takes 100 mL: see the fixture."""


def given(room: CommandLine, *more: str) -> dict[str, object]:
    return room.json(*DAY, "quote", "railway", *more)


@pytest.fixture
def booking(rinse: CommandLine) -> str:
    return str(rinse.json(*DAY, "book", "rinse", "--job", "railway", "--for", "2026-12-01", "--fills", "2")["code"])


def money(low: str, best: str, high: str) -> dict[str, str]:
    return {"low": low, "best": best, "high": high}


def test_a_quote_is_frozen_with_its_prices_recipe_version_and_range(rinse: CommandLine, booking: str) -> None:
    """2 fills booked, 1 to 4 quoted: 1.00, 2.00 and 4.00; 10 % for waste; then 12 % handling on both."""
    quote = given(rinse, "--fills", f"{booking}=1-4", "--waste", "10 %", "--handling", "12 %", "--valid", "2027-01-31")
    assert quote["materials"] == money("1.00", "2.00", "4.00")
    assert quote["waste"] == money("0.10", "0.20", "0.40")
    assert quote["handling"] == money("0.13", "0.26", "0.53")
    assert quote["total"] == money("1.23", "2.46", "4.93")
    assert (quote["day"], quote["valid_until"], quote["state"]) == ("2026-11-28", "2027-01-31", "given")
    assert quote["lines"] == [
        {
            "booking": booking,
            "recipe": "rinse",
            "version": 1,
            "fills": {"low": 1, "best": 2, "high": 4},
            "material": "rinse-spirit",
            "amount": "200",
            "unit": "mL",
            "cost": money("1.00", "2.00", "4.00"),
            "cost_incomplete": False,
            "priced_by": "L001W",
        }
    ]
    rinse.json(*LATER, "price", "L001W", "--cost", "90.00", "--why", "the invoice said so")
    again = rinse.json(*LATER, "quote", "show", str(quote["code"]))
    assert {name: again[name] for name in quote} == quote


def test_what_is_wrong_with_a_quote_is_said_and_nothing_is_kept(rinse: CommandLine, booking: str) -> None:
    for words, code in (
        (("--fills", f"{booking}=3-4"), 2),
        (("--fills", "two"), 2),
        (("--fills", "K0002=1-2"), 2),
        (("--waste", "lots"), 2),
        (("--handling", "-3"), 2),
        (("--valid", "2026-11-01"), 2),
    ):
        assert rinse(*DAY, "quote", "railway", *words).code == code, words
    rinse.json(*DAY, "job", "new", "Sea chart")
    refused = rinse(*DAY, "quote", "sea chart")
    assert refused.code == 1
    assert "No treatment is booked" in refused.err
    assert rinse.json("quote", "list")["quotes"] == []


def test_a_dry_run_shows_the_very_quote_and_keeps_none(rinse: CommandLine, booking: str) -> None:
    """Where one treatment is booked, its range needs no code."""
    plan = given(rinse, "--fills", "1-4", "--waste", "10 %", "--dry-run")
    assert rinse.json("quote", "list")["quotes"] == []
    assert plan["code"] is None
    assert "This is only the plan" in rinse(*DAY, "quote", "railway", "--dry-run").out
    quote = given(rinse, "--fills", f"{booking}=1-4", "--waste", "10 %")
    assert {**quote, "code": None} == plan


def test_one_quote_of_a_job_is_accepted_and_the_one_before_is_replaced(rinse: CommandLine, booking: str) -> None:
    first, second = given(rinse)["code"], given(rinse)["code"]
    assert rinse.json(*DAY, "quote", "accept", str(first))["state"] == "accepted"
    assert rinse.json(*DAY, "quote", "accept", str(second))["accepted_on"] == "2026-11-28"
    states = {one["code"]: one["state"] for one in rinse.json("quote", "list", "railway")["quotes"]}
    assert states == {first: "replaced", second: "accepted"}
    assert rinse(*DAY, "quote", "withdraw", str(second)).code == 2
    assert rinse.json(*DAY, "quote", "withdraw", str(second), "--why", "the client decided otherwise")
    assert "To send it" not in rinse(*DAY, "quote", "show", str(second)).out
    assert rinse(*DAY, "quote", "accept", str(second)).code == 1


@pytest.mark.parametrize(("verb", "state"), [("accept", "accepted"), ("withdraw", "withdrawn")])
def test_what_would_become_of_a_quote_is_shown_without_booking_it(
    rinse: CommandLine, booking: str, verb: str, state: str
) -> None:
    code = str(given(rinse)["code"])
    planned = (*DAY, "quote", verb, code, "--why", "agreed by telephone", "--dry-run")
    assert f"{code} would be {state}. This is only the plan; nothing was booked." in rinse(*planned).out
    assert rinse.json(*planned)["state"] == state
    assert [one["state"] for one in rinse.json("quote", "list", "railway")["quotes"]] == ["given"]


def test_a_quote_that_no_longer_holds_is_accepted_only_with_a_reason(rinse: CommandLine, booking: str) -> None:
    code = str(given(rinse, "--valid", "2026-11-29")["code"])
    late = rinse(*LATER, "quote", "accept", code)
    assert late.code == 1
    assert "held until 2026-11-29" in late.err
    assert rinse.json(*LATER, "quote", "accept", code, "--why", "agreed by telephone")["state"] == "accepted"


def test_the_accepted_quote_is_compared_line_by_line_each_difference_with_its_reason(
    rinse: CommandLine, booking: str
) -> None:
    """Quoted 2.00 for 200 mL; 300 mL used and 20 mL taken beside it: 1.00 by quantity, 0.20 not quoted."""
    code = str(given(rinse)["code"])
    rinse.json(*DAY, "quote", "accept", code)
    rinse.json(*LATER, "use", "rinse", "--job", "railway", "--booking", booking, "--took", "rinse-spirit=300 mL")
    rinse.json(*LATER, "take", "L001W", "20 mL", "--job", "railway")
    lines = rinse.json(*LATER, "cost", "railway")["quote"]["lines"]
    told = {line["treatment"]: (line["quoted"], line["used"], line["difference"], line["why"]) for line in lines}
    assert told == {
        "Rinse": ("2.00", "3.00", "1.00", "another quantity"),
        "taken by itself": (None, "0.20", "0.20", "not in the estimate"),
    }
    assert lines == rinse.json(*LATER, "quote", "show", code)["against"]


def test_before_anything_is_done_all_that_was_quoted_is_still_to_come(rinse: CommandLine, booking: str) -> None:
    code = str(given(rinse, "--waste", "10 %")["code"])
    against = rinse.json(*DAY, "quote", "show", code)["against"]
    assert {line["treatment"]: line["why"] for line in against} == {
        "Rinse": "still to come",
        "allowance for waste": "still to come",
    }


@pytest.mark.parametrize(
    ("shows", "seen", "hidden"),
    [
        ("total", ["Rinse", "2.46"], ["Rinse spirit", "200 mL", "L001W"]),
        ("treatments", ["Rinse", "2.00 EUR"], ["Rinse spirit", "L001W"]),
        ("materials", ["Rinse spirit", "200 mL"], ["L001W"]),
        ("prices", ["Rinse spirit", "L001W", "version 1"], []),
    ],
)
def test_the_client_sees_what_was_chosen_and_that_it_is_materials_only(
    rinse: CommandLine, booking: str, tmp_path: Path, shows: str, seen: list[str], hidden: list[str]
) -> None:
    code = str(given(rinse, "--waste", "10", "--handling", "12 %", "--shows", shows)["code"])
    for kind in ("txt", "pdf"):
        path = tmp_path / f"quote.{kind}"
        assert rinse.json("quote", "print", code, "--out", str(path))["files"] == [str(path)]
        text = path.read_text() if kind == "txt" else words_on(path)
        for words in (f"Quote {code}: materials only", "labour is not part of it", "Handling, 12 %", "2.46", *seen):
            assert words in text, (kind, words)
        assert not [words for words in hidden if words in text], kind
    assert rinse("quote", "print", code, "--out", str(tmp_path / "quote.pdf")).code == 1
    assert rinse("quote", "print", code, "--out", str(tmp_path / "quote.doc")).code == 2


def test_the_final_sheet_is_written_as_text_csv_and_pdf(rinse: CommandLine, booking: str, tmp_path: Path) -> None:
    rinse.json(*DAY, "quote", "accept", str(given(rinse, "--handling", "5.00", "--shows", "materials")["code"]))
    rinse.json(*LATER, "use", "rinse", "--job", "railway", "--booking", booking)
    for kind in ("txt", "pdf", "csv"):
        path = tmp_path / f"final.{kind}"
        document = rinse.json(*LATER, "cost", "railway", "--out", str(path))
        assert (document["total"], document["files"]) == ("2.00", [str(path)])
        if kind == "csv":
            rows = list(csv.DictReader(path.read_text().splitlines()))
            assert [(row["material"], row["name"], row["code"], row["amount"], row["cost"]) for row in rows] == [
                ("rinse-spirit", "Rinse spirit", "L001W", "200", "2.00"),
                ("", "Handling, 5.00", "", "", "5.00"),
            ]
            assert {row["sheet"] for row in rows} == {"final, materials only"}
            continue
        text = path.read_text() if kind == "txt" else words_on(path)
        for words in ("materials only", "Rinse spirit", "200 mL", "Handling, 5.00", "7.00 EUR", "Against quote"):
            assert words in text, (kind, words)


@pytest.mark.parametrize(
    ("shows", "seen"),
    [
        ("total", [("", "Materials", "2.00")]),
        ("treatments", [("rinse", "", "2.00")]),
        ("prices", [("rinse", "Rinse spirit", "2.00")]),
    ],
)
def test_a_sheet_for_a_spreadsheet_shows_no_more_than_was_chosen_and_adds_up(
    rinse: CommandLine, booking: str, tmp_path: Path, shows: str, seen: list[tuple[str, str, str]]
) -> None:
    """2.00 of materials, 10 % of it for waste and 5.00 for handling: 7.20; used for 2.00, with handling 7.00."""
    code = str(given(rinse, "--waste", "10 %", "--handling", "5.00", "--shows", shows)["code"])
    rinse.json(*DAY, "quote", "accept", code)
    rinse.json(*DAY, "quote", "print", code, "--out", str(tmp_path / "quote.csv"))
    rinse.json(*LATER, "use", "rinse", "--job", "railway", "--booking", booking)
    rinse.json(*LATER, "cost", "railway", "--out", str(tmp_path / "final.csv"))
    waste, handling = ("", "Allowance for waste, 10 %", "0.20"), ("", "Handling, 5.00", "5.00")
    for name, expected in (("quote", [*seen, waste, handling]), ("final", [*seen, handling])):
        rows = list(csv.DictReader((tmp_path / f"{name}.csv").read_text().splitlines()))
        assert [(row["treatment"], row["name"], row["cost"]) for row in rows] == expected
        assert all(row["sheet"].endswith("materials only") for row in rows)


@pytest.mark.parametrize(("shows", "named"), [("total", False), ("treatments", False), ("materials", True)])
def test_the_comparison_names_no_material_that_the_client_is_not_to_see(
    rinse: CommandLine, booking: str, tmp_path: Path, shows: str, named: bool
) -> None:
    rinse.json(*DAY, "quote", "accept", str(given(rinse, "--shows", shows)["code"]))
    rinse.json(*LATER, "use", "rinse", "--job", "railway", "--booking", booking)
    path = tmp_path / "final.txt"
    rinse.json(*LATER, "cost", "railway", "--out", str(path))
    assert ("Rinse spirit" in path.read_text()) is named
    assert "Quoted: 2.00 EUR" in path.read_text()


@pytest.mark.parametrize("shows", ["materials", "prices"])
def test_a_range_is_printed_on_one_line_so_that_no_number_stands_without_its_unit(
    rinse: CommandLine, booking: str, tmp_path: Path, shows: str
) -> None:
    code = str(given(rinse, "--fills", f"{booking}=1-4", "--shows", shows)["code"])
    rinse.json(*DAY, "quote", "print", code, "--out", str(tmp_path / "quote.pdf"))
    lines = "\n".join(pages_of(tmp_path / "quote.pdf")).splitlines()
    assert any("100 mL to 400 mL" in line for line in lines)
    assert any("1.00 to 4.00 EUR" in line for line in lines)


def test_sums_stand_under_the_figures_that_they_add_up(rinse: CommandLine, booking: str) -> None:
    lines = rinse(*DAY, "quote", "show", str(given(rinse, "--waste", "10 %")["code"])).out.splitlines()
    row, *sums = [line.index(" EUR") for line in lines if " EUR" in line][:4]
    assert sums == [row, row, row]


def test_a_sheet_takes_the_place_of_an_older_one_only_where_that_is_said(
    rinse: CommandLine, booking: str, tmp_path: Path
) -> None:
    """Quotes, final sheets, orders and the sheet of a year alike."""
    code = str(given(rinse)["code"])
    rinse.json("supplier", "new", "Laboratory")
    order = str(rinse.json("order", "new", "Laboratory")["code"])
    path = tmp_path / "sheet.txt"
    for command in (("quote", "print", code), ("cost", "railway"), ("order", "print", order), ("year-end",)):
        path.write_text("what was written before")
        refused = rinse(*LATER, *command, "--out", str(path))
        assert (refused.code, "--replace" in refused.err) == (1, True), command
        assert path.read_text() == "what was written before"
        assert rinse.json(*LATER, *command, "--out", str(path), "--replace")["files"] == [str(path)], command
        assert "what was written before" not in path.read_text()
        assert rinse(*LATER, *command, "--out", str(tmp_path / "none" / "sheet.txt"), "--replace").code == 2


def test_typed_text_is_no_formula_and_no_control_character_on_paper(rinse: CommandLine, tmp_path: Path) -> None:
    """A name that begins like a formula is text in a spreadsheet (OWASP, CSV Injection: prefix with a quote)."""
    rinse.json(*DAY, "material", "new", "=1+1 \x1b[2J", "--measured-by", "volume", code=2)
    rinse.json(*DAY, "material", "new", "=1+1", "--measured-by", "volume")
    rinse.json(*DAY, "receive", "=1+1", "1 L", "--cost", "3.00")
    rinse.json(*LATER, "take", "L002U", "10 mL", "--job", "railway")
    path = tmp_path / "final.csv"
    rinse.json(*LATER, "cost", "railway", "--out", str(path))
    assert "'=1+1" in path.read_text()
