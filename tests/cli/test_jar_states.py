"""How a jar over solid stands: settling again, shaken at a temperature, its solid watered again, its sources."""

from __future__ import annotations

from typing import Any

import pytest
from conftest import CommandLine
from titrations import JAR, titrate


def due(jar: CommandLine, on: str, kind: str) -> list[str]:
    items = jar.json("--on", on, "due")["items"]
    return [one["why"] for one in items if one["kind"] == kind and one["code"] == JAR]


def page(jar: CommandLine, on: str, *more: str) -> dict[str, Any]:
    return jar.json("--on", on, "lot", JAR, *more)


def top_up(jar: CommandLine, on: str, *more: str, code: int = 0) -> dict[str, Any]:
    jar.json("--on", f"{on}T09:00", "take", JAR, "300 mL", "--why", "test")
    return jar.json("--on", f"{on}T10:00", "top-up", JAR, "300 mL", "--temperature", "22", *more, code=code)


def test_a_jar_just_made_is_not_ready_and_one_disturbed_since_is_settling(jar: CommandLine) -> None:
    assert due(jar, "2026-01-03", "not-ready") and not due(jar, "2026-01-03", "settle")
    jar.json("--on", "2026-01-06T10:00", "move", JAR, "--to", "refrigerator", "--shaken")
    assert "carried on 2026-01-06" in due(jar, "2026-01-06T11:00", "settle")[0]
    assert not due(jar, "2026-01-08", "settle")
    top_up(jar, "2026-01-09")
    assert "topped up on 2026-01-09" in due(jar, "2026-01-09T12:00", "settle")[0]
    jar.json("--on", "2026-01-12T10:00", "check", JAR, "looks", "cloudy")
    assert "cloudy on 2026-01-12" in due(jar, "2026-01-12T11:00", "settle")[0]


@pytest.mark.parametrize("after", ["shaking", "carrying", "warming"])
def test_what_happened_to_a_jar_is_booked_and_it_settles_again(jar: CommandLine, after: str) -> None:
    done = jar.json("--on", "2026-01-06T10:00", "settle", JAR, "--after", after)
    assert done["ready_on"] == "2026-01-07T10:00"
    assert not page(jar, "2026-01-06T11:00")["fit"]
    assert len(due(jar, "2026-01-06T11:00", "settle")) == 1
    jar.json("--on", "2026-01-06T11:00", "undo", done["action"], "--why", "another jar")
    assert page(jar, "2026-01-06T12:00")["fit"]
    assert jar.json("verify")["problems"] == []


def test_strength_follows_the_temperature_at_which_the_jar_was_last_shaken(jar: CommandLine) -> None:
    """Warmer water holds less: 1.65 to 1.73 g/L at 20 °C and 1.53 to 1.60 at 30 °C by the two families (science)."""
    before = page(jar, "2026-01-05")["solid"]
    assert before["celsius"] == 22
    jar.json("--on", "2026-01-06", "settle", JAR, "--after", "shaking", "--temperature", "30")
    after = page(jar, "2026-01-08")["solid"]
    assert after["celsius"] == 30
    assert after["undissolved"]["best"] > before["undissolved"]["best"]
    titrate(jar, "11 mL", "--shaken", on="2026-01-09")
    assert page(jar, "2026-01-09")["solid"]["celsius"] == 22


@pytest.mark.parametrize(
    ("celsius", "state", "words"),
    [("28", "warmed", "supersaturated"), ("15", "cooled", "not stronger"), ("22", "as settled", "")],
)
def test_how_a_jar_stands_at_a_temperature_now(jar: CommandLine, celsius: str, state: str, words: str) -> None:
    standing = page(jar, "2026-01-05", "--temperature", celsius)["standing"]
    assert standing["state"] == state
    assert words in standing["why"]
    assert any("Bates" in source for source in standing["sources"])
    assert state in jar("--on", "2026-01-05", "lot", JAR, "--temperature", celsius).out


def test_a_temperature_off_the_table_is_refused(jar: CommandLine) -> None:
    assert "140" in jar.json("lot", JAR, "--temperature", "140", code=2)["error"]["message"]


def test_solid_watered_again_more_often_than_the_studio_allows_is_suspect(jar: CommandLine) -> None:
    """USP, Calcium Hydroxide Topical Solution: the undissolved portion is not suitable for making more of it."""
    jar.json("studio", "edit", "--refills", "1")
    assert top_up(jar, "2026-01-06")["rewettings"] == 1
    assert not due(jar, "2026-01-08", "suspect-residue")
    refused = top_up(jar, "2026-01-09", code=1)
    assert "at most 1" in refused["error"]["message"] and "--why" in refused["error"]["message"]
    again = jar.json("--on", "2026-01-09T11:00", "top-up", JAR, "300 mL", "--temperature", "22", "--why", "none left")
    assert any("Suspect" in caution and "USP" in caution for caution in again["cautions"])
    assert "watered again 2 times" in due(jar, "2026-01-11", "suspect-residue")[0]
    solid = page(jar, "2026-01-11")["solid"]
    assert (solid["suspect"], solid["rewettings"], solid["refills_allowed"]) == (True, 2, 1)
    assert "SUSPECT" in jar("--on", "2026-01-11", "lot", JAR).out
    titrate(jar, "10.8 mL", on="2026-01-11")
    assert not due(jar, "2026-01-11", "suspect-residue")


def test_until_the_studio_chooses_refills_are_counted_and_said(jar: CommandLine) -> None:
    again = top_up(jar, "2026-01-06")
    assert any("has not chosen" in caution for caution in again["cautions"])
    assert not due(jar, "2026-01-08", "suspect-residue")


def test_what_a_titration_left_open_is_due_until_it_is_shaken_and_titrated_again(jar: CommandLine) -> None:
    titrate(jar, "10.12 mL", on="2026-01-05")
    assert "no rise means saturated" in due(jar, "2026-01-06", "settle")[0]
    titrate(jar, "10.12 mL", "--shaken", on="2026-01-07")
    assert not due(jar, "2026-01-07", "settle")


def test_every_reference_value_of_a_check_stands_on_the_jars_page(jar: CommandLine) -> None:
    booked = titrate(jar, "10.8 mL", on="2026-01-05")
    told = page(jar, "2026-01-05")["checks"][0]
    assert told["sources"] == booked["sources"]
    assert told["percent_of_saturation"] == booked["percent_of_saturation"]
    assert told["celsius"] == 22
    out = jar("--on", "2026-01-05", "lot", JAR, "--sources").out
    assert all(source in out for source in booked["sources"])
    assert "limit     90 % of saturation" in out
    assert f"{len(booked['sources'])} reference values" in jar("--on", "2026-01-05", "lot", JAR).out


def test_only_what_is_kept_over_solid_settles(stockroom: CommandLine) -> None:
    stockroom.json("receive", "ethanol", "1 L", "--cost", "9")
    assert "not kept over solid" in stockroom.json("settle", "L001W", "--after", "shaking", code=1)["error"]["message"]
    assert "shaking, carrying, warming" in stockroom.json("settle", "L001W", "--after", "x", code=2)["error"]["message"]


def test_a_jar_that_is_weak_is_not_topped_up_without_a_reason(jar: CommandLine) -> None:
    titrate(jar, "7.5 mL", on="2026-01-05")
    before = page(jar, "2026-01-05")
    refused = jar.json("--on", "2026-01-06", "top-up", JAR, "20 mL", code=1)
    assert "titrate again" in refused["error"]["message"]
    assert page(jar, "2026-01-05") == before
    assert jar.json("--on", "2026-01-06", "top-up", JAR, "20 mL", "--why", "for rinsing trays")["action"]


def test_a_jar_that_was_topped_up_is_no_fresh_reference(jar: CommandLine) -> None:
    top_up(jar, "2026-01-06")
    refused = jar.json(
        "--on", "2026-01-08", "check", JAR, "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "11 mL",
        "--own-reference", code=2,
    )  # fmt: skip
    assert "fresh" in refused["error"]["message"]


def test_the_days_of_a_jar_name_what_set_them(jar: CommandLine) -> None:
    out = jar("--on", "2026-01-05", "lot", JAR).out
    assert "use by    2027-01-03 (keeps: 12 months)" in out
    assert "check by  2026-02-03 (its recipe: every 1 month)" in out
    assert "ready     2026-01-04, 12:00 (its recipe: after 24 h)" in out


def test_a_strength_that_leaves_the_limit_open_is_labelled_as_measured(jar: CommandLine) -> None:
    titrate(jar, "10.12 mL", on="2026-01-05")
    assert page(jar, "2026-01-05")["strength"] == "about 1.50 g/L (measured, 2026-01-05)"


def test_a_jar_over_time_is_told_in_plain_values(jar: CommandLine) -> None:
    """By hand: 10.8 and 10.0 mL on 25 mL are 1.60 and 1.48 g/L; 1000 mL less two samples are 950 mL."""
    from stockroom.actions.jar_history import jar_history
    from stockroom.store.open import open_store

    titrate(jar, "10.8 mL", on="2026-01-05")
    titrate(jar, "10.0 mL", on="2026-02-05")
    jar.json("--on", "2026-02-05", "check", "L002U", "looks", "clear")
    with open_store(jar.path) as store:
        found = jar_history(store, "L002U")
    measured = [one for one in found.checks if one.strength and one.percent]
    assert [(one.day, one.celsius) for one in measured] == [("2026-01-05", 22), ("2026-02-05", 22)]
    assert [one.strength.best for one in measured if one.strength] == pytest.approx([1.60, 1.48], abs=0.005)
    assert all(one.percent.low < one.percent.best < one.percent.high for one in measured if one.percent)
    assert [(one.what, one.holds.quanta) for one in found.levels] == [
        ("make", 1_000_000), ("check", 975_000), ("check", 950_000),
    ]  # fmt: skip
    assert (found.limit_percent, found.use_by, found.check_by) == (90, "2027-01-03", "2026-02-05")
    assert found.saturation is not None and found.saturation.low < 1.6 < found.saturation.high
    assert found.refills_left is not None and found.refill is not None
    assert found.rewettings == 0
    assert any("Bates" in source for source in found.sources)
    assert found.refill.quanta == 1_000_000


@pytest.mark.parametrize(("celsius", "words"), [("28", "warmed since"), ("15", "cooled since"), ("22.5", None)])
def test_a_titration_at_another_temperature_than_the_jar_settled_at_says_so(
    jar: CommandLine, celsius: str, words: str | None
) -> None:
    check = ("check", JAR, "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.8 mL")
    cautions = jar.json("--on", "2026-01-05", *check, "--temperature", celsius)["cautions"]
    assert any("settled at 22 °C" in caution for caution in cautions) is (words is not None)
    assert words is None or any(words in caution for caution in cautions)
    shaken = jar.json("--on", "2026-01-06", *check, "--temperature", celsius, "--shaken")["cautions"]
    assert not any("By the books" in caution for caution in shaken)


def test_solid_that_is_seen_is_held_against_the_books(jar: CommandLine) -> None:
    """5 g of 95 % less what a litre and the refills dissolve: three refills of 950 mL leave none."""
    found = jar.json("--on", "2026-01-05", "check", JAR, "looks", "no solid")
    assert "should lie undissolved" in found["why"]
    assert "books" not in jar.json("--on", "2026-01-05", "check", JAR, "looks", "clear")["why"]
    for day in ("2026-01-06", "2026-01-08", "2026-01-10"):
        jar.json("--on", day, "take", JAR, "950 mL", "--why", "test")
        jar.json("--on", f"{day}T13:00", "top-up", JAR, "950 mL", "--temperature", "22")
    assert "may be carbonate" in jar.json("--on", "2026-01-12", "check", JAR, "looks", "clear")["why"]


def test_another_limit_moves_the_day_on_which_a_falling_strength_is_due(jar: CommandLine) -> None:
    """By hand: 0.2 mL in ten days; from 90 to 95 % of saturation is about 0.55 mL, so the day comes a month earlier."""
    for used, day in (("10.9 mL", "2026-01-06"), ("10.7 mL", "2026-01-16"), ("10.5 mL", "2026-01-26")):
        titrate(jar, used, on=day)

    def day_due() -> str:
        items = jar.json("--on", "2026-01-26", "due", "--within", "120")["items"]
        return next(str(one["by"]) for one in items if one["kind"] == "remake")

    before = day_due()
    jar.json("studio", "edit", "--limit", "94 %")
    assert day_due() < before
    assert any("94 % of saturation" in why for why in due(jar, "2026-02-10", "remake"))


def test_a_topping_up_that_uses_the_solid_up_is_not_called_saturated(jar: CommandLine) -> None:
    """5 g of 95 % are 4.75 g: in a litre and four more 0.95 g/L, little more than half of saturation."""
    done = jar.json("--on", "2026-01-05", "top-up", JAR, "4 L", "--temperature", "22 °C")
    assert done["verdict"].startswith("weak: no solid is left")
    assert done["strength"] == "about 0.95 g/L (by the balance, not saturated)"
    shown = jar.json("--on", "2026-01-05", "lot", JAR)
    assert shown["strength"] == done["strength"]


def test_a_topping_up_that_leaves_solid_is_saturated_as_the_recipe_says(jar: CommandLine) -> None:
    done = jar.json("--on", "2026-01-05", "top-up", JAR, "500 mL", "--temperature", "22 °C")
    assert done["strength"] == "about 1.6 g/L (saturated)"


def test_an_overdue_check_says_that_the_choice_is_the_studios(jar: CommandLine) -> None:
    def why(on: str) -> str:
        (item,) = [one for one in jar.json("--on", on, "due")["items"] if one["kind"] == "check"]
        return str(item["why"])

    assert "still offered" not in why("2026-02-03")
    assert "the studio's choice" in why("2026-02-04")


@pytest.mark.parametrize(
    "words",
    [
        ("check", JAR, "looks", "clear"),
        ("top-up", JAR, "50 mL"),
        ("settle", JAR, "--after", "shaking"),
    ],
)
def test_a_plan_says_that_nothing_was_booked(jar: CommandLine, words: tuple[str, ...]) -> None:
    on = ("--on", "2026-01-05")
    before = jar.json(*on, "verify")["last_seal"]
    assert "nothing was booked" in jar(*on, *words, "--dry-run").out
    assert jar.json(*on, "verify")["last_seal"] == before


def test_a_check_that_fails_says_that_the_jar_is_not_to_be_used(jar: CommandLine) -> None:
    titration = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "7.56 mL", "--temperature", "22")
    told = jar("--on", "2026-01-05", "check", JAR, *titration).out
    assert "WEAK" in told and "not to be used" in told and "check by" not in told


def test_water_beyond_what_the_jar_ever_held_is_asked_about(jar: CommandLine) -> None:
    jar.json("--on", "2026-01-05", "take", JAR, "100 mL", "--why", "test")
    usual = jar.json("--on", "2026-01-05", "top-up", JAR, "100 mL")
    assert not any("never held more" in one for one in usual["cautions"])
    more = jar.json("--on", "2026-01-07", "top-up", JAR, "5 L")
    assert more["cautions"][0].startswith("It never held more than 1 L: is 6 L right?")


def test_the_page_of_a_jar_says_first_whether_and_how_long_it_serves(jar: CommandLine) -> None:
    heads = [line[2:12].strip() for line in jar("--on", "2026-01-05", "lot", JAR).out.splitlines()[1:5]]
    assert heads == ["holds", "fit", "strength", "remake"]


def test_a_bottle_that_went_into_many_jars_tells_them_in_one_line(jar: CommandLine) -> None:
    jar.json("--on", "2026-01-04", "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    (line,) = [line for line in jar("lot", "L001W").out.splitlines() if "went into" in line]
    assert line.startswith("  went into Calcium hydroxide solution: 5 g in L002U, 3 g in ")
    assert line.count(" in ") == 3


def test_refills_left_are_reckoned_for_water_as_hard_as_the_last(jar: CommandLine) -> None:
    """Ca(HCO3)2 + Ca(OH)2 = 2 CaCO3 + 2 H2O: 74.093 g are used up for 100.087 g of hardness (computed)."""
    jar.json("--on", "2026-01-05", "make", "calcium-hydroxide-saturated", "1 L", "--took", "calcium-hydroxide=10 g")
    (code,) = [lot["code"] for lot in jar.json("shelf", "hydroxide solution")["lots"] if lot["code"] != JAR]
    jar.json("--on", "2026-01-06", "take", code, "500 mL", "--why", "test")
    water = ("top-up", code, "500 mL", "--temperature", "22", "--hardness", "500")
    done = jar.json("--on", "2026-01-07", *water)
    strength = jar.json("calc", "saturated", "calcium-hydroxide", "--temperature", "22")["g_per_l"]["best"]
    litre = strength + 0.5 * 74.093 / 100.087
    assert done["refills"]["best"] == pytest.approx(done["solid_left"]["best"] / (litre / 2), abs=0.15)
