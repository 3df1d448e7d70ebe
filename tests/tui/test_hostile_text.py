"""Text that people typed is shown as typed on every screen: never markup, never an emoji code, never an escape."""

from __future__ import annotations

from collections.abc import Callable

from stockroom.actions.jobs import new_job
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes

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


def rename(store: Store, occasion: Callable[..., Occasion]) -> dict[str, str]:
    """Give materials with a lot past its date, recipes, places and jobs hostile names; return each name's lot."""
    materials = [one for one in all_materials(store) if one.metered and one.dimension == "volume"]
    materials += [one for one in all_materials(store) if one.metered and one.dimension == "mass"]
    lots: dict[str, str] = {}
    for text, material in zip(HOSTILE, materials, strict=False):
        with store.write():
            store.run("UPDATE material SET name = :name WHERE key = :key", name=text, key=material.key)
            store.run("INSERT INTO place (name) VALUES (:name)", name=f"{text} place")
        amount = "1 L" if material.dimension == "volume" else "1 kg"
        came = Delivery(
            material=material.key, quantity=amount, cost=9, use_by="2026-11-20", place=f"{text} place", lot_number=text
        )
        lots[text] = str(receive(store, occasion("2026-11-01", why=text), came).codes[0])
        new_job(store, text, today=occasion().today, client=text, objects=(f"{text}, 30 x 40 cm",))
    for kind in ("stock", "bath", "treatment"):
        recipes = [one for one in all_recipes(store) if one.kind == kind]
        with store.write():
            for text, recipe in zip(HOSTILE, recipes, strict=False):
                store.run("UPDATE recipe SET name = :name WHERE key = :key", name=text, key=recipe.key)
    return lots


async def test_hostile_names_are_shown_as_typed_on_every_screen(
    screens, store: Store, occasion: Callable[..., Occasion]
) -> None:
    lots = rename(store, occasion)
    assert list(lots) == HOSTILE
    named = [shown_as(text) for text in HOSTILE]
    async with screens(size=(120, 60)) as shown:
        await shown.sees("! past use-by", *named)
        await shown.press("f3")
        await shown.sees("15 lots", *named)
        for text, code in lots.items():
            await shown.fill("words", code)
            await shown.press("enter")
            await shown.sees("What was done", code, f"{shown_as(text)} place", "█▀▀▀▀▀█")  # its label beside it
            await shown.press("escape")
            await shown.sees("[F3 Shelf]", "State")
        await shown.press("f4", "enter")
        await shown.sees("Which recipe?", *named[: sum(one.kind == "stock" for one in all_recipes(store))])
        await shown.press("escape", "f5", "enter")
        await shown.sees("Which bath or treatment?", named[0], named[1])
        await shown.press("escape", "tab", "enter")
        await shown.sees("Which job?", *named)
        await shown.press("escape", "f2", "u")
        await shown.sees("Undo which?", named[-1])
        await shown.press("escape")


async def test_a_reason_is_kept_and_shown_as_typed(screens, stocked, store: Store) -> None:
    for text in ("[/]", "escape \x1b[31m red", "😀 :smile: 1:100:5"):
        async with screens() as shown:
            await shown.press("f6")
            await shown.answer(stocked["jar"])
            await shown.press("enter")
            await shown.sees("What was done")
            await shown.press("x")
            await shown.answer("1 mL")
            await shown.press("enter")
            await shown.answer(text)
            await shown.press("enter")
            await shown.sees("b Book it")
            await shown.press("b")
            await shown.sees(f"): {shown_as(text)}.")
    reasons = [row["reason"] for row in store.rows("SELECT reason FROM action WHERE kind = 'discard' ORDER BY number")]
    assert reasons == ["[/]", "escape \x1b[31m red", "😀 :smile: 1:100:5"]


async def test_hostile_text_in_a_code_or_search_is_answered_in_words(screens, stocked) -> None:
    async with screens() as shown:
        for text in HOSTILE:
            await shown.press("f6")
            await shown.answer(" ".join(text.split()))
            await shown.press("enter")
            await shown.sees("! ")
            await shown.press("escape")
        await shown.press("f3")
        for text in HOSTILE:
            await shown.fill("words", " ".join(text.split()))
            await shown.press("enter")
            await shown.sees("No lot has these words", "! ")


async def test_hostile_text_in_every_field_is_answered_in_words_and_books_nothing(
    screens, stocked, store: Store
) -> None:
    before = store.revision()
    forms = {"f4": ("amount", "jars", "place", "from"), "f5": ("fill", "fills", "objects", "from")}
    async with screens() as shown:
        for key, fields in forms.items():
            await shown.press(key, "enter")
            await shown.answer("saturated calcium" if key == "f4" else "calcium 1 in 4")
            await shown.press("enter")
            await shown.until(lambda: not shown.screen.is_modal, "the recipe to be taken")
            if key == "f5":
                await shown.press("enter")
                await shown.choose("harbour")
            for number, text in enumerate(HOSTILE):
                field = fields[number % len(fields)]
                await shown.fill(field, " ".join(text.split()))
                await shown.press("ctrl+s")
                await shown.sees("! ", "I have read it")
                await shown.press("enter")
                await shown.fill(field, "")
    assert store.revision() == before
