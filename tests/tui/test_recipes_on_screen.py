"""Recipes on screen: written line by line beside a trial batch, copied, changed and compared."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.widgets import TextArea

from stockroom.actions.recipe_writing import write_again
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_files import read_recipe
from stockroom.domain.recipe_typed import typed_from
from stockroom.store.fold import words_to_find
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.tui.bench_book.nouns import all_things
from stockroom.tui.screens.thing import open_thing


async def confirm(shown, *told: str) -> None:  # type: ignore[no-untyped-def]
    """Show what would be kept once more, keep it, and close what tells of it."""
    await shown.press("ctrl+s")
    await shown.sees("nothing is done until you say so")
    await shown.press("b")
    await shown.sees(*told)
    await shown.press("enter")
    await shown.until(lambda: not shown.screen.is_modal, "the result to close")


async def put(shown, field: str, text: str) -> None:  # type: ignore[no-untyped-def]
    """Put an answer into a field of a form, of whatever kind it is."""
    await shown.until(lambda: hasattr(shown.screen, "_fields") and shown.screen._ready, "the form")
    shown.screen._fields.lines[field].put(text)
    await shown.pilot.pause(0)


async def test_a_recipe_is_written_line_by_line_with_a_trial_batch_beside_it(screens, stocked, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        await shown.press("f12")
        await shown.sees("[All]")
        await shown.press("tab", "ctrl+o")
        await shown.sees("Write a recipe", "Still to fill in: Name, Kind, Lines")
        await put(shown, "lines", "limewater = 1 n 4\ndeionised water = make up")
        await shown.sees("Look again at: Lines", "'limewater' is no material of this")
        await put(shown, "lines", "deionised water 12 mL")
        await shown.sees("Write =")
        await put(shown, "lines", "calcium-hydroxide-solution = 1 n 4\ndeionised water = make up")
        await shown.sees("calcium-hydroxide-solution: ", "is not known here")
        await put(shown, "lines", "calcium-hydroxide-solution = 1 in 6\ndeionised water = make up")
        await put(shown, "trial", "1.2 L")
        await shown.sees(
            "Trial batch: 1.2 L", "200 mL  Calcium hydroxide solution", "make up to 1.2 L  Deionised water"
        )
        await shown.sees("Hazards suggested for its label", "Still to fill in: Name, Kind")
        await put(shown, "name", "Thin bath")
        await put(shown, "steps", "caution: Goggles on.\nPour {calcium-hydroxid-solution}. (wait 5 min)")
        await put(shown, "kind", "bath")
        await shown.sees("step 2: “{calcium-hydroxid-solution}”")
        await put(shown, "steps", "caution: Goggles on.\nPour {calcium-hydroxide-solution}. (wait 5 min)")
        await shown.sees("Thin bath (thin-bath)", "! Goggles on.", "1. Measure about 1 L", "Pour 200 mL of")
        await confirm(shown, "Kept: Thin bath, version 1")
        await shown.sees("Thin bath   thin-bath", "c Copy", "Deionised water: make up")
    kept = find_recipe(store, "thin-bath")
    assert [line.material for line in kept.version.lines] == ["calcium-hydroxide-solution", "deionised-water"]
    assert kept.version.steps[1].wait == "5 min"


async def test_a_new_stock_brings_the_material_it_makes(screens, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        shown.app.open_form("new-recipe")
        await put(shown, "name", "Weak size")
        await put(shown, "kind", "stock")
        await put(shown, "makes", "+")
        await put(shown, "lines", "methyl-cellulose = 1 % w/v\ndeionised-water = make up")
        await put(shown, "batch", "250 mL")
        await shown.sees("Weak size (weak-size), a stock", "2.5 g  ")
        assert not [one for one in all_things(store, "material", words_to_find("weak size"))]
        await confirm(shown, "Kept: Weak size, version 1")
        await shown.sees("makes        Weak size")
    assert find_material(store, "weak-size").dimension == "volume"
    assert find_recipe(store, "weak-size").makes == "weak-size"


async def test_a_copy_tells_what_it_still_says_of_the_other(screens, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        shown.app.open_form("new-recipe", copy="calcium-hydroxide-1-in-4")
        await put(shown, "name", "Thin bath")
        await shown.sees("Thin bath (thin-bath), a bath")
        assert "Read them again" not in shown.text
        lines = shown.screen._fields.lines["lines"].answer
        await put(shown, "lines", lines.replace("1 in 4", "1 in 8"))
        await shown.sees("still as there: strength", "Read them again")
        await confirm(shown, "Kept: Thin bath, version 1")
    copied, source = find_recipe(store, "thin-bath"), find_recipe(store, "calcium-hydroxide-1-in-4")
    assert copied.version.steps == source.version.steps
    assert source.version.number == 1


async def test_changing_a_recipe_makes_its_next_version_and_shows_what_changes(screens, stocked, store: Store) -> None:
    key = "calcium-hydroxide-saturated"
    async with screens(size=(120, 40)) as shown:
        await shown.press("f12")
        await shown.fill("words", "calcium hydroxide solution, saturated")
        await shown.sees("The bench book: 1")
        await shown.press("enter")
        await shown.sees("keeps        12 months", "e Change")
        await shown.press("e")
        await shown.sees("Nothing is changed yet: version 1 stays.")
        await put(shown, "life", "soon")
        await shown.sees("Look again at: Keeps")
        await put(shown, "life", "9 months")
        await shown.sees("becomes version 2.", "What was made by version 1 stays as it was", "- life: 12 months")
        await shown.sees("+ life: 9 months")
        await confirm(shown, "version 2")
        await shown.sees("keeps        9 months")
    assert find_recipe(store, key).version.life == "9 months"
    assert find_recipe(store, key, 1).version.life == "12 months"


async def test_a_form_that_was_only_looked_at_is_not_told_as_begun(screens, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("edit-recipe", of="calcium-hydroxide-saturated")
        await shown.sees("Nothing is changed yet")
        await shown.press("escape")
        assert shown.app.drafts.all() == []
        shown.app.open_form("edit-recipe", of="calcium-hydroxide-saturated")
        await put(shown, "life", "9 months")
        await shown.sees("+ life: 9 months")
        await shown.press("escape")
        assert len(shown.app.drafts.all()) == 1
        shown.app.open_form("edit-recipe", of="calcium-hydroxide-saturated")
        await shown.sees("+ life: 9 months")  # left and come back to, nothing is lost
        shown.screen.action_clear()
        await shown.sees("Nothing is changed yet")  # it is as it was kept, not empty
        await shown.press("escape")
        assert shown.app.drafts.all() == []


async def test_several_lines_are_typed_without_waking_other_keys(screens, store: Store) -> None:
    async with screens(size=(80, 24)) as shown:
        shown.app.open_form("new-recipe")
        await shown.sees("Write a recipe")
        field = shown.screen.query_one("#lines", TextArea)
        field.focus()
        await shown.press("L", "question_mark", "enter", "x")
        assert field.text == "L?\nx"
        await shown.press("tab")
        await shown.until(lambda: shown.app.focused is not field, "the next field")
        field.focus()
        await shown.press("f7")
        await shown.sees("[F7 Jobs]")


async def test_an_earlier_version_is_shown_against_the_one_in_use_and_a_recipe_saved(
    screens, store: Store, occasion: Callable[..., Occasion], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("platformdirs.user_downloads_path", lambda: tmp_path)
    key = "calcium-hydroxide-1-in-4"
    typed = {**typed_from(find_recipe(store, key)), "life": "6 h"}
    write_again(store, occasion(), key, typed)
    async with screens(size=(80, 24)) as shown:
        open_thing(shown.app, "recipe", key)
        await shown.sees("keeps      6 h", "v Versions", "^f Find")
        await shown.press("v")
        await shown.sees("Which version?", "version 1")
        await shown.press("enter")
        await shown.sees("Since version 1", "- life: 8 h", "+ life: 6 h")
        await shown.press("enter", "f")
        await shown.until(lambda: (tmp_path / f"{key}.toml").exists(), "the file")
        open_thing(shown.app, "material", "acetone")
        await shown.sees("a Ahead", "^f Find")
        await shown.press("v")  # a material has no versions
        assert not shown.screen.is_modal
    assert read_recipe((tmp_path / f"{key}.toml").read_text("utf-8"), "file").version.life == "6 h"


async def test_a_stock_may_be_weighed_and_its_trial_is_shown_before_it_has_a_name(screens, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        shown.app.open_form("new-recipe")
        await put(shown, "kind", "stock")
        await put(shown, "makes", "+")
        await put(shown, "batch", "100 g")
        await put(shown, "lines", "wheat-starch = 20 g\ndeionised-water = 80 mL")
        await shown.sees("Still to fill in: Name", "Trial batch: 100 g", "20 g  Wheat starch")
        assert "Look again" not in shown.text
        await put(shown, "trial", "1 L")
        await put(shown, "name", "Thick paste")
        await shown.sees("! “1 L” is a volume")
        await put(shown, "trial", "50 g")
        await shown.sees("Trial batch: 50 g", "10 g  Wheat starch")
        await confirm(shown, "Kept: Thick paste")
    assert find_material(store, "thick-paste").dimension == "mass"


async def test_another_name_alone_makes_no_version(screens, store: Store) -> None:
    async with screens(size=(100, 30)) as shown:
        shown.app.open_form("edit-recipe", of="calcium-hydroxide-1-in-4")
        await put(shown, "name", "Quarter bath")
        await shown.sees("its name alone is changed; version 1 stays")
        await confirm(shown, "Kept: Quarter bath, version 1")
    assert find_recipe(store, "calcium-hydroxide-1-in-4").version.number == 1


async def test_after_a_choice_comes_the_field_that_it_asks_for(screens, store: Store) -> None:
    async with screens(size=(80, 24)) as shown:
        shown.app.open_form("new-recipe")
        await shown.sees("Still to fill in: Name, Kind")
        await shown.press("tab", "enter")
        await shown.choose("stock")
        await shown.until(lambda: shown.app.focused is not None and shown.app.focused.id == "makes", "what it makes")
