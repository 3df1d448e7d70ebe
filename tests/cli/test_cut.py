"""Pieces cut to be used again: a lot that holds uses."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from conftest import CommandLine

NOW = ("--on", "2026-11-25T14:10")


@pytest.fixture
def sheets(stockroom: CommandLine) -> str:
    """Ten sheets of 70 x 100 cm for 70.00: a cent for 10 cm²."""
    received = stockroom.json(*NOW, "receive", "polyester-web-heavy", "10 sheets", "--cost", "70.00", "--as-one")
    return str(received["code"])


@pytest.fixture
def job(stockroom: CommandLine) -> str:
    return str(stockroom.json(*NOW, "job", "new", "Chart")["code"])


def proved(stockroom: CommandLine) -> Any:
    return stockroom.json("verify")["problems"]


def held(stockroom: CommandLine, code: str) -> tuple[str, str, str]:
    lot = stockroom.json(*NOW, "lot", code)
    return lot["amount"], lot["unit"], lot["value"]


def test_every_use_takes_its_share_and_the_last_one_ends_the_piece(
    stockroom: CommandLine, sheets: str, job: str
) -> None:
    """By hand: 40 x 50 cm is 2,000 cm² for 2.00; of three uses each takes 0.67, 0.66, 0.67."""
    web = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "3")
    assert (web["cost"], web["uses"], held(stockroom, web["code"])) == ("2.00", 3, ("3", "uses", "2.00"))
    assert held(stockroom, sheets) == ("68000", "cm2", "68.00")
    assert "3 uses, a piece of 40 x 50 cm" in stockroom(*NOW, "lot", web["code"]).out
    used = [stockroom.json(*NOW, "take", web["code"], "1 use", "--job", job) for _ in range(3)]
    assert [one["cost"] for one in used] == ["0.67", "0.66", "0.67"]
    assert [one["ended"] for one in used] == [False, False, True]
    assert stockroom.json("cost", job)["total"] == "2.00"
    assert proved(stockroom) == []


def test_a_piece_worn_out_early_is_discarded_and_the_rest_is_waste(
    stockroom: CommandLine, sheets: str, job: str
) -> None:
    web = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "4")["code"]
    stockroom.json(*NOW, "take", web, "1 use", "--job", job)
    gone = stockroom.json(*NOW, "discard", web, "--why", "worn out")
    assert (gone["ended"], gone["cost"]) == (True, "1.50")
    assert proved(stockroom) == []


def test_a_piece_that_lasts_longer_is_counted_up_without_value(stockroom: CommandLine, sheets: str, job: str) -> None:
    web = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "2")["code"]
    stockroom.json(*NOW, "take", web, "1 use", "--job", job)
    stockroom.json(*NOW, "count", web, "3 uses")
    assert held(stockroom, web) == ("3", "uses", "1.00")
    assert proved(stockroom) == []


def test_the_studios_limit_is_kept_for_the_next_piece(stockroom: CommandLine, sheets: str) -> None:
    ran = stockroom(*NOW, "cut", sheets, "40 x 50 cm")
    assert ran.code == 2 and "Say --uses N" in ran.err
    stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "8")
    assert stockroom.json(*NOW, "cut", sheets, "30 x 50 cm")["uses"] == 8
    assert stockroom.json(*NOW, "cut", sheets, "30 x 50 cm", "--uses", "5")["uses"] == 5
    assert stockroom.json(*NOW, "cut", sheets, "30 x 50 cm")["uses"] == 8


def test_several_pieces_and_an_offcut_of_one_sheet(stockroom: CommandLine, sheets: str) -> None:
    """By hand: two of 40 x 50 and the offcut of 70 x 50 leave 30 x 50 less 10 x 50 of trim to the pieces: 1.75 each."""
    cut = stockroom.json(
        *NOW, "cut", sheets, "35 x 45 cm", "--pieces", "2", "--uses", "4", "--keep-offcut", "70 x 50 cm"
    )
    assert [held(stockroom, code) for code in cut["codes"]] == [("4", "uses", "1.75")] * 2
    assert (cut["offcuts"][0]["value"], cut["cost"]) == ("3.50", "3.50")
    assert held(stockroom, sheets) == ("63000", "cm2", "63.00")
    assert proved(stockroom) == []


def test_a_treatment_draws_uses_of_what_is_cut(stockroom: CommandLine, sheets: str) -> None:
    web = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "10")
    recipe = stockroom.path.parent / "dry.toml"
    recipe.write_text(
        """
        [recipe]
        key = "dry"
        name = "Dry between webs"
        kind = "treatment"
        [[line]]
        material = "reusable-polyester-web-heavy"
        amount = "1 each"
        """,
        "utf-8",
    )
    stockroom.json("recipe", "new", "--from", str(recipe))
    job = stockroom.json(*NOW, "job", "new", "Ferns", "--object", "one", "--object", "two")["code"]
    used = stockroom.json(*NOW, "use", "dry", "--job", job)
    assert [(one["code"], one["amount"], one["unit"], one["cost"]) for one in used["drawn"]] == [
        (web["code"], "2", "uses", "0.40")
    ]


def test_undoing_makes_the_sheet_whole(stockroom: CommandLine, sheets: str) -> None:
    cut = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "3")
    stockroom.json(*NOW, "undo", cut["action"], "--why", "mistyped")
    assert held(stockroom, sheets) == ("70000", "cm2", "70.00")
    assert held(stockroom, cut["code"]) == ("0", "uses", "0.00")
    assert proved(stockroom) == []


def test_a_plan_books_nothing(stockroom: CommandLine, sheets: str) -> None:
    plan = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "3", "--dry-run")
    assert (plan["action"], plan["codes"], plan["cost"]) == (None, [None], "2.00")
    assert held(stockroom, sheets) == ("70000", "cm2", "70.00")


@pytest.mark.parametrize(
    ("size", "more", "message"),
    [
        ("40 x 50 cm", ["--uses", "0"], "good for"),
        ("40 x 50 cm", ["--uses", "3", "--pieces", "0"], "How many pieces"),
        ("40 cm", ["--uses", "3"], "by its two sides"),
        ("4 x 5 m", ["--uses", "3"], "Not enough"),
    ],
)
def test_what_cannot_be_cut_is_refused(
    stockroom: CommandLine, sheets: str, size: str, more: list[str], message: str
) -> None:
    ran = stockroom(*NOW, "cut", sheets, size, *more)
    assert ran.code in (1, 2) and message in ran.err
    assert held(stockroom, sheets) == ("70000", "cm2", "70.00")


def test_what_is_no_sheet_is_not_cut(stockroom: CommandLine) -> None:
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    assert stockroom(*NOW, "cut", code, "4 x 5 cm", "--uses", "3").code == 2


def test_a_piece_cut_from_an_old_sheet_is_not_told_as_not_used(stockroom: CommandLine) -> None:
    code = stockroom.json("--on", "2024-01-10", "receive", "polyester-web-heavy", "1 sheet", "--cost", "7.00")["code"]
    web = stockroom.json(*NOW, "cut", code, "40 x 50 cm", "--uses", "3")["material"]
    due = stockroom.json(*NOW, "due")["items"]
    assert [item["code"] for item in due if item["kind"] == "not-used"] == []
    late = stockroom.json("--on", "2027-12-01", "due")["items"]
    assert web in [item["code"] for item in late if item["kind"] == "not-used"]


def test_the_limit_is_edited_as_the_materials_pack(stockroom: CommandLine, sheets: str) -> None:
    web = stockroom.json(*NOW, "cut", sheets, "40 x 50 cm", "--uses", "8")["material"]
    stockroom.json("material", "edit", web, "--pack", "12 uses")
    assert stockroom.json(*NOW, "cut", sheets, "40 x 50 cm")["uses"] == 12


def test_where_uses_lack_one_is_to_be_cut_and_nothing_is_to_be_ordered(stockroom: Any, tmp_path: Path) -> None:
    on = ("--on", "2026-11-02T09:00")
    sheets = stockroom.json(*on, "receive", "polyester-web-light", "10 sheets", "--cost", "48")["code"]
    stockroom.json(*on, "cut", sheets, "40 x 50 cm", "--uses", "2")
    carry = tmp_path / "carry.toml"
    carry.write_text(
        '[recipe]\nkey = "carry"\nname = "Carry"\nkind = "treatment"\nsource = "of the tests"\n'
        '[[line]]\nmaterial = "reusable-polyester-web-light"\namount = "3 uses"\n[[step]]\nwords = "Carry it."\n',
        "utf-8",
    )
    stockroom.json(*on, "recipe", "new", "--from", str(carry))
    job = stockroom.json(*on, "job", "new", "Map", "--object", "Map, 30 x 40 cm")["code"]
    booked = stockroom(*on, "book", "carry", "--job", job, "--for", "2026-11-05").out
    assert "by Thu 2026-11-05  cut 2 uses" in booked and "stockroom cut" in booked
    assert "delivery" not in booked
    (due,) = [one for one in stockroom.json(*on, "due")["items"] if one["kind"] == "short"]
    assert "cut one" in due["why"] and "order" not in due["why"]
    assert stockroom.json(*on, "buy")["lines"] == []
    assert "cut one" in stockroom.json(*on, "use", "carry", "--job", job, code=1)["error"]["message"]
