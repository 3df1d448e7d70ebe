"""Offcuts of a sheet go back to the shelf as lots of their own."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from conftest import CommandLine

NOW = ("--on", "2026-11-25T14:10")


@pytest.fixture
def sheets(stockroom: CommandLine) -> str:
    """Ten sheets of 70 x 100 cm for 70.00: a cent for 10 cm². The web has no grain."""
    code = stockroom.json(
        *NOW, "receive", "polyester-web-light", "10 sheets", "--cost", "70.00", "--lot-number", "W-7", "--as-one"
    )["code"]  # fmt: skip
    return str(code)


@pytest.fixture
def job(stockroom: CommandLine) -> str:
    return str(stockroom.json(*NOW, "job", "new", "Chart", "--object", "chart, 40 x 24 cm")["code"])


def held(stockroom: CommandLine, code: str) -> tuple[str, str]:
    lot = stockroom.json(*NOW, "lot", code)
    return lot["amount"], lot["value"]


def proved(stockroom: CommandLine) -> Any:
    return stockroom.json("verify")["problems"]


def test_the_offcut_takes_its_share_by_area_and_the_trim_goes_with_the_piece(
    stockroom: CommandLine, sheets: str, job: str
) -> None:
    """By hand: of 7,000 cm² for 7.00 the offcut of 70 x 60 has 4.20; piece (70 x 38) and trim (70 x 2) 2.80."""
    taken = stockroom.json(*NOW, "take", sheets, "70 x 38 cm", "--job", job, "--keep-offcut", "70 x 60 cm")
    (offcut,) = taken["offcuts"]
    assert (offcut["size"], offcut["amount"], offcut["unit"], offcut["value"]) == ("70 x 60 cm", "4200", "cm2", "4.20")
    assert (taken["drawn"][0]["amount"], taken["cost"]) == ("2800", "2.80")
    assert held(stockroom, sheets) == ("63000", "63.00")
    assert held(stockroom, offcut["code"]) == ("4200", "4.20")
    assert stockroom.json("cost", job)["total"] == "2.80"
    assert proved(stockroom) == []
    shown = stockroom(*NOW, "lot", offcut["code"]).out
    assert "W-7" in shown and "0.42 m², offcut of 70 x 60 cm" in shown


def test_an_offcut_is_a_sheet_of_its_own_size(stockroom: CommandLine, sheets: str, job: str) -> None:
    taken = stockroom.json(*NOW, "take", sheets, "70 x 40 cm", "--job", job, "--keep-offcut", "70 x 60 cm")
    code = taken["offcuts"][0]["code"]
    again = stockroom.json(*NOW, "take", code, "30 x 60 cm", "--job", job, "--keep-offcut", "40 x 30 cm")
    assert (again["cost"], again["ended"]) == ("3.00", True)
    assert again["offcuts"][0]["value"] == "1.20"
    whole = stockroom.json(*NOW, "take", again["offcuts"][0]["code"], "1 sheet", "--job", job)
    assert (whole["cost"], whole["ended"]) == ("1.20", True)
    assert stockroom.json("cost", job)["total"] == "7.00"
    assert proved(stockroom) == []


def test_several_offcuts_of_one_sheet(stockroom: CommandLine, sheets: str, job: str) -> None:
    taken = stockroom.json(
        *NOW, "take", sheets, "40 x 30 cm", "--job", job, "--keep-offcut", "70 x 70 cm", "--keep-offcut", "30 x 30 cm"
    )
    assert [one["value"] for one in taken["offcuts"]] == ["4.90", "0.90"]
    assert taken["cost"] == "1.20"


@pytest.mark.parametrize(
    ("piece", "offcut", "message"),
    [
        ("40 x 30 cm", "70 x 90 cm", "does not give that"),
        ("40 x 30 cm", "5 x 120 cm", "does not give that"),
        ("60 x 60 cm", "50 x 50 cm", "does not give that"),
        ("40 x 30 cm", "20 cm", "not a size of two sides"),
        ("2 sheets", "20 x 20 cm", "by its two sides"),
    ],
)
def test_what_the_sheet_does_not_give_is_refused(
    stockroom: CommandLine, sheets: str, job: str, piece: str, offcut: str, message: str
) -> None:
    ran = stockroom(*NOW, "take", sheets, piece, "--job", job, "--keep-offcut", offcut)
    assert ran.code == 2 and message in ran.err
    assert held(stockroom, sheets) == ("70000", "70.00")


def test_an_offcut_lies_as_its_sheet_where_that_has_a_grain(stockroom: CommandLine, job: str) -> None:
    """The tissue is 60 x 90 cm, its grain along the 60: an offcut 80 long that way does not come out of it."""
    code = stockroom.json(*NOW, "receive", "mending-tissue-light", "2 sheets", "--cost", "8.00", "--as-one")["code"]
    ran = stockroom(*NOW, "take", code, "10 x 10 cm", "--job", job, "--keep-offcut", "80 x 50 cm")
    assert ran.code == 2 and "it has a grain" in ran.err
    kept = stockroom.json(*NOW, "take", code, "10 x 10 cm", "--job", job, "--keep-offcut", "50 x 80 cm")["offcuts"]
    assert kept[0]["size"] == "50 x 80 cm"
    lot = stockroom.json(*NOW, "lot", kept[0]["code"])
    assert (lot["size"], lot["grain"]) == ("50 x 80 cm", "along")
    assert "sheet     50 x 80 cm, grain along the first side" in stockroom(*NOW, "lot", kept[0]["code"]).out


def test_only_sheets_have_offcuts(stockroom: CommandLine, job: str) -> None:
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    assert stockroom(*NOW, "take", code, "20 mL", "--job", job, "--keep-offcut", "3 x 4 cm").code == 2


def test_undoing_puts_the_sheet_together_again(stockroom: CommandLine, sheets: str, job: str) -> None:
    taken = stockroom.json(*NOW, "take", sheets, "70 x 40 cm", "--job", job, "--keep-offcut", "70 x 60 cm")
    stockroom.json(*NOW, "undo", taken["action"], "--why", "mistyped")
    assert held(stockroom, sheets) == ("70000", "70.00")
    assert stockroom.json(*NOW, "lot", taken["offcuts"][0]["code"])["amount"] == "0"
    assert proved(stockroom) == []


def test_what_was_cut_from_the_offcut_stands_in_the_way_of_undoing(
    stockroom: CommandLine, sheets: str, job: str
) -> None:
    taken = stockroom.json(*NOW, "take", sheets, "70 x 40 cm", "--job", job, "--keep-offcut", "70 x 60 cm")
    stockroom.json(*NOW, "take", taken["offcuts"][0]["code"], "10 x 10 cm", "--job", job)
    assert stockroom(*NOW, "undo", taken["action"], "--why", "mistyped").code == 1


def test_a_plan_names_no_code(stockroom: CommandLine, sheets: str, job: str) -> None:
    plan = stockroom.json(*NOW, "take", sheets, "70 x 40 cm", "--job", job, "--keep-offcut", "70 x 60 cm", "--dry-run")
    assert (plan["action"], plan["offcuts"][0]["code"], plan["offcuts"][0]["value"]) == (None, None, "4.20")
    assert held(stockroom, sheets) == ("70000", "70.00")


def test_a_treatment_keeps_offcuts_too(stockroom: CommandLine, sheets: str, job: str) -> None:
    """By hand: two pieces of 46 x 30 (3 cm over on every side) from one sheet; without the 2,660 cm² kept, 4.34."""
    stockroom.json(*NOW, "receive", "blotter", "25 sheets", "--cost", "30.00")
    used = stockroom.json(
        *NOW, "use", "press-between-webs", "--job", job, "--from", sheets, "--keep-offcut", "70 x 38 cm"
    )  # fmt: skip
    web = next(line for line in used["drawn"] if line["code"] == sheets)
    assert used["offcuts"][0]["value"] == "2.66"
    assert (web["amount"], web["cost"]) == (str(7000 - 2660), "4.34")
    assert proved(stockroom) == []
    total = Decimal(stockroom.json("cost", job)["total"])
    assert total == Decimal(used["cost"])


def test_a_treatment_takes_an_offcut_first_where_its_pieces_come_out_of_it(
    stockroom: CommandLine, sheets: str, job: str
) -> None:
    """Two pieces of 46 x 30: the offcut of 70 x 60 gives both, that of 70 x 20 none."""
    stockroom.json(*NOW, "receive", "blotter", "25 sheets", "--cost", "30.00")
    heavy = stockroom.json(*NOW, "receive", "polyester-web-heavy", "2 sheets", "--cost", "14.00", "--as-one")["code"]
    kept = stockroom.json(
        *NOW, "take", heavy, "5 x 5 cm", "--job", job, "--keep-offcut", "70 x 60 cm", "--keep-offcut", "70 x 20 cm"
    )["offcuts"]
    used = stockroom.json(*NOW, "use", "press-between-webs", "--job", job, "--dry-run")
    webs = [(line["code"], line["amount"]) for line in used["drawn"] if "web" in line["material"]]
    assert webs == [(kept[0]["code"], "2760")]
    named = stockroom.json(*NOW, "use", "press-between-webs", "--job", job, "--from", kept[1]["code"], code=1)
    assert named["short"]


def test_a_booking_does_not_count_on_an_offcut_that_is_too_small(stockroom: CommandLine, sheets: str, job: str) -> None:
    stockroom.json(*NOW, "receive", "blotter", "25 sheets", "--cost", "30.00")
    heavy = stockroom.json(*NOW, "receive", "polyester-web-heavy", "1 sheet", "--cost", "7.00")["code"]
    stockroom.json(*NOW, "take", heavy, "50 x 100 cm", "--job", job, "--keep-offcut", "20 x 100 cm")
    stockroom.json(*NOW, "receive", "polyester-web-heavy", "100 cm2", "--cost", "0.10")
    booked = stockroom.json(*NOW, "book", "press-between-webs", "--job", job, "--for", "2026-12-10")
    assert [line["what"] for line in booked["buy"]] == ["polyester-web-heavy"]


def test_part_of_the_piece_comes_back_and_its_amount_can_be_put_right(
    stockroom: CommandLine, sheets: str, job: str
) -> None:
    """By hand: of 2,800 cm² for 2.80 a quarter comes back; put right, 2,000 cm² cost 2.00."""
    taken = stockroom.json(*NOW, "take", sheets, "70 x 40 cm", "--job", job, "--keep-offcut", "70 x 60 cm")
    back = stockroom.json(*NOW, "bring-back", taken["action"], "700 cm2")
    assert (back["value"], stockroom.json("cost", job)["total"]) == ("0.70", "2.10")
    stockroom.json(*NOW, "undo", back["action"], "--why", "mistyped")
    right = stockroom(*NOW, "put-right", taken["action"], "--amount", "2000 cm2", "--entry", "2", "--why", "misread")
    assert right.code == 0, right.err
    assert stockroom.json("cost", job)["total"] == "2.00"
    assert proved(stockroom) == []


def test_the_label_of_an_offcut_tells_its_size(stockroom: CommandLine, sheets: str, job: str) -> None:
    taken = stockroom.json(*NOW, "take", sheets, "70 x 38 cm", "--job", job, "--keep-offcut", "70 x 60 cm")
    label = stockroom(*NOW, "label", taken["offcuts"][0]["code"]).out
    assert "70 x 60 cm" in label
    assert "70 x 100 cm" in stockroom(*NOW, "label", sheets).out
