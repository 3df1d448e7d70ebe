"""Whether media, inks and colours were tested before a treatment, as it is asked, answered and kept.

That some pigments, inks and dyes are harmed by alkali and bleach is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click
import pytest

NOW = ("--on", "2026-11-25T14:10")
JOB = "Botanical plates"


@pytest.fixture
def plates(stockroom: Any) -> Any:
    """Two people, calcium hydroxide solution, sheets, hypochlorite, and a job."""
    stockroom.json("person", "new", "CD", "C. Dahl")
    stockroom.json("material", "new", "Sodium hypochlorite", "--measured-by", "volume")
    for material, amount in (("calcium-hydroxide", "500 g"), ("sodium-hypochlorite", "1 L")):
        stockroom.json("--on", "2026-11-20", "--by", "AB", "receive", material, amount, "--cost", "5.00")
    for material in ("polyester-web-heavy", "blotter"):
        stockroom.json("--on", "2026-11-20", "--by", "AB", "receive", material, "50 sheets", "--cost", "5.00")
    stockroom.json("--on", "2026-11-21", "--by", "AB", "make", "calcium-hydroxide-saturated", "1 L")
    stockroom.json("job", "new", JOB, "--object", "Plate 1, 30 x 20 cm")
    return stockroom


def use(stockroom: Any, recipe: str, *more: str, code: int = 0) -> Any:
    return stockroom.json(*NOW, "--by", "AB", "use", recipe, "--job", JOB, *more, code=code)


def bath(stockroom: Any, folder: Path, key: str, head: str = "", line: str = "sodium-hypochlorite") -> str:
    """Add a bath of one liquid."""
    file = folder / f"{key}.toml"
    text = f'[recipe]\nkey = "{key}"\nname = "{key}"\nkind = "bath"\nbatch = "100 mL"\n{head}\n'
    file.write_text(f'{text}[[line]]\nmaterial = "{line}"\namount = "10 mL"\n', encoding="utf-8")
    stockroom.json("--by", "AB", "recipe", "new", "--from", str(file))
    return key


def told(stockroom: Any) -> list[dict[str, Any] | None]:
    return [one["media_test"] for one in stockroom.json("job", "show", JOB)["actions"]]


def test_who_tested_stands_in_the_record_with_their_initials(plates: Any) -> None:
    used = use(plates, "calcium-hydroxide-1-in-4", "--qty", "200 mL", "--tested", "cd")
    assert used["media_test"] == {"asked": "asked", "bath": "alkaline", "by": "CD", "not_tested": None}
    assert told(plates) == [{"by": "CD", "not_tested": None}]
    assert "media, inks and colours tested by CD" in plates("job", "show", JOB).out


def test_why_nobody_tested_stands_in_the_record(plates: Any) -> None:
    use(plates, "calcium-hydroxide-1-in-4", "--qty", "200 mL", "--not-tested", "blank paper")
    assert told(plates) == [{"by": None, "not_tested": "blank paper"}]
    assert "NOT tested: blank paper" in plates("job", "show", JOB).out


def test_a_wet_treatment_without_an_answer_says_so_and_the_record_too(plates: Any) -> None:
    ran = plates(*NOW, "--by", "AB", "use", "calcium-hydroxide-1-in-4", "--job", JOB, "--qty", "200 mL")
    assert (ran.code, "Nobody said whether media, inks and colours were tested" in ran.out) == (0, True)
    assert told(plates) == [{"by": None, "not_tested": None}]


def test_bleach_is_not_used_without_an_answer(plates: Any, tmp_path: Path) -> None:
    recipe = bath(plates, tmp_path, "bleaching-bath")
    refused = use(plates, recipe, code=1)
    assert "tested for this bleaching treatment? By whom?" in refused["error"]["message"]
    assert told(plates) == []
    assert use(plates, recipe, "--dry-run")["media_test"]["asked"] == "required"
    use(plates, recipe, "--why", "test sheet of the studio's own")
    use(plates, recipe, "--tested", "AB")
    kept = [{"by": None, "not_tested": "test sheet of the studio's own"}, {"by": "AB", "not_tested": None}]
    assert told(plates) == kept


@pytest.mark.parametrize(
    ("says", "asked"),
    [('media_test = "required"', "required"), ('media_test = "not asked"', "not asked"), ("", "asked")],
)
def test_what_a_recipe_says_goes_before_what_it_holds(plates: Any, tmp_path: Path, says: str, asked: str) -> None:
    recipe = bath(plates, tmp_path, "damping", says, "calcium-hydroxide-solution")
    assert use(plates, recipe, "--dry-run")["media_test"]["asked"] == asked
    assert use(plates, recipe, code=1 if asked == "required" else 0)
    shown = plates.json("recipe", "show", recipe)
    assert shown.get("media_test") == (asked if says else None)


def test_a_treatment_asks_what_the_strictest_of_its_baths_asks(plates: Any, tmp_path: Path) -> None:
    inner = bath(plates, tmp_path, "inner", 'media_test = "required"', "calcium-hydroxide-solution")
    outer = tmp_path / "outer.toml"
    outer.write_text(
        f'[recipe]\nkey = "outer"\nname = "Outer"\nkind = "treatment"\n[[line]]\nrecipe = "{inner}"\n', encoding="utf-8"
    )
    plates.json("--by", "AB", "recipe", "new", "--from", str(outer))
    assert use(plates, "outer", code=1)["error"]["message"].startswith("Media, inks and colours tested")


def test_what_stays_dry_is_not_asked_about(plates: Any) -> None:
    assert use(plates, "press-between-webs")["media_test"]["asked"] == "not asked"
    assert told(plates) == [None]


def test_what_a_jar_was_made_from_counts_whatever_it_is_called(plates: Any, tmp_path: Path) -> None:
    plates.json("material", "new", "Brightener", "--measured-by", "volume")
    stock = tmp_path / "stock.toml"
    stock.write_text(
        '[recipe]\nkey = "brightener"\nname = "Brightener"\nkind = "stock"\nmakes = "brightener"\nbatch = "100 mL"\n'
        '[[line]]\nmaterial = "sodium-hypochlorite"\namount = "10 mL"\n'
        '[[line]]\nmaterial = "deionised-water"\namount = "make up"\n',
        encoding="utf-8",
    )
    plates.json("--by", "AB", "recipe", "new", "--from", str(stock))
    plates.json(*NOW, "--by", "AB", "make", "brightener", "100 mL")
    assert "bleaching" in use(plates, bath(plates, tmp_path, "b", line="brightener"), code=1)["error"]["message"]


@pytest.mark.parametrize(
    ("more", "code"), [(("--tested", "ZZ"), 2), (("--tested", ""), 2), (("--tested", "AB", "--not-tested", "x"), 2)]
)
def test_initials_that_are_nobodys_and_two_answers_are_refused(plates: Any, more: tuple[str, ...], code: int) -> None:
    assert use(plates, "calcium-hydroxide-1-in-4", "--qty", "200 mL", *more, code=code)
    assert told(plates) == []


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("cd", [{"by": "CD", "not_tested": None}]),
        ("blank verso", [{"by": None, "not_tested": "blank verso"}]),
        ("", []),
    ],
)
def test_at_a_terminal_it_is_asked_and_without_an_answer_nothing_is_drawn(
    plates: Any, monkeypatch: pytest.MonkeyPatch, typed: str, kept: list[Any]
) -> None:
    asked: list[str] = []

    def answer(question: str, **_: Any) -> str:
        asked.append(question)
        return typed

    monkeypatch.setattr("stockroom.cli.use._at_a_terminal", lambda _: True)
    monkeypatch.setattr(click, "prompt", answer)
    ran = plates(*NOW, "--by", "AB", "use", "calcium-hydroxide-1-in-4", "--job", JOB, "--qty", "200 mL")
    assert ran.code == (0 if kept else 1)
    assert told(plates) == kept
    assert "alkaline" in asked[0]
    plates(*NOW, "--by", "AB", "use", "press-between-webs", "--job", JOB)
    assert len(asked) == 1
