"""What was wasted, by reason; and what each object of a job cost."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pdf_pages import pages_of

NOW = ("--on", "2026-11-28T10:00")


@pytest.fixture
def ethanol(stockroom: Any) -> str:
    """A litre for 10.00, so that a millilitre is a cent."""
    code: str = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "10.00", "--day", "2026-11-01")["code"]
    return code


def reasons(document: dict[str, Any]) -> dict[str, str]:
    return {one["reason"]: one["value"] for one in document["reasons"]}


def test_losses_are_told_by_reason_and_come_to_what_was_wasted(stockroom: Any, ethanol: str) -> None:
    stockroom.json(*NOW, "take", ethanol, "30 mL", "--why", "spilled", "--day", "2026-11-10")
    stockroom.json(*NOW, "take", ethanol, "20 mL", "--why", "spilled", "--day", "2026-11-20")
    stockroom.json(*NOW, "take", ethanol, "10 mL", "--why", "cleaning")
    stockroom.json(*NOW, "count", ethanol, "900 mL", "--why", "measured short")
    found = stockroom.json(*NOW, "losses")
    assert reasons(found) == {"spilled": "0.50", "measured short": "0.40"}
    assert found["reasons"][0]["lines"] == [
        {"material": "ethanol", "name": "Ethanol 96 %", "amount": "50", "unit": "mL", "value": "0.50"}
    ]
    assert found["total"] == stockroom.json("verify")["sums"]["wasted"] == "0.90"
    assert reasons(stockroom.json(*NOW, "losses", "--since", "2026-11-15", "--until", "2026-11-27")) == {
        "spilled": "0.20"
    }
    assert "0.50 EUR  spilled" in stockroom(*NOW, "losses").out


def test_a_loss_that_was_undone_is_none(stockroom: Any, ethanol: str) -> None:
    action = stockroom.json(*NOW, "take", ethanol, "30 mL", "--why", "spilled")["action"]
    stockroom.json(*NOW, "undo", action, "--why", "mistyped")
    assert (stockroom.json(*NOW, "losses")["reasons"], stockroom.json(*NOW, "losses")["total"]) == ([], "0.00")


@pytest.mark.parametrize("words", [("--since", "never"), ("--since", "2026-11-20", "--until", "2026-11-19")])
def test_days_that_cannot_be_meant_are_refused(stockroom: Any, words: tuple[str, ...]) -> None:
    assert stockroom(*NOW, "losses", *words).code == 2


@pytest.mark.parametrize("command", [("losses",), ("register", "ethanol")])
def test_a_first_day_still_to_come_is_refused_without_naming_what_nobody_typed(
    stockroom: Any, command: tuple[str, ...]
) -> None:
    refused = stockroom(*NOW, *command, "--since", "2026-12-01")
    assert refused.code == 2
    assert "2026-12-01 comes after 2026-11-28" in refused.err
    assert "--until" not in refused.err


def costs(stockroom: Any, job: str) -> dict[str | None, str]:
    return {one["object"]: one["cost"] for one in stockroom.json(*NOW, "cost", job)["objects"]}


def test_what_objects_shared_is_shared_by_their_area(stockroom: Any, ethanol: str) -> None:
    """By hand: 1,200 and 600 cm² share 30 mL for 0.30 as 0.20 and 0.10; what no object was stated for stands apart."""
    job = stockroom.json(*NOW, "job", "new", "C", "--object", "Large, 30 x 40 cm", "--object", "Small, 20 x 30 cm")[
        "code"
    ]
    both = ("--object", "Large", "--object", "Small")
    taken = stockroom.json(*NOW, "take", ethanol, "30 mL", "--job", job, *both)["action"]
    assert costs(stockroom, job) == {"Large": "0.20", "Small": "0.10"}
    stockroom.json(*NOW, "bring-back", taken, "15 mL")
    assert costs(stockroom, job) == {"Large": "0.10", "Small": "0.05"}
    stockroom.json(*NOW, "take", ethanol, "7 mL", "--job", job)
    assert costs(stockroom, job) == {"Large": "0.10", "Small": "0.05", None: "0.07"}
    assert stockroom.json(*NOW, "cost", job)["total"] == "0.22"
    assert "for the job, object not stated" in stockroom(*NOW, "cost", job).out
    shown = stockroom(*NOW, "job", "show", job).out
    assert "for Large, Small" in shown
    assert "for the job, object not stated" in shown


def test_without_every_area_it_is_shared_evenly_and_adds_up_to_the_cent(stockroom: Any, ethanol: str) -> None:
    job = stockroom.json(*NOW, "job", "new", "C", "--object", "One", "--object", "Two, 20 x 30 cm")["code"]
    stockroom.json(*NOW, "take", ethanol, "31 mL", "--job", job, "--object", "One", "--object", "Two")
    assert costs(stockroom, job) == {"One": "0.16", "Two": "0.15"}


def test_what_a_bath_left_unused_comes_off_the_objects_it_was_mixed_for(stockroom: Any) -> None:
    """By hand: a fill of 500 mL costs 0.50; 100 mL of it kept take 0.10 back."""
    stockroom.json(*NOW, "receive", "calcium-hydroxide-solution", "2 L", "--cost", "8.00")
    job = stockroom.json(*NOW, "job", "new", "C", "--object", "One", "--object", "Two")["code"]
    used = stockroom.json(
        *NOW, "use", "calcium-hydroxide-1-in-4", "--job", job, "--qty", "500 mL", "--object", "Two", "--tested", "AB"
    )
    stockroom.json(*NOW, "bring-back", used["action"], "100 mL")
    assert costs(stockroom, job) == {"One": "0.00", "Two": "0.40"}


def test_a_saturated_jar_that_was_carried_is_asked_after(jar: Any) -> None:
    jar.json("--on", "2026-01-10", "place", "new", "Bench")
    assert "Was L002U stirred up on the way?" in jar("--on", "2026-01-10", "move", "L002U", "--to", "Bench").out
    moved = jar("--on", "2026-01-10", "move", "L002U", "--to", "shelf", "--shaken").out
    assert "stirred up" not in moved
    assert "Settling again: L002U" in moved


def test_loans_and_what_stands_in_waste_cans_are_told_and_printed(stockroom: Any, ethanol: str, tmp_path: Path) -> None:
    stockroom.json(*NOW, "take", ethanol, "100 mL", "--why", "lent", "--to", "the workshop", "--back", "2026-12-01")
    can = stockroom.json(*NOW, "waste-can", "new", "Alcohol waste", "--capacity", "5 L")["code"]
    stockroom.json(*NOW, "discard", ethanol, "50 mL", "--to", "alcohol", "--why", "dirty")
    found = stockroom.json(*NOW, "losses")
    assert [(one["by"], "the workshop" in one["words"]) for one in found["loans"]] == [("2026-12-01", True)]
    (held,) = found["waste_cans"]
    assert (held["code"], held["amount"]) == (can, "50")
    assert [(one["name"], one["amount"], one["day"]) for one in held["holds"]] == [("Ethanol 96 %", "50", "2026-11-28")]
    assert f"{can} Alcohol waste, 50 mL of 5 L: 50 mL of Ethanol 96 % (2026-11-28)" in stockroom(*NOW, "losses").out
    path = tmp_path / "losses.pdf"
    stockroom.json(*NOW, "losses", "--out", str(path))
    (page,) = pages_of(path)
    for words in ("Losses, from the first day to 2026-11-28", "dirty", "0.50 EUR", "On loan now", "Alcohol waste"):
        assert words in page
