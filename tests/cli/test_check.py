"""Checks of a jar and topping up, by command."""

from __future__ import annotations

from typing import Any

import pytest
from conftest import CommandLine


def titrate(jar: CommandLine, used: str, *more: str, on: str = "2026-01-05", code: int = 0) -> dict[str, Any]:
    return jar.json(
        "--on", on, "check", "L002U", "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", used, *more,
        code=code,
    )  # fmt: skip


def test_a_titration_at_a_middle_strength_is_saturated(jar: CommandLine) -> None:
    """BP, Calcium Hydroxide Solution: 1 mL of 0.1 M acid is 3.705 mg, so 10.8 mL on 25 mL are 1.60 g/L."""
    found = titrate(jar, "10.8 mL")
    assert found["strength"]["best"] == pytest.approx(1.60, abs=0.005)
    assert found["verdict"] == "saturated"
    percent = found["percent_of_saturation"]
    assert (percent["low"], percent["best"], percent["high"]) == (94, 98, 104)
    assert found["check_by"] == "2026-02-05"
    assert any("0.0203 mol/L: Bates, Bower and Smith 1956" in source for source in found["sources"])


def test_thirty_per_cent_less_is_weak_and_marks_the_jar(jar: CommandLine) -> None:
    found = titrate(jar, "7.56 mL")
    assert found["verdict"] == "weak"
    line = next(one for one in jar.json("--on", "2026-01-05", "shelf")["lots"] if one["code"] == "L002U")
    assert (line["fit"], line["why"]) == (False, "check: weak by titration on 2026-01-05")
    assert "remake" in {item["kind"] for item in jar.json("--on", "2026-01-05", "due")["items"]}
    titrate(jar, "10.8 mL", on="2026-01-06")
    assert next(one for one in jar.json("--on", "2026-01-06", "shelf")["lots"] if one["code"] == "L002U")["fit"]


def test_a_strength_whose_range_spans_the_limit_cannot_be_told(jar: CommandLine) -> None:
    """1.50 g/L (10.12 mL) at 22 °C is 88 to 98 % of saturation by the sources: both sides of 90 %."""
    before = jar.json("--on", "2026-01-05", "lot", "L002U")
    found = titrate(jar, "10.12 mL")
    assert found["verdict"] == "cannot tell"
    assert found["check_by"] == before["check_by"]
    assert found["unfit"] is None


def test_a_ph_cannot_decide_what_it_cannot_see(jar: CommandLine) -> None:
    """Bates, Bower and Smith 1956 (abstract): half the strength lowers the pH by only 0.28."""
    found = jar.json("--on", "2026-01-05", "check", "L002U", "ph", "12.35", "--error", "0.1", "--temperature", "25")
    assert found["verdict"] == "cannot tell"
    assert "titrate" in found["next"].lower()


def test_the_sample_is_drawn_in_the_same_action(jar: CommandLine) -> None:
    before = jar.json("--on", "2026-01-05", "lot", "L002U")["amount"]
    titrate(jar, "10.8 mL")
    assert float(before) - float(jar.json("--on", "2026-01-05", "lot", "L002U")["amount"]) == 25
    assert jar.json("verify")["problems"] == []


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--temperature", "140"), "140"),
        (("--temperature", "warm"), "not a temperature"),
    ],
)
def test_a_temperature_off_the_table_books_nothing(jar: CommandLine, more: tuple[str, ...], words: str) -> None:
    before = jar.json("lot", "L002U")
    failed = titrate(jar, "10.8 mL", *more, code=2)
    assert words in failed["error"]["message"]
    assert jar.json("lot", "L002U")["history"] == before["history"]


def test_a_sample_larger_than_the_jar_is_refused(jar: CommandLine) -> None:
    failed = jar.json(
        "--on", "2026-01-05", "check", "L002U", "titration", "--sample", "2 L", "--acid", "0.1 mol/L", "--used", "9 mL",
        code=2,
    )  # fmt: skip
    assert "more than" in failed["error"]["message"]


def test_a_reading_that_is_missing_is_asked_for(jar: CommandLine) -> None:
    failed = jar.json("check", "L002U", "titration", "--sample", "25 mL", code=2)
    assert "--acid" in failed["error"]["message"]


def test_looks_are_evidence_and_no_proof(jar: CommandLine) -> None:
    found = jar.json("--on", "2026-01-05", "check", "L002U", "looks", "film")
    assert found["verdict"] == "cannot tell"
    assert "below it" in found["next"]


def test_mould_is_never_passed_by_another_look(jar: CommandLine) -> None:
    jar.json("--on", "2026-01-02", "receive", "methyl-cellulose", "250 g", "--cost", "22")
    gel = jar.json("--on", "2026-01-03", "make", "methyl-cellulose-gel-5", "200 mL")["code"]
    assert jar.json("--on", "2026-01-05", "check", gel, "looks", "mould")["verdict"] == "unfit"
    jar.json("--on", "2026-01-06", "check", gel, "looks", "good")
    assert jar.json("--on", "2026-01-06", "lot", gel)["fit"] is False


def test_topping_up_begins_the_settling_anew_and_tells_the_solid_left(jar: CommandLine) -> None:
    """By hand: 4.75 g put in; 1.63 g/L saturate a litre and 0.6 L anew: about 2.1 g are left.

    At the worst 4.75 - 1.6 x 1.70 = 2.0 g and 1.70 g/L: less than two refills of 0.6 L, so one is sure.
    """
    jar.json("--on", "2026-01-06", "take", "L002U", "600 mL", "--why", "test")
    topped = jar.json("--on", "2026-01-06T13:00", "top-up", "L002U", "600 mL", "--temperature", "22")
    assert topped["amount"] == "1000"
    assert topped["ready_on"] == "2026-01-07T13:00"
    assert topped["solid_left"]["low"] <= 2.14 <= topped["solid_left"]["high"]
    assert topped["refills_left"] == 1
    assert topped["rewettings"] == 1
    line = next(one for one in jar.json("--on", "2026-01-06T14:00", "shelf")["lots"] if one["code"] == "L002U")
    assert not line["fit"]
    assert jar.json("verify")["problems"] == []


def test_without_solid_water_makes_it_weaker_by_the_mass_balance(jar: CommandLine) -> None:
    """5 % w/v in 200 mL with 50 mL of water more is 4 % w/v."""
    jar.json("--on", "2026-01-02", "receive", "methyl-cellulose", "250 g", "--cost", "22")
    gel = jar.json("--on", "2026-01-03", "make", "methyl-cellulose-gel-5", "200 mL")["code"]
    assert jar.json("--on", "2026-01-05", "top-up", gel, "50 mL")["strength"] == "4 % w/v"


def test_a_check_can_be_undone(jar: CommandLine) -> None:
    before = jar.json("--on", "2026-01-05", "lot", "L002U")
    booked = titrate(jar, "7.5 mL")
    jar.json("undo", booked["action"], "--why", "misread burette")
    after = jar.json("--on", "2026-01-05", "lot", "L002U")
    assert {**after, "history": None} == {**before, "history": None}
    assert jar.json("verify")["problems"] == []


def test_a_jars_page_tells_its_checks_and_its_solid(jar: CommandLine) -> None:
    """By hand: 4.75 g put in, 1.54 to 1.70 g dissolved in a litre at 22 °C: 3.0 to 3.2 g are left."""
    titrate(jar, "10.8 mL")
    page = jar.json("--on", "2026-01-05", "lot", "L002U")
    assert [one["verdict"] for one in page["checks"]] == ["saturated"]
    solid = page["solid"]["undissolved"]
    assert (solid["low"], solid["high"]) == (pytest.approx(3.05, abs=0.06), pytest.approx(3.21, abs=0.06))
    assert page["solid"]["temperature_assumed"] is False
    assert "undissolved" in jar("--on", "2026-01-05", "lot", "L002U").out


def test_the_label_tells_when_the_jar_was_made_and_topped_up(jar: CommandLine) -> None:
    jar.json("--on", "2026-01-06", "top-up", "L002U", "100 mL", "--temperature", "22")
    label = jar("label", "L002U").out
    assert "made 2026-01-03" in label
    assert "topped up 2026-01-06" in label


def test_a_jar_that_held_more_than_the_books_said_can_still_be_topped_up(jar: CommandLine) -> None:
    """By hand: 4.75 g put in; 1.2 L at 1.63 g/L take 1.96 g out, and half a litre anew 0.82 g: about 2.0 g are left."""
    jar.json("--on", "2026-01-05", "take", "L002U", "1.2 L", "--why", "test", "--count-first")
    topped = jar.json("--on", "2026-01-06", "top-up", "L002U", "500 mL", "--temperature", "22")
    assert topped["solid_left"]["low"] <= 1.97 <= topped["solid_left"]["high"]
    assert jar.json("verify")["problems"] == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("titration", "--sample", "25 mL", "--acid", "20 mol/L", "--used", "10.8 mL"), "cannot be"),
        (("titration", "--sample", "25 mL", "--acid", "0.1 g/L", "--used", "10.8 mL"), "mol/L"),
        (("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "-5 mL"), "negative"),
        (("titration", "--sample", "0 mL", "--acid", "0.1 mol/L", "--used", "5 mL"), "nothing"),
        (("titration", "--sample", "30 drops", "--acid", "0.1 mol/L", "--used", "1 mL"), "drops"),
        (("ph", "-1", "--error", "0.1", "--temperature", "25"), "negative"),
        (("ph", "15", "--error", "0.1", "--temperature", "25"), "0 to 14"),
        (("ph", "12.4", "--error", "0.1"), "--temperature"),
        (("ph", "12.4", "--error", "0.1", "--temperature", "-5"), "from 0 to 50"),
        (("conductivity", "-8", "--reference", "9", "--temperature", "22"), "negative"),
        (("looks", "purple"), "clear, film, cloudy, no solid"),
        (("reading", "-4"), "negative"),
    ],
)
def test_what_cannot_be_is_said_plainly_and_books_nothing(
    jar: CommandLine, arguments: tuple[str, ...], words: str
) -> None:
    before = jar.json("lot", "L002U")
    failed = jar.json("--on", "2026-01-05", "check", "L002U", *arguments, code=2)
    assert words in failed["error"]["message"]
    assert jar.json("lot", "L002U") == before
