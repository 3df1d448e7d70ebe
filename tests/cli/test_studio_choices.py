"""What the studio chooses for its saturated jars, and where each choice counts."""

from __future__ import annotations

import pytest
from conftest import CommandLine
from titrations import titrate

from stockroom.actions.studio_choices import DEFAULT_LIMIT
from stockroom.science.solubility import default_limit


def test_the_limit_that_serves_until_the_studio_chooses_is_the_tables() -> None:
    """90 % of saturation: common practice, no source."""
    assert default_limit().figure.best == DEFAULT_LIMIT
    assert default_limit().rows[0].verified == "common practice"


def test_the_studios_own_limit_decides_and_is_named_as_the_source(jar: CommandLine) -> None:
    """1.50 g/L at 22 °C is 88 to 98 % by the sources: on both sides of 90 %, all above 85 %."""
    assert titrate(jar, "10.12 mL")["verdict"] == "cannot tell"
    jar.json("--on", "2026-01-05", "studio", "edit", "--limit", "85 %", "--why", "enough for a weak bath")
    found = titrate(jar, "10.12 mL")
    assert found["verdict"] == "saturated"
    assert "limit of 85 %" in str(found["why"])
    assert any("chosen by the studio, AB" in source for source in found["sources"])  # type: ignore[attr-defined]


def test_a_choice_keeps_who_when_and_what_it_said_before(jar: CommandLine) -> None:
    jar.json("studio", "edit", "--limit", "85", "--refills", "never")
    jar.json("studio", "edit", "--refills", "any", "--why", "excess kept")
    shown = jar.json("studio", "show")
    assert (shown["limit_percent"], shown["refills_allowed"]) == (85, None)
    assert [(one["field"], one["was"], one["became"], one["by"]) for one in shown["edits"]] == [
        ("saturation_limit", None, "85", "AB"),
        ("refills_of_residue", None, "0", "AB"),
        ("refills_of_residue", "0", "any", "AB"),
    ]
    assert "excess kept" in shown["refills_source"]
    assert "85 % of saturation" in jar("studio", "show").out


@pytest.mark.parametrize(
    "more",
    [
        ("--limit", "0"),
        ("--limit", "100 %"),
        ("--limit", "-5"),
        ("--refills", "some"),
        (),
        ("--dates", "3/4/2026"),
        ("--dates", "25/11/2026"),
        ("--dates", "11.25"),
        ("--decimal-sign", ";"),
        ("--decimal-sign", ""),
    ],
)
def test_what_is_no_choice_is_refused_and_changes_nothing(jar: CommandLine, more: tuple[str, ...]) -> None:
    before = jar.json("studio", "show")
    jar.json("studio", "edit", *more, code=2)
    assert jar.json("studio", "show") == before


@pytest.mark.parametrize(
    ("dates", "sign", "chosen"),
    [
        ("day-first", "comma", ("day-first", "comma")),
        ("Day first", ",", ("day-first", "comma")),
        ("24.12.2026", ".", ("day-first", "point")),
        ("2026-12-24", "point", ("year-first", "point")),
    ],
)
def test_how_dates_and_numbers_stand_on_the_screens_is_chosen_in_words_or_by_example(
    jar: CommandLine, dates: str, sign: str, chosen: tuple[str, str]
) -> None:
    before = jar.json("studio", "show")
    assert (before["dates"], before["decimal_sign"]) == ("year-first", "point")
    jar.json("studio", "edit", "--dates", dates, "--decimal-sign", sign, "--why", "as we write")
    shown = jar.json("studio", "show")
    assert (shown["dates"], shown["decimal_sign"]) == chosen
    assert [(one["field"], one["became"]) for one in shown["edits"]] == [
        ("dates_on_screen", chosen[0]),
        ("decimal_sign", chosen[1]),
    ]
    assert "as we write" in shown["dates_source"]


def test_answers_of_the_command_line_keep_their_form_and_what_is_typed_is_read_in_both(jar: CommandLine) -> None:
    before = jar("lot", "L002U").out
    jar.json("studio", "edit", "--dates", "day-first", "--decimal-sign", "comma")
    assert jar("lot", "L002U").out == before
    typed = [
        jar.json("--on", on, "take", "L002U", amount, "--why", "test", "--dry-run")
        for on, amount in (("2026-01-05", "1.5 mL"), ("05.01.2026", "1,5 mL"))
    ]
    assert typed[0] == typed[1]
    top_up = ("--on", "06.01.2026", "top-up", "L002U", "1,5 mL", "--hardness", "12,5", "--dry-run")
    assert jar(*top_up).code == jar("buy", "--order-cost", "4,50", "--keeping", "12,5 %").code == 0
