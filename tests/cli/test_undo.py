"""Undoing, putting right and prices from the command line."""

from __future__ import annotations

from typing import Any

import pytest

ON = ("--on", "2026-03-05T12:00")


@pytest.fixture
def taken(stockroom: Any) -> tuple[str, str, str]:
    """A litre of ethanol for 10.00, of which 100 mL went to a job: lot, job and action."""
    lot = stockroom.json(*ON, "receive", "ethanol", "1 L", "--cost", "10.00")["code"]
    job = stockroom.json("job", "new", "Charts [A3]")["code"]
    action = stockroom.json(*ON, "take", lot, "100 mL", "--job", job)["action"]
    return lot, job, action


def test_without_an_action_the_last_ones_are_told_and_nothing_is_undone(
    stockroom: Any, taken: tuple[str, str, str]
) -> None:
    lot, job, action = taken
    told = stockroom.json(*ON, "undo")
    assert told["action"] is None
    assert [one["kind"] for one in told["actions"]] == ["take", "receive"]
    assert told["actions"][0] == {
        "action": action,
        "kind": "take",
        "day": "2026-03-05",
        "words": f"take 100 mL of Ethanol 96 % ({lot}) for {job} Charts [A3]",
        "in_effect": True,
    }
    assert "Charts [A3]" in stockroom(*ON, "undo").out
    assert stockroom.json("shelf")["lots"][0]["amount"] == "900"


def test_undoing_needs_a_reason_and_names_what_it_undid(stockroom: Any, taken: tuple[str, str, str]) -> None:
    _, job, action = taken
    assert stockroom(*ON, "undo", action).code == 2
    undone = stockroom.json(*ON, "undo", action.lower(), "--why", "mistyped")
    assert (undone["undone"], undone["back_in_effect"]) == (action, False)
    assert undone["action"].startswith("A")
    assert stockroom.json("cost", job)["total"] == "0.00"
    again = stockroom(*ON, "undo", action, "--why", "mistyped")
    assert again.code == 1
    assert undone["action"] in again.err
    assert stockroom.json(*ON, "undo", undone["action"], "--why", "it was right")["back_in_effect"]
    assert stockroom.json("cost", job)["total"] == "1.00"


def test_what_stands_on_an_action_is_told_to_programs_too(stockroom: Any, taken: tuple[str, str, str]) -> None:
    _, _, action = taken
    received = stockroom.json(*ON, "undo")["actions"][1]["action"]
    refused = stockroom.json(*ON, "undo", received, "--why", "mistyped", code=1)
    assert refused["error"]["kind"] == "refused"
    assert refused["error"]["details"]["stands"] == action


def test_undoing_can_be_tried_dry(stockroom: Any, taken: tuple[str, str, str]) -> None:
    _, job, action = taken
    assert stockroom.json(*ON, "undo", action, "--why", "mistyped", "--dry-run")["action"] is None
    assert stockroom.json("cost", job)["total"] == "1.00"


def test_an_amount_is_put_right_with_both_figures_told(stockroom: Any, taken: tuple[str, str, str]) -> None:
    lot, job, action = taken
    righted = stockroom.json(*ON, "put-right", action, "--amount", "250 mL", "--why", "cylinder misread")
    assert righted["put_right"] == action
    assert righted["drawn"] == [
        {
            "was": {"code": lot, "amount": "100", "unit": "mL", "cost": "1.00"},
            "code": lot,
            "amount": "250",
            "unit": "mL",
            "cost": "2.50",
        }
    ]
    assert stockroom.json("cost", job)["total"] == "2.50"
    assert stockroom.json("verify")["problems"] == []


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("--amount", "250 mL"), 2),
        (("--why", "misread"), 2),
        (("--amount", "9 L", "--why", "misread"), 1),
        (("--amount", "many", "--why", "misread"), 2),
        (("--lot", "L9999", "--why", "misread"), 2),
        (("--entry", "2", "--amount", "1 mL", "--why", "misread"), 2),
        (("--day", "2027-01-01", "--why", "misread"), 2),
        (("--object", "Sheet 1", "--why", "misread"), 2),
    ],
)
def test_what_cannot_be_put_right_is_said_and_changes_nothing(
    stockroom: Any, taken: tuple[str, str, str], arguments: tuple[str, ...], code: int
) -> None:
    ran = stockroom(*ON, "put-right", taken[2], *arguments)
    assert (ran.code, bool(ran.err.strip())) == (code, True)
    assert stockroom.json("cost", taken[1])["total"] == "1.00"


def test_a_price_put_right_tells_where_the_difference_went(stockroom: Any, taken: tuple[str, str, str]) -> None:
    lot, job, _ = taken
    priced = stockroom.json(*ON, "price", lot, "--cost", "12,00", "--why", "invoice came")
    assert (priced["was"], priced["cost"], priced["difference"]) == ("10.00", "12.00", "2.00")
    assert {share["what"]: share["value"] for share in priced["shares"]} == {lot: "1.80", f"job {job}": "0.20"}
    assert stockroom.json("cost", job)["total"] == "1.20"
    assert stockroom(*ON, "price", lot, "--cost", "12", "--why", "again").code == 1
    assert stockroom(*ON, "price", lot, "--cost", "-1", "--why", "again").code == 2
