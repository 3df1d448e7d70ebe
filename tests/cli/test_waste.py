"""Waste cans, and throwing away into them."""

from __future__ import annotations

from typing import Any

import pytest

NOW = ("--on", "2026-11-25T14:10")


@pytest.fixture
def cans(stockroom: Any) -> Any:
    """Ethanol, peroxide, powder and tissue; a closed can for alcohol and a vented one for water."""
    for material, amount in (
        ("ethanol", "1 L"),
        ("hydrogen-peroxide-3", "500 mL"),
        ("calcium-hydroxide", "100 g"),
        ("blotter", "10 sheets"),
    ):
        stockroom.json(*NOW, "receive", material, amount, "--cost", "10.00")
    stockroom.json(*NOW, "waste-can", "new", "Alcohol waste", "--capacity", "300 mL")
    stockroom.json(*NOW, "waste-can", "new", "Watery waste", "--capacity", "2 L", "--vented")
    return stockroom


def discard(cans: Any, material: str, *more: str, code: int = 0) -> Any:
    lot = next(one["code"] for one in cans.json("shelf", material)["lots"] if one["material"] == material)
    return cans.json(*NOW, "discard", lot, *more, "--why", "left over", code=code)


def can(cans: Any, words: str = "alcohol") -> Any:
    return cans.json("waste-can", "show", words)


def test_a_can_keeps_what_went_in_when_how_much_and_from_which_lot(cans: Any) -> None:
    gone = discard(cans, "ethanol", "200 mL", "--to", "alcohol waste")
    shown = can(cans)
    assert (shown["amount"], shown["unit"], shown["capacity"], shown["vented"]) == ("200", "mL", "300", False)
    (poured,) = shown["contents"]
    assert (poured["code"], poured["amount"], poured["day"], poured["by"]) == (gone["code"], "200", "2026-11-25", "AB")
    assert gone["to"] == shown["code"]


def test_a_can_has_no_value_and_the_books_balance(cans: Any) -> None:
    """200 mL of a litre for 10.00 is 2.00, worked by hand: all of it waste."""
    assert discard(cans, "ethanol", "200 mL", "--to", "alcohol")["cost"] == "2.00"
    line = next(one for one in cans.json("shelf")["lots"] if one["code"] == can(cans)["code"])
    assert (line["value"], line["fit"]) == ("0.00", False)
    proved = cans.json("verify")
    assert (proved["problems"], proved["sums"]["wasted"]) == ([], "2.00")


def test_more_than_the_can_takes_is_refused_and_what_just_fills_it_is_not(cans: Any) -> None:
    refused = discard(cans, "ethanol", "301 mL", "--to", "alcohol", code=1)
    assert "takes 300 mL more" in refused["error"]["message"]
    discard(cans, "ethanol", "300 mL", "--to", "alcohol")
    assert can(cans)["nearly_full"] is True
    assert discard(cans, "ethanol", "1 mL", "--to", "alcohol", code=1)


def test_what_gives_off_gas_goes_into_a_vented_can_alone_unless_a_reason_is_given(cans: Any) -> None:
    """Oxygen comes off peroxide (2 H2O2 to O2): a closed can would burst."""
    refused = discard(cans, "hydrogen-peroxide-3", "20 mL", "--to", "alcohol", code=1)
    assert "not vented" in refused["error"]["message"]
    assert can(cans)["contents"] == []
    discard(cans, "hydrogen-peroxide-3", "20 mL", "--to", "watery")
    why = ("--all-the-same", "at once to the carrier")
    gone = discard(cans, "hydrogen-peroxide-3", "20 mL", "--to", "alcohol", *why)
    assert any(one["stops"] for one in gone["cautions"])


def test_pairs_are_looked_for_between_what_is_poured_and_what_is_in_the_can(cans: Any) -> None:
    """Peroxide and alcohol: an oxidiser with a fuel (AS 2243.10-2004, in a university's guide)."""
    discard(cans, "hydrogen-peroxide-3", "20 mL", "--to", "watery")
    refused = discard(cans, "ethanol", "20 mL", "--to", "watery", code=1)
    assert "fire" in refused["error"]["message"]


def test_a_solution_is_known_in_a_can_by_what_it_was_made_from(cans: Any) -> None:
    """Whatever a solution is called: half alcohol is a fuel to peroxide."""
    made = cans.json(*NOW, "make", "alcohol-water-50", "200 mL")
    cans.json(*NOW, "discard", made["code"], "50 mL", "--to", "watery", "--why", "left over")
    refused = discard(cans, "hydrogen-peroxide-3", "20 mL", "--to", "watery", code=1)
    assert "fire" in refused["error"]["message"]


def test_a_powder_takes_up_the_volume_of_its_solid_and_sheets_are_asked_for_it(cans: Any) -> None:
    """10 g at 2.211 g/mL are 4.5 mL, to the next millilitre 5."""
    discard(cans, "calcium-hydroxide", "10 g", "--to", "watery")
    assert can(cans, "watery")["amount"] == "5"
    assert "--room" in discard(cans, "blotter", "1 sheet", "--to", "watery", code=2)["error"]["message"]
    discard(cans, "blotter", "1 sheet", "--to", "watery", "--room", "50 mL")
    assert can(cans, "watery")["amount"] == "55"


@pytest.mark.parametrize("to", ["sink", "L999X", "", "waste"])
def test_a_place_for_waste_that_is_not_known_is_refused(cans: Any, to: str) -> None:
    message = discard(cans, "ethanol", "10 mL", "--to", to, code=2)["error"]["message"]
    assert "Alcohol waste" in message
    assert cans.json("verify")["sums"]["wasted"] == "0.00"


def test_the_drain_is_only_where_local_rules_allow(cans: Any) -> None:
    lot = cans.json("shelf", "ethanol")["lots"][0]["code"]
    ran = cans(*NOW, "discard", lot, "10 mL", "--to", "Drain", "--why", "rinse")
    assert ran.code == 0
    assert "Down the drain only where local rules allow it" in ran.out


def test_pouring_in_can_be_undone_and_leaves_the_can_in_use(cans: Any) -> None:
    gone = discard(cans, "ethanol", "200 mL", "--to", "alcohol")
    cans.json(*NOW, "undo", gone["action"], "--why", "mistyped")
    shown = can(cans)
    assert (shown["amount"], shown["contents"], shown["state"]) == ("0", [], "on the shelf")
    assert cans.json("verify")["problems"] == []


def test_a_collected_can_has_ended_takes_no_more_and_comes_back_by_undo(cans: Any) -> None:
    discard(cans, "ethanol", "200 mL", "--to", "alcohol")
    code = can(cans)["code"]
    ended = cans.json(*NOW, "waste-can", "collected", "alcohol", "--why", "licensed carrier")
    assert ended["state"] == "ended"
    assert [one["title"] for one in cans.json("waste-can", "list")["cans"]] == ["Watery waste"]
    assert can(cans, code)["ended_why"] == "collected: licensed carrier"
    assert discard(cans, "ethanol", "1 mL", "--to", code, code=1)
    assert cans.json(*NOW, "waste-can", "emptied", code, code=1)
    cans.json(*NOW, "undo", ended["action"], "--why", "another can")
    assert can(cans)["amount"] == "200"
    assert cans.json("verify")["problems"] == []


@pytest.mark.parametrize("how", ["collected", "emptied"])
def test_a_can_that_stayed_empty_ends_as_well_and_its_ending_can_be_undone(cans: Any, how: str) -> None:
    ended = cans.json(*NOW, "waste-can", how, "alcohol")
    assert ended["state"] == "ended"
    cans.json(*NOW, "undo", ended["action"], "--why", "mistyped")
    assert can(cans)["state"] == "on the shelf"
    assert cans.json("verify")["problems"] == []


def test_the_label_of_a_can_says_its_contents_and_the_hazards_of_all_that_is_in_it(cans: Any) -> None:
    """Ethanol: H225 and Danger, GHS02 (ECHA inventory); calcium hydroxide beside it: H318, H315."""
    why = ("--all-the-same", "test")
    discard(cans, "ethanol", "100 mL", "--to", "alcohol")
    discard(cans, "calcium-hydroxide", "10 g", "--to", "alcohol", *why)
    shown = can(cans)
    assert {words.split()[0] for words in shown["hazards"]} >= {"H225", "H318", "H315"}
    assert (shown["signal_word"], "GHS02" in shown["pictograms"]) == ("Danger", True)
    label = cans(*NOW, "label", shown["code"]).out
    for words in ("Alcohol waste", "contents:", "Ethanol 96 %", "Calcium hydroxide", "Danger", "H225", "begun"):
        assert words in label


def test_a_can_is_not_poured_out_nor_drawn_from(cans: Any) -> None:
    discard(cans, "ethanol", "100 mL", "--to", "alcohol")
    code = can(cans)["code"]
    assert "collected" in cans.json(*NOW, "discard", code, "--why", "full", code=1)["error"]["message"]
    assert cans.json(*NOW, "take", code, "10 mL", "--why", "cleaning", code=1)


@pytest.mark.parametrize("capacity", ["300", "0 mL", "-1 L", "5 g", "much"])
def test_a_can_needs_a_capacity_that_can_be(stockroom: Any, capacity: str) -> None:
    assert stockroom.json("waste-can", "new", "Acid waste", "--capacity", capacity, code=2)
    assert stockroom.json("waste-can", "list")["cans"] == []


def test_a_can_needs_words_on_it(stockroom: Any) -> None:
    assert stockroom.json("waste-can", "new", " ", "--capacity", "1 L", code=2)


def test_nothing_is_poured_into_a_can_before_it_was_begun(cans: Any) -> None:
    cans.json("--on", "2026-11-27", "waste-can", "new", "Later waste", "--capacity", "1 L")
    lot = cans.json("shelf", "ethanol")["lots"][0]["code"]
    late = ("discard", lot, "10 mL", "--to", "later", "--why", "swabs", "--day", "2026-11-26")
    assert "was begun on 2026-11-27" in cans.json("--on", "2026-11-28", *late, code=1)["error"]["message"]


def test_a_broken_bottle_says_first_what_to_do(cans: Any) -> None:
    """Common practice, no source."""
    lot = cans.json("shelf", "ethanol")["lots"][0]["code"]
    ran = cans(*NOW, "take", lot, "100 mL", "--why", "broken")
    lines = ran.out.splitlines()
    assert lines[0].startswith("  ! First keep others away")
    assert "broken glass" in ran.out
    assert cans.json(*NOW, "take", lot, "1 mL", "--why", "cleaning")["cautions"] == []


def test_what_a_can_holds_is_counted_like_any_lot_an_empty_one_too(cans: Any) -> None:
    """What somebody poured in without booking it is found, without value."""
    code = can(cans)["code"]
    assert cans.json(*NOW, "count", code, "50 mL")["difference"] == "50"
    discard(cans, "ethanol", "100 mL", "--to", "alcohol")
    assert can(cans)["amount"] == "150"
    cans.json(*NOW, "count", code, "140 mL")
    assert (can(cans)["amount"], cans.json("verify")["problems"]) == ("140", [])


@pytest.mark.parametrize("words", [("open",), ("check", "looks", "clear")])
def test_a_can_is_neither_opened_nor_checked(cans: Any, words: tuple[str, ...]) -> None:
    code = can(cans)["code"]
    refused = cans.json(*NOW, words[0], code, *words[1:], code=1)
    assert "is a waste can, not stock" in refused["error"]["message"]


def test_a_can_is_due_from_nine_tenths_on(cans: Any) -> None:
    """Nine tenths of 300 mL are 270 mL; common practice, no source."""
    discard(cans, "ethanol", "269 mL", "--to", "alcohol")
    assert [one for one in cans.json(*NOW, "due")["items"] if one["kind"] == "can-full"] == []
    discard(cans, "ethanol", "1 mL", "--to", "alcohol")
    (due,) = [one for one in cans.json(*NOW, "due")["items"] if one["kind"] == "can-full"]
    assert (due["code"], due["name"], due["by"]) == (can(cans)["code"], "Alcohol waste", "2026-11-25")
    assert due["why"].startswith("270 mL of 300 mL")
