"""Text that people typed is shown as typed on every screen: never markup, never an emoji code, never an escape."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockroom.actions.jobs import new_job
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store

HOSTILE = [
    "[A3] kozo",
    "[/]",
    "[/red]",
    "drawer [b2]",
    "x [red]y",
    "1:100:5",
    "a [b=1",
    "=1+1",
    "'quoted' \"twice\"",
    "😀 :smile:",
    "مرحبا",
    "two\nlines\tand a tab",
    "escape \x1b[31m red",
    "[@click=app.quit]leave[/]",
    "$primary $name",
]


def shown_as(text: str) -> str:
    """Say how a text is shown: control characters made visible, white space as one space."""
    return " ".join(text.replace("\x1b", "[U+001B]").split())


@pytest.mark.parametrize("text", HOSTILE)
async def test_hostile_names_are_shown_as_typed_on_every_screen(
    screens, stocked, store: Store, occasion: Callable[..., Occasion], text: str
) -> None:
    words = shown_as(text)
    with store.write():
        store.run("UPDATE material SET name = :name WHERE key = 'acetone'", name=text)
        store.run("INSERT INTO place (name) VALUES (:name)", name=f"{text} place")
        store.run("UPDATE recipe SET name = :name WHERE key = 'alcohol-water-50'", name=text)
        store.run("UPDATE recipe SET name = :name WHERE key = 'wash'", name=text)
    bottle = receive(
        store,
        occasion("2026-11-01", why=text),
        Delivery(
            material="acetone", quantity="1 L", cost=900, use_by="2026-11-20", place=f"{text} place", lot_number=text
        ),
    )
    job = new_job(store, text, today=occasion().today, client=text, objects=(f"{text}, 30 x 40 cm",))
    async with screens(size=(120, 40)) as shown:
        await shown.sees("! past its date", words)
        await shown.press("f3")
        await shown.sees("4 lots")
        await shown.fill("words", str(bottle.codes[0]))
        await shown.sees("1 lot", words)
        await shown.press("enter")
        await shown.sees("What was done", words)
        await shown.press("l")
        await shown.sees("Label of", words)
        await shown.press("escape", "x")
        await shown.answer("")
        await shown.press("enter")
        await shown.answer(text)
        await shown.press("enter")
        await shown.sees("b Book it")
        await shown.press("escape", "f4", "enter")
        await shown.sees("Which recipe?", words)
        await shown.press("escape", "f5", "enter")
        await shown.sees("Which bath or treatment?", words)
        await shown.press("escape", "tab", "enter")
        await shown.sees("Which job?", words)
        await shown.answer(job.code)
        await shown.press("enter")
        await shown.sees(job.code, words)


@pytest.mark.parametrize("text", HOSTILE)
async def test_hostile_text_in_every_field_is_answered_in_words(screens, stocked, store: Store, text: str) -> None:
    typed, before = " ".join(text.split()), store.revision()
    async with screens() as shown:
        await shown.press("f6")
        await shown.answer(typed)
        await shown.press("enter")
        await shown.sees("! ")
        await shown.press("escape", "f3")
        await shown.fill("words", typed)
        await shown.press("enter")
        await shown.sees("No lot has these words", "! ")
        await shown.press("f4", "enter")
        await shown.choose("saturated calcium")
        for field in ("amount", "jars", "place", "from"):
            await shown.fill(field, typed)
            await shown.sees("! ")
            await shown.press("ctrl+s")
            await shown.until(lambda: shown.screen.is_modal, f"an answer to {field}")
            await shown.press("escape")
            await shown.fill(field, "")
        await shown.press("f5", "enter")
        await shown.answer("calcium 1 in 4")
        await shown.press("enter")
        await shown.until(lambda: not shown.screen.is_modal, "the recipe to be taken")
        await shown.press("enter")
        await shown.choose("harbour")
        for field in ("fill", "fills", "objects", "from"):
            await shown.fill(field, typed)
            await shown.press("ctrl+s")
            await shown.until(lambda: shown.screen.is_modal, f"an answer to {field}")
            await shown.press("escape")
            await shown.fill(field, "")
    assert store.revision() == before
