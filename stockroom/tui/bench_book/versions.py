"""The earlier versions of a recipe, each against the one in use."""

from __future__ import annotations

from textual.content import Content

from stockroom.domain.recipe_words import differences
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe, versions_of
from stockroom.store.stockroom_settings import local_day
from stockroom.tui.app import StockroomApp
from stockroom.tui.forms.recipe_text import differences_text
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.offer import Offer
from stockroom.tui.questions.reading import Reading


async def look_at_versions(app: StockroomApp, key: str) -> None:
    """Ask for an earlier version, and show what was taken out (-) and put in (+) since."""

    def offers(store: Store) -> list[Offer]:
        recipe = find_recipe(store, key)
        return [
            Offer(
                key=str(one.number),
                words=f"version {one.number}",
                detail=f"{local_day(store, one.made_at)}, {one.made_by}",
            )
            for one in reversed(versions_of(store, recipe.id))
            if one.number != recipe.version.number
        ]

    earlier = await app.ask_database(offers)
    if earlier is None:
        return
    none = "There is only the version in use. E changes the recipe: that makes the next."
    chosen = await app.push_screen_wait(Choose("Which version?", earlier, none=none))
    if chosen is None:
        return

    def compare(store: Store) -> Content:
        found = differences(find_recipe(store, key, int(chosen.key)), find_recipe(store, key))
        return differences_text(found) if found else Content("It says the same as the version in use.")

    told = await app.ask_database(compare)
    if told is not None:
        await app.push_screen_wait(Reading(f"Since {chosen.words}: - taken out, + put in", told))
