"""A label on screen: shown as it prints before it prints, printed, saved, and counted."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest

from stockroom.store.labels import labels_made
from stockroom.store.lots import find_lot
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
        await shown.sees("As it will print")
        await shown.press("end")
        await shown.sees("Take the old label off", "before the topping up of 2026-11-25")
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
