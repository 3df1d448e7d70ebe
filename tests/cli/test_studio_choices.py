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


@pytest.mark.parametrize("more", [("--limit", "0"), ("--limit", "100 %"), ("--limit", "-5"), ("--refills", "some"), ()])
def test_what_is_no_choice_is_refused_and_changes_nothing(jar: CommandLine, more: tuple[str, ...]) -> None:
    before = jar.json("studio", "show")
    jar.json("studio", "edit", *more, code=2)
    assert jar.json("studio", "show") == before
