"""The running page of a material, and losses of it that somebody must explain."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pdf_pages import pages_of


@pytest.fixture
def studio(stockroom: Any) -> Any:
    """Two bottles of ethanol, of which the studio keeps a register."""
    stockroom.on("2026-11-01", "receive", "ethanol", "2 x 1 L", "--cost", "20.00", "--lot-number", "E-77")
    stockroom.json("material", "edit", "ethanol", "--register")
    return stockroom


def losses(studio: Any, at: str = "2026-11-10") -> list[tuple[str, str]]:
    return [(one["code"], one["by"]) for one in studio.on(at, "due")["items"] if one["kind"] == "unexplained-loss"]


def test_every_gain_and_loss_is_a_line_with_what_is_left(studio: Any) -> None:
    """The last line is what the shelf holds."""
    studio.on("2026-11-01", "job", "new", "Sea chart")
    studio.on("2026-11-02", "take", "L001W", "50 mL", "--job", "Sea chart")
    taken = studio.on("2026-11-03", "take", "L002U", "100 mL", "--why", "cleaning")
    studio.on("2026-11-04", "undo", taken["action"], "--why", "mistyped")
    page = studio.on("2026-11-05", "register", "ethanol")
    assert [(one["lot"], one["amount"], one["left"]) for one in page["lines"]] == [
        ("L001W", "1000", "1000"),
        ("L002U", "1000", "2000"),
        ("L001W", "-50", "1950"),
        ("L002U", "-100", "1850"),
        ("L002U", "100", "1950"),
    ]
    assert page["lines"][2]["words"] == "J001R" and page["lines"][3]["words"] == "studio use; cleaning"
    assert page["lines"][4]["words"].startswith(f"takes {taken['action']} back")
    assert page["lines"][0]["words"] == "maker's lot E-77"
    assert page["left"] == {"amount": "1950", "unit": "mL"}


def test_an_earlier_part_is_brought_forward(studio: Any) -> None:
    studio.on("2026-11-02", "take", "L001W", "50 mL", "--why", "test")
    page = studio.on("2026-11-05", "register", "ethanol", "--since", "2026-11-02", "--until", "2026-11-02")
    assert page["brought_forward"]["amount"] == "2000" and len(page["lines"]) == 1
    assert studio("register", "ethanol", "--since", "2026-11-05", "--until", "2026-11-01").code == 2


def test_a_loss_without_a_reason_is_due_at_once_until_it_is_explained(studio: Any) -> None:
    action = studio.on("2026-11-10", "count", "L001W", "900 mL")["action"]
    assert losses(studio) == [("L001W", "2026-11-10")]
    assert studio("register", "ethanol", "--explain", action).code == 2
    other = studio.on("2026-11-10", "count", "L002U", "1000 mL")["action"]
    refused = studio("register", "ethanol", "--explain", other, "--why", "x")
    assert refused.code == 1 and "left no loss" in refused.err
    assert losses(studio) == [("L001W", "2026-11-10")]
    told = studio.json("register", "ethanol", "--explain", action, "--why", "a bottle was dropped, reported")
    assert [(one["lot"], one["amount"]) for one in told["explained"]] == [("L001W", "100")]
    assert losses(studio) == []
    (kept,) = studio.json("register", "ethanol")["explained"]
    assert (kept["action"], kept["reason"], kept["by"]) == (action, "a bottle was dropped, reported", "AB")


@pytest.mark.parametrize("reason", ["unknown", None])
def test_unknown_explains_nothing_and_other_reasons_do(studio: Any, reason: str | None) -> None:
    studio.on("2026-11-09", "count", "L002U", "990 mL", "--why", "measured short")
    assert losses(studio) == []
    studio.on("2026-11-10", "count", "L001W", "900 mL", *(["--why", reason] if reason else []))
    assert losses(studio) == [("L001W", "2026-11-10")]


def test_what_was_found_again_undone_or_booked_late_is_missing_no_more(studio: Any) -> None:
    """A late use comes out of the unexplained loss; undoing the count takes it away."""
    counted = studio.on("2026-11-10", "count", "L001W", "900 mL")["action"]
    studio.on("2026-11-11", "take", "L001W", "60 mL", "--why", "test", "--day", "2026-11-08")
    assert studio.on("2026-11-11", "register", "ethanol")["unexplained"][0]["amount"] == "40"
    studio.on("2026-11-11", "take", "L001W", "40 mL", "--why", "test", "--day", "2026-11-08")
    assert losses(studio, "2026-11-11") == []
    other = studio.on("2026-11-12", "count", "L002U", "900 mL")["action"]
    assert losses(studio, "2026-11-12") == [("L002U", "2026-11-12")]
    studio.on("2026-11-12", "undo", other, "--why", "mistyped")
    assert losses(studio, "2026-11-12") == []
    assert counted


def test_what_is_under_no_register_is_not_due_and_its_page_says_so(studio: Any) -> None:
    studio.json("material", "edit", "ethanol", "--no-register")
    studio.on("2026-11-10", "count", "L001W", "900 mL")
    assert losses(studio) == []
    assert "keeps no register of it" in studio("register", "ethanol").out
    assert studio.json("register")["materials"] == []
    studio.json("material", "edit", "ethanol", "--register")
    assert [one["key"] for one in studio.json("register")["materials"]] == ["ethanol"]


def test_the_page_prints_with_room_to_sign(studio: Any, tmp_path: Path) -> None:
    path = tmp_path / "register.pdf"
    studio.json("register", "ethanol", "--out", str(path))
    (page,) = pages_of(path)
    assert "Register: Ethanol" in page and "L002U" in page and "Seen and found right" in page


def test_what_one_round_of_counting_found_missing_is_explained_material_by_material(studio: Any) -> None:
    """Acetone of the same round stays due when ethanol is explained, both bottles at once."""
    other = studio.on("2026-11-01", "receive", "acetone", "1 L", "--cost", "9.00", "--place", "shelf")["code"]
    studio.json("material", "edit", "acetone", "--register")
    for lot in ("L001W", "L002U"):
        studio.on("2026-11-02", "move", lot, "--to", "shelf")
    begun = studio.on(
        "2026-11-10",
        "stock-take",
        "shelf",
        "--seen",
        "L001W=900 mL",
        "--seen",
        "L002U=950 mL",
        "--seen",
        f"{other}=990 mL",
        "--confirm",
    )
    assert {lot for lot, _ in losses(studio)} == {"L001W", "L002U", other}
    told = studio.json("register", "ethanol", "--explain", begun["action"], "--why", "reported")
    assert [(one["lot"], one["amount"]) for one in told["explained"]] == [("L001W", "100"), ("L002U", "50")]
    assert losses(studio) == [(other, "2026-11-10")]
    assert [one["lot"] for one in studio.json("register", "ethanol")["explained"]] == ["L001W", "L002U"]


def test_a_register_of_a_solution_says_from_what_it_came(studio: Any) -> None:
    powder = studio.on("2026-11-01", "receive", "calcium-hydroxide", "100 g", "--cost", "5.00")["code"]
    studio.on("2026-11-02", "make", "calcium-hydroxide-saturated", "1 L")
    (line,) = studio.json("register", "calcium-hydroxide-solution")["lines"]
    assert (line["amount"], line["words"]) == ("1000", f"from {powder}")
