"""Open the form that a filled-in bench card is copied into."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockroom.store.labels import find_card

if TYPE_CHECKING:
    from stockroom.tui.app import StockroomApp


async def open_card(app: StockroomApp, code: str) -> None:
    """Open making or use with the card's recipe and amount filled in; work for a worker."""
    card = await app.ask_database(lambda store: find_card(store, code))
    if card is not None:
        name, amount = ("make", "amount") if card.recipe_kind == "stock" else ("use", "fill")
        app.open_form(name, **{"recipe": card.recipe_key, amount: card.quantity or ""})
