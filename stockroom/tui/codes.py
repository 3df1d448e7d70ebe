"""Open what a code names; write the bench cards that get one."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from stockroom.store.labels import find_card
from stockroom.tui.files import hand_over

if TYPE_CHECKING:
    from pathlib import Path

    from stockroom.store.open import Store
    from stockroom.tui.app import StockroomApp


def open_code(app: StockroomApp, code: str) -> None:
    """Open the page of a lot, a job, an order or a quote; the form for a booking or a filled-in bench card."""
    match code[0]:
        case "K":
            app.open_form("use", booking=code)
        case "T":
            app.run_worker(_open_card(app, code))
        case prefix:
            module, name = _PAGES.get(prefix, _PAGES["J"])
            page = getattr(import_module(f"stockroom.tui.screens.{module}"), name)
            if not (isinstance(app.screen, page) and app.screen.code == code):
                app.push_screen(page(code))


_PAGES = {
    "L": ("lot", "LotScreen"),
    "J": ("job", "JobScreen"),
    "P": ("order", "OrderScreen"),
    "E": ("quote", "QuoteScreen"),
}
"""The page of each noun that has one: a module and its class, loaded when first shown."""


async def _open_card(app: StockroomApp, code: str) -> None:
    """Open making or use with the card's recipe and amount filled in."""
    card = await app.ask_database(lambda store: find_card(store, code))
    if card is not None:
        name, amount = ("make", "amount") if card.recipe_kind == "stock" else ("use", "fill")
        app.open_form(name, **{"recipe": card.recipe_key, amount: card.quantity or ""})


async def hand_over_card(app: StockroomApp, recipe: str, amount: str | None) -> None:
    """Write a bench card of a recipe, for an amount or the recipe's own, and hand it over."""

    def write(store: Store, path: Path) -> None:
        from stockroom.actions.cards import make_card

        make_card(store, recipe, amount, path, by=app.by, now=app.local)

    await hand_over(app, f"card-{recipe}.pdf", write)
