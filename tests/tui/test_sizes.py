"""Nothing that matters is cut off at 80x24 and 160x50, and without colour nothing loses its meaning."""

from __future__ import annotations

import pytest

KEYS = (
    "F2 Due",
    "F3 Shelf",
    "F4 Make",
    "F5 Use",
    "F6 Check",
    "F7 Jobs",
    "F8 Plan",
    "F9 Buy",
    "F10 Count",
    "AB",
    "? Help",
)


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
async def test_every_screen_shows_its_keys_and_what_matters(screens, stocked, size: tuple[int, int]) -> None:
    async with screens(size=size) as shown:
        await shown.sees(*KEYS, "^f Find", "u Undo your last", "not to be used")
        await shown.press("f3")
        await shown.sees(*KEYS, "Code", "Material", "Held", "Use by", "State", "! past use-by", "2026-11-20")
        await shown.fill("words", stocked["jar"])
        await shown.sees("1 lot")
        await shown.press("enter")
        await shown.sees(*KEYS, "esc Back", "x Discard", "l Label", "Value", "By", "+1 L", "0.11 EUR")
        await shown.press("f4", "enter")
        await shown.choose("saturated calcium")
        await shown.sees(*KEYS, "^s Book it", "^n Steps", "Eye protection", "1 jar: 1 L", "use by", "cost")
        await shown.press("ctrl+s")
        await shown.sees("Make up", "b Book it", "b books it", "cost", "use by", "ready")
        await shown.press("escape", "f5")
        await shown.sees(*KEYS, "Treatment", "Job", "One fill", "Fills", "Media tested")


async def test_a_wide_screen_shows_the_label_beside_the_facts(screens, stocked) -> None:
    async with screens(size=(160, 50)) as shown:
        await shown.press("L")
        await shown.answer(stocked["jar"])
        await shown.press("enter")
        await shown.sees("█▀▀▀█", "Danger", "H318")


async def test_without_colour_the_cursor_is_reversed_and_the_words_are_the_same(
    screens, stocked, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with screens() as shown:
        await shown.press("f3")
        await shown.sees("3 lots")
        coloured = shown.text
    monkeypatch.setenv("NO_COLOR", "1")
    async with screens() as shown:
        await shown.press("f3")
        await shown.sees("3 lots")
        await shown.until(lambda: shown.text == coloured, "the same words")
        strips = shown.screen._compositor.render_strips()
        cursor = next(strip for strip in strips if stocked["lime"] in strip.text)
        assert any(segment.style and segment.style.reverse for segment in cursor)
