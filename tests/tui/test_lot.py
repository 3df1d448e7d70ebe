"""One lot's page: what it says, and that opening, discarding, labelling and undoing reach the ledger."""

from __future__ import annotations

from pathlib import Path

from stockroom.store.history import actions_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


async def go_to(shown, code: str) -> None:  # type: ignore[no-untyped-def]
    await shown.press("f3")
    await shown.fill("words", code)
    await shown.press("enter")
    await shown.sees("What was done", code)


async def test_the_page_says_whether_it_may_be_used_and_why(screens, stocked) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["old"])
        await shown.sees("! not fit: past use-by 2026-11-20", "received", "+1 L", "5.50 EUR")


async def test_opening_a_bottle_is_confirmed_and_starts_its_life_once_opened(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["old"])
        await shown.press("o")
        await shown.sees("Open a bottle", "2026-11-25")
        await shown.press("ctrl+s")
        await shown.sees(f"Open {stocked['old']}", "b Book it")
        await shown.press("b")
        await shown.sees("is open")
        await shown.press("enter")
    assert find_lot(store, stocked["old"]).opened_on == "2026-11-25"


async def test_discarding_all_of_a_lot_past_its_date_offers_that_reason_and_ends_it(
    screens, stocked, store: Store
) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["old"])
        await shown.press("x")
        await shown.sees("Throw away", "local rules on waste", "past its date", "nothing: the lot ends")
        await shown.press("ctrl+s")
        await shown.sees(f"Throw all of {stocked['old']}", "b Book it")
        await shown.press("b")
        await shown.sees("Thrown away", "Take its label off")
        await shown.press("enter")
        await shown.sees("! ended: discarded: past its date")
        assert "x Discard" not in shown.text
    lot = find_lot(store, stocked["old"])
    assert (lot.ended, lot.ended_why) == (True, "discarded: past its date")


async def test_a_refused_action_is_told_and_changes_nothing(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["jar"])
        await shown.press("x")
        await shown.sees("Throw away")
        await shown.fill("why", "spilled")
        await shown.fill("amount", "3 L")
        await shown.sees("3 L needed, 1 L fit to use")
        await shown.press("ctrl+s")
        await shown.sees("! Not booked", "3 L needed, 1 L fit to use")
        await shown.press("enter")
        await shown.fill("amount", "a drop")
        await shown.sees("! ", "Look again at: How much")
        await shown.press("ctrl+s")
        await shown.sees("! This cannot be read", "a drop")
        await shown.press("enter")
    assert len(actions_of_lot(store, find_lot(store, stocked["jar"]).id)) == 1


async def test_only_what_can_be_done_is_offered(screens, stocked) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["lime"])  # the making drew from it, which opened it
        await shown.sees("opened", "x Discard", "l Label")
        assert "o Open it" not in shown.text


async def test_undo_takes_back_the_marked_action_with_a_reason(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["old"])
        await shown.press("u")
        await shown.sees(f"Undo {actions_of_lot(store, find_lot(store, stocked['old']).id)[0].code}?", "mistyped")
        await shown.press("enter")
        await shown.sees("is undone: mistyped", "received, undone")
    assert find_lot(store, stocked["old"]).balance.quantity == 0


async def test_an_undo_without_a_reason_is_not_taken(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await go_to(shown, stocked["old"])
        await shown.press("u")
        await shown.answer("  ")
        await shown.press("enter")
        await shown.sees("Write at least one word")
        await shown.press("escape")
    assert find_lot(store, stocked["old"]).balance.quantity


async def test_the_label_is_shown_with_its_symbol_and_saved_as_a_pdf(screens, stocked, tmp_path: Path) -> None:
    saved = tmp_path / "home" / "Downloads" / f"label-{stocked['jar']}.pdf"
    async with screens() as shown:
        await go_to(shown, stocked["jar"])
        await shown.press("l")
        await shown.sees(f"Label of {stocked['jar']}", "█▀▀▀█")
        await shown.press("s")
        await shown.sees("Saved as")
        await shown.press("escape")
    assert saved.read_bytes().startswith(b"%PDF")
