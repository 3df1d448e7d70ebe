"""What the studio chooses for its saturated jars, and where each choice counts."""

from __future__ import annotations

from decimal import Decimal

import pytest
from conftest import CommandLine

from stockroom.actions.studio_choices import DEFAULT_LIMIT
from stockroom.science.solubility import default_limit


def titrate(jar: CommandLine, used: str, on: str = "2026-01-05") -> dict[str, object]:
    return jar.json(
        "--on", on, "check", "L002U", "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", used,
        "--temperature", "22",
    )  # fmt: skip


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


def test_a_jar_over_time_is_told_in_plain_values(jar: CommandLine) -> None:
    """By hand: 10.8 and 10.0 mL on 25 mL are 1.60 and 1.48 g/L; 1000 mL less two samples are 950 mL."""
    from stockroom.actions.jar_history import jar_history
    from stockroom.store.open import open_store

    titrate(jar, "10.8 mL")
    titrate(jar, "10.0 mL", "2026-02-05")
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
    assert Decimal(found.refill.quanta) == 1_000_000
