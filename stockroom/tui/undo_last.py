"""Undo one of a person's last actions, chosen from their words."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.store.open import Store
from stockroom.tui.app import StockroomApp
from stockroom.tui.booking import undo_action, who_books
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.offer import Offer


async def undo_one_of_the_last(app: StockroomApp) -> None:
    """List what this person booked last, and undo what is chosen, with a reason."""
    by = await who_books(app)
    if by is None:
        return
    occasion = app.occasion(by)

    def last(store: Store) -> Sequence[Offer]:
        from stockroom.actions.undoing import last_actions

        return [
            Offer(key=one.code, words=f"{one.when}  {one.words}", detail=one.code)
            for one in last_actions(store, occasion)
            if one.in_effect
        ]

    offers = await app.ask_database(last)
    if offers is None:
        return
    chosen = await app.push_screen_wait(Choose("Undo which?", offers, none=f"{by} has booked nothing yet."))
    if chosen:
        await undo_action(app, chosen.key, chosen.words)
