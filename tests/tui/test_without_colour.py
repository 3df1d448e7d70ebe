"""Without colour the cursor is still seen: what it is on stands light where the rest stands dark."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockroom.actions.taking import take
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store


def ground(shown, words: str) -> float:  # type: ignore[no-untyped-def]
    """Return how light the ground is on which the last of these words stand, from 0 to 255."""
    grounds = []
    for strip in shown.screen._compositor.render_strips():
        for style in [segment.style for segment in strip if words in segment.text]:
            shade = style.color if style.reverse else style.bgcolor
            grounds.append(sum(shade.triplet) / 3)
    return grounds[-1]


@pytest.mark.parametrize("theme", ["lamp", "paper"])
async def test_the_cursor_is_seen_on_every_kind_of_list(
    screens, stocked, store: Store, occasion: Callable[..., Occasion], monkeypatch: pytest.MonkeyPatch, theme: str
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    take(store, occasion(), stocked["jar"], "100 mL", job=stocked["job"])
    async with screens() as shown:
        shown.app.theme = theme
        await shown.sees("! past use-by", "check it")
        assert abs(ground(shown, "past use-by") - ground(shown, "check it")) > 100
        shown.app.open_code(stocked["jar"])
        await shown.sees("u undoes it", "-100 mL")
        assert abs(ground(shown, "taken") - ground(shown, "making")) > 100
        await shown.press("w")
        await shown.sees("Behind it")
        assert abs(ground(shown, "Went into") - ground(shown, "Behind it")) > 100
