"""A label on screen: shown as it prints before it prints, printed, saved, and counted."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest

from stockroom.actions.label_stocks import new_label_stock
from stockroom.store.labels import labels_made
from stockroom.store.lots import find_lot, shelf
from stockroom.store.open import Store


async def show_label(shown, code: str) -> None:  # type: ignore[no-untyped-def]
    await shown.press("ctrl+f")
    await shown.answer(code)
    await shown.press("enter")
    await shown.sees("What was done", code)
    await shown.press("l")
    await shown.sees(f"Label of {code}", "As it will print")


async def test_the_preview_shows_size_lines_and_what_does_not_fit(screens, stocked) -> None:
    async with screens(size=(80, 50)) as shown:
        await show_label(shown, stocked["jar"])
        await shown.sees("74 x 52 mm", "H318", "corrosion", "[checked", "Does not fit, and is left off: P302+P352")
        await shown.press("escape")


async def test_a_size_of_the_settings_that_is_too_small_is_told(
    screens, stocked, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "settings.toml").write_text('label_size = "20 x 20 mm"')
    monkeypatch.setenv("STOCKROOM_SETTINGS", str(tmp_path / "settings.toml"))
    async with screens() as shown:
        await shown.press("ctrl+f")
        await shown.answer(stocked["jar"])
        await shown.press("enter")
        await shown.sees("What was done")
        await shown.press("l")
        await shown.sees("20 x 20 mm cannot hold name, hazards, pictograms")
        await shown.press("enter")


async def test_a_saved_label_is_counted_and_the_old_one_named(screens, stocked, store: Store) -> None:
    from stockroom.actions.topping_up import top_up

    async with screens() as shown:
        await show_label(shown, stocked["jar"])
        await shown.press("s")
        await shown.sees("Saved as")
        await shown.press("escape")
        occasion = shown.app.occasion("AB")
        top_up(store, occasion, stocked["jar"], "50 mL")
        await shown.press("l")
        await shown.sees("As it will print", "Take the old label off", "the topping up of 2026-11-25")
        await shown.press("escape")
    (made,) = labels_made(store, find_lot(store, stocked["jar"]).id)
    assert (made.way, made.day) == ("file", "2026-11-25")


async def test_printing_shows_the_queues_answer(
    screens, stocked, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lp = tmp_path / "bin" / "lp"
    lp.parent.mkdir()
    lp.write_text("#!/bin/sh\necho 'request id is labels-9 (1 file(s))'\n")
    lp.chmod(lp.stat().st_mode | stat.S_IXUSR)
    monkeypatch.setenv("PATH", f"{lp.parent}:/bin:/usr/bin")
    async with screens() as shown:
        await show_label(shown, stocked["jar"])
        await shown.sees("p Print")
        await shown.press("p")
        await shown.sees("Printed: request id is labels-9")
        await shown.press("escape")
    assert [made.way for made in labels_made(store, find_lot(store, stocked["jar"]).id)] == ["printer"]


async def test_without_a_queue_printing_is_not_offered(
    screens, stocked, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    async with screens() as shown:
        await show_label(shown, stocked["jar"])
        assert "p Print" not in shown.text
        await shown.press("escape")


@pytest.mark.parametrize(
    ("recipe", "quantity", "seen"),
    [
        ("calcium-hydroxide-saturated", "2 L", ("Calcium hydroxide solution, saturated", "2 L", "Jars")),
        ("calcium-hydroxide-1-in-4", "400 mL", ("Calcium hydroxide bath, 1 in 4", "400 mL", "Fills")),
    ],
)
async def test_scanning_a_bench_card_opens_the_form_to_copy_it_into(
    screens, stocked, store: Store, tmp_path: Path, recipe: str, quantity: str, seen: tuple[str, ...]
) -> None:
    from datetime import UTC, datetime

    from stockroom.actions.cards import make_card

    card = make_card(store, recipe, quantity, tmp_path / "card.pdf", by="AB", now=datetime.now(UTC))
    async with screens() as shown:
        await shown.press("L")
        await shown.answer(card.code)
        await shown.press("enter")
        await shown.sees(*seen)


async def test_the_code_can_be_scanned_from_a_narrow_screen_too(screens, stocked) -> None:
    async with screens(size=(80, 24)) as shown:
        shown.app.open_code(stocked["jar"])
        await shown.sees("What was done", "q QR")
        assert "█▀▀▀█" not in shown.text
        await shown.press("q")
        await shown.sees("The label of", "█▀▀▀█", "Calcium hydroxide solution", "H318", "l Print or save")
        await shown.press("escape")
        await shown.sees("What was done")


async def pick(shown, words: str) -> None:  # type: ignore[no-untyped-def]
    """Take the one line of a list that has these words; a question stands beneath it."""
    await shown.answer(words)
    await shown.sees("1 of ")
    await shown.press("enter")


async def test_labels_go_on_a_sheet_from_the_first_free_place_so_many_of_each(
    screens, stocked, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet = {"label": "74 x 52 mm", "page": "210 x 297 mm", "columns": 2, "rows": 5, "left": "20 mm", "top": "10 mm"}
    new_label_stock(store, "jar sheet", **sheet)
    async with screens(size=(80, 50)) as shown:
        await show_label(shown, stocked["jar"])
        assert "First place" not in shown.text  # a single label has none
        await shown.press("o")
        await pick(shown, "label stock")
        await pick(shown, "jar sheet")
        await shown.sees("on a sheet of 10, from place 1:", "f First place")
        await shown.press("f")
        await shown.answer("11")
        await shown.press("enter")
        await shown.sees("The sheet has 10 labels")
        await shown.press("enter", "f")
        await shown.answer("4")
        await shown.press("enter")
        await shown.sees("from place 4:")
        await shown.press("c")
        await shown.answer("two")
        await shown.press("enter")
        await shown.sees("'two' is not a number of copies")
        await shown.press("enter", "c")
        await shown.answer("3")
        await shown.press("enter")
        await shown.sees("on a sheet of 10, from place 4, 3 of", "each:")
        await shown.press("o")
        await pick(shown, "with the place")
        await shown.sees("shelf")
        await shown.press("s")
        await shown.sees("Saved as")
        await shown.press("escape")
    (made,) = labels_made(store, find_lot(store, stocked["jar"]).id)
    assert (made.copies, made.said["place"]) == (3, "shelf")


async def test_the_jars_of_one_making_are_labelled_together(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("make", recipe="calcium-hydroxide-saturated", amount="1 L", jars="2 x 500 mL")
        await shown.sees("2 jars of 500 mL")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Made:", "l shows its label")
        await shown.press("l")
        await shown.sees("Labels of L", "is shown, 1 more like it")
        await shown.press("s")
        await shown.sees("Saved as")
        await shown.press("enter", "enter")
    jars = [lot for lot in shelf(store, "solution") if lot.code != stocked["jar"]]
    assert [len(labels_made(store, lot.id)) for lot in jars] == [1, 1]
