"""What is held on a day, with its warnings, safety sheets and worth."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pdf_pages import pages_of

STOCK = "calcium-hydroxide-saturated"


@pytest.fixture
def studio(stockroom: Any) -> Any:
    """Ethanol in a cupboard, powder and two jars on the bench, blotters in a chest."""
    for place in ("Cupboard", "Bench", "Chest"):
        stockroom.json("place", "new", place)
    stockroom.on("2026-11-01", "receive", "ethanol", "2 x 1 L", "--cost", "20.00", "--place", "Cupboard")
    stockroom.on("2026-11-01", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--place", "Bench")
    stockroom.on("2026-11-01", "receive", "blotter", "10 pieces", "--cost", "10.00", "--place", "Chest")
    stockroom.on("2026-11-02", "make", STOCK, "2 L", "--into", "2 x 1 L", "--place", "Bench")
    return stockroom


def held(studio: Any, *more: str, at: str = "2026-11-25") -> Any:
    return studio.on(at, "held", *more)


def by_code(found: Any) -> dict[str, Any]:
    return {one["code"]: one for one in found["containers"]}


def test_solutions_are_held_like_bottles_with_the_warning_of_their_own_entry(studio: Any) -> None:
    found = held(studio)
    jars = [one for one in found["containers"] if one["kind"] == "jar"]
    assert [(one["amount"], one["strength"], one["place"]) for one in jars] == [
        ("1000", "about 1.6 g/L (saturated)", "Bench")
    ] * 2
    assert any(words.startswith("H318") for words in jars[0]["hazards"])
    assert found["signal_word"] == "Danger" and set(found["pictograms"]) == {"GHS02", "GHS05", "GHS07"}


def test_totals_add_up_by_statement_and_place(studio: Any) -> None:
    """By hand: H318 stands on 500 g less 6 g of powder and on 2 L of its solution, H225 on 2 L of ethanol."""
    totals = {(one["code"], one["place"]): one for one in held(studio)["totals"]}
    powder_and_jars = totals["H318", "Bench"]
    assert powder_and_jars["containers"] == 3
    assert powder_and_jars["amounts"] == [{"amount": "494", "unit": "g"}, {"amount": "2000", "unit": "mL"}]
    assert totals["H225", "Cupboard"]["amounts"] == [{"amount": "2000", "unit": "mL"}]
    assert not [place for _, place in totals if place == "Chest"]


def test_a_past_day_tells_what_was_there_then(studio: Any) -> None:
    """Before the jars were made, before a bottle was moved, before another was emptied."""
    studio.on("2026-11-10", "move", "L001W", "--to", "Bench")
    studio.on("2026-11-12", "discard", "L002U", "--why", "cloudy")
    first = by_code(held(studio, "--on", "2026-11-01"))
    assert sorted(one["material"] for one in first.values()) == ["blotter", "calcium-hydroxide", "ethanol", "ethanol"]
    assert first["L001W"]["place"] == "Cupboard"
    assert "L002U" in by_code(held(studio, "--on", "2026-11-11"))
    now = by_code(held(studio))
    assert now["L001W"]["place"] == "Bench" and "L002U" not in now


def test_today_is_what_the_shelf_says(studio: Any) -> None:
    """The same lots, amounts, places and values, by the other question."""
    shelf = {one["code"]: one for one in studio.on("2026-11-25", "shelf")["lots"]}
    now = by_code(held(studio))
    assert set(shelf) == set(now)
    for code, one in now.items():
        assert all(one[name] == shelf[code][name] for name in ("amount", "unit", "place", "value"))


def test_only_one_place_or_one_hazard(studio: Any) -> None:
    assert {one["place"] for one in held(studio, "--place", "Cupboard")["containers"]} == {"Cupboard"}
    for words in ("H225", "GHS02", "highly flammable"):
        assert {one["material"] for one in held(studio, "--hazard", words)["containers"]} == {"ethanol"}
    assert held(studio, "--hazard", "H400")["containers"] == []
    assert studio("held", "--hazard", "H400").out.count("Nothing is held")
    assert studio("held", "--place", "attic").code == 2


@pytest.mark.parametrize("slip", ["flamable", "H522", "GHS2", "H2250", "fatal if swallowed"])
def test_a_mistyped_hazard_is_refused_and_never_reads_as_nothing_held(studio: Any, slip: str) -> None:
    answer = studio("held", "--hazard", slip)
    assert answer.code == 2 and slip in answer.err and "Nothing" not in answer.out


def test_words_of_a_hazard_that_another_place_carries_are_no_slip(studio: Any) -> None:
    assert held(studio, "--place", "Bench", "--hazard", "highly flammable")["containers"] == []
    assert held(studio, "--place", "Chest", "--hazard", "strong oxidiser")["containers"] == []


def test_a_jar_drawn_dry_and_a_waste_can_are_there(studio: Any) -> None:
    """Solid only is still calcium hydroxide in the house; a can warns of what is in it."""
    jar = next(one["code"] for one in held(studio)["containers"] if one["kind"] == "jar")
    studio.on("2026-11-20", "take", jar, "1 L", "--why", "test")
    can = studio.on("2026-11-20", "waste-can", "new", "Alcohol waste", "--capacity", "5 L", "--place", "Cupboard")
    studio.on("2026-11-21", "discard", "L001W", "100 mL", "--to", "alcohol", "--why", "used")
    found = by_code(held(studio))
    assert found[jar]["solid_only"] and found[jar]["amount"] == "0"
    waste = found[can["code"]]
    assert waste["strength"] == "contents: Ethanol 96 %" and waste["value"] == "0.00"
    assert any(words.startswith("H225") for words in waste["hazards"])


def test_sheets_that_are_missing_undated_or_old_are_named(studio: Any) -> None:
    def ethanol(*more: str) -> tuple[str | None, str | None, str | None]:
        (one,) = [one for one in held(studio, *more)["safety_sheets"] if one["material"] == "ethanol"]
        return one["file"], one["dated"], one["trouble"]

    assert {one["material"] for one in held(studio)["safety_sheets"]} == {"ethanol", "calcium-hydroxide"}
    assert ethanol() == (None, None, "missing")
    studio.json("material", "edit", "ethanol", "--safety-sheet", "sheets/ethanol.pdf")
    assert ethanol() == ("sheets/ethanol.pdf", None, "its date is not kept")
    studio.json("material", "edit", "ethanol", "--safety-sheet-date", "25 Nov 2023")
    assert ethanol() == ("sheets/ethanol.pdf", "2023-11-25", "3 years old or more")
    assert ethanol("--sheet-years", "4")[2] is None
    studio.json("material", "edit", "ethanol", "--safety-sheet-date", "2023-11-26")
    assert ethanol()[2] is None and "sheets/ethanol.pdf" in studio("held").out
    assert studio("material", "edit", "ethanol", "--safety-sheet-date", "03/04/2026").code == 2


def test_it_is_worth_what_it_cost_and_what_it_would_cost_again(studio: Any) -> None:
    """By hand: 42.50 paid; ethanol at 12.00 a litre is 24.00, the rest by the books 22.50."""
    assert held(studio)["value"] == "42.50"
    studio.json("supplier", "new", "Laboratory supplies", "--delivery-days", "5")
    studio.on("2026-11-03", "supplier", "offer", "laboratory", "ethanol", "1 L", "12.00")
    found = held(studio)
    assert (found["replacement"], found["without_offer"]) == ("46.50", "22.50")
    assert found["cost_incomplete"] is False
    studio.on("2026-11-04", "receive", "sodium-chloride", "1 kg", "--found")
    assert held(studio)["cost_incomplete"] is True and "at least 46.50" in studio("held").out


def test_the_page_for_the_door_is_read_back(studio: Any, tmp_path: Path) -> None:
    path = tmp_path / "door.pdf"
    held(studio, "--place", "Bench", "--out", str(path))
    pages = pages_of(path)
    for words in ("Held at Bench on 2026-11-25", "Danger", "Local rules", "H318 Causes serious eye damage", "494 g"):
        assert words in pages[0]


def test_a_day_to_come_is_refused(studio: Any) -> None:
    ran = studio("--on", "2026-11-25", "held", "--on", "2026-11-26")
    assert ran.code == 2 and "still to come" in ran.err
