"""One key does what is due: the right form opens with what is known filled in."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockroom.actions.bookings import book
from stockroom.actions.jobs import new_job
from stockroom.actions.making import make
from stockroom.actions.materials import edit_material
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.taking import take
from stockroom.domain.occasion import Occasion
from stockroom.planning.due import WORDS, Due
from stockroom.store.jobs import open_bookings
from stockroom.store.open import Store
from stockroom.tui.going_on import way_on


async def mark(shown, words: str) -> None:  # type: ignore[no-untyped-def]
    """Move down to the entry that says this."""
    entries = shown.screen.entries
    at = next(number for number, entry in enumerate(entries) if words in entry.words.plain)
    shown.screen.query_one("Entries").highlighted = at
    await shown.until(lambda: shown.screen.marked is entries[at], "the mark")


async def test_whoever_has_nothing_yet_is_led_to_what_is_booked_in_first(screens) -> None:
    async with screens(size=(80, 24)) as shown:
        await shown.sees("Nothing is due", "Nothing is on the shelf yet", "Enter: receive what is there")
        await shown.press("o")  # it has no page
        await shown.press("enter")
        await shown.sees("Receive a delivery")
        await shown.press("escape")


async def test_past_its_date_is_thrown_away_with_its_reason(screens, stocked) -> None:
    async with screens() as shown:
        await shown.sees("! past use-by", "Enter: throw it away")
        await shown.press("enter")
        await shown.sees("Throw away", stocked["old"], "past its date", "nothing: the lot ends")
        await shown.press("escape")
        await shown.sees("looking 14 days ahead")


async def test_what_is_low_is_ordered_or_made(screens, stocked, store: Store, occasion) -> None:  # type: ignore[no-untyped-def]
    edit_material(store, occasion(), "acetone", {"low": "1 L"})
    edit_material(store, occasion(), "calcium-hydroxide-solution", {"low": "5 L"})
    async with screens() as shown:
        await shown.sees("none left", "Acetone")
        await mark(shown, "Acetone")
        await shown.sees("Enter: order more")
        await shown.press("enter")
        await shown.sees("[F9 Buy]", "Acetone", "order when below 1 L")
        await shown.press("f2")
        await mark(shown, "low")
        await shown.sees("Enter: make more")
        await shown.press("enter")
        await shown.sees("Make up a solution", "Calcium hydroxide solution, saturated", "3 g  Calcium hydroxide")
        await shown.press("escape")


async def test_a_booking_that_passed_asks_what_became_of_it(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    day = occasion("2026-11-20").today
    booked = book(store, "wash", stocked["job"], day, today=day)
    async with screens() as shown:
        await shown.sees("! booking passed")
        await mark(shown, "booking passed")
        await shown.press("enter")
        await shown.sees("what became of it?", "Done", "Moved", "Dropped")
        await shown.choose("Dropped")
        await shown.sees("Drop a booking", booked.booking.code)
        await shown.fill("why", "the client took it back")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("is dropped")
        await shown.press("enter")
    assert not open_bookings(store)


async def test_a_loan_is_brought_back(screens, stocked, store: Store, occasion: Callable[..., Occasion]) -> None:
    lent = take(store, occasion("2026-11-20"), stocked["lime"], "10 g", reason="lent", to_whom="the frame workshop")
    async with screens() as shown:
        await shown.sees("on loan")
        await mark(shown, "on loan")
        await shown.sees("Enter: bring it back")
        await shown.press("enter")
        await shown.sees("Bring back", str(lent.action), "lent to the frame workshop")
        await shown.fill("amount", "10 g")
        await shown.sees("comes back into its lot")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Back: Calcium hydroxide")
        await shown.press("enter")
        await shown.until(lambda: "on loan" not in shown.text, "the loan to be no longer due")


@pytest.mark.parametrize("kind", WORDS)
def test_every_kind_of_due_leads_somewhere(stocked, store: Store, occasion: Callable[..., Occasion], kind: str) -> None:
    """Whatever its code names: a lot, a booking, an action, a material, or something that is gone meanwhile."""
    today = occasion().today
    booking = book(store, "wash", stocked["job"], today, today=today).booking.code
    for code in (stocked["jar"], booking, stocked["receipt"], "acetone", "no-such-thing"):
        way = way_on(store, Due(kind=kind, code=code, name="it", by=None, why="because"))
        assert way.does
        assert way.form or way.area or way.ask or way.known["code"] == code


async def test_a_long_list_says_how_many_of_how_many_it_shows(
    screens, store: Store, occasion: Callable[..., Occasion]
) -> None:
    from stockroom.tui.screens.due import DueScreen

    for _ in range(4):
        receive(
            store, occasion("2026-11-01"), Delivery(material="acetone", quantity="1 L", cost=1, use_by="2026-11-20")
        )
    before, DueScreen.MOST = DueScreen.MOST, 3
    try:
        async with screens() as shown:
            await shown.sees("3 of 4 things due")
    finally:
        DueScreen.MOST = before


async def test_the_pages_of_jobs_plan_and_buying_tell_their_numbers(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    edit_material(store, occasion(), "acetone", {"low": "1 L"})
    take(store, occasion(), stocked["lime"], "100 g", job=stocked["job"])
    today = occasion().today
    book(store, "calcium-hydroxide-1-in-4", stocked["job"], today, today=today, fill="8 L", fills=1)
    new_job(store, "Railway posters", today=today)
    make(store, occasion(), "calcium-hydroxide-saturated", "1 L")
    async with screens() as shown:
        await shown.press("f7")
        await shown.sees("2 jobs", "Railway posters", "2 objects, open since", "next booked for 2026-11-25")
        await shown.fill("words", "harbour")
        await shown.sees("1 job")
        await shown.press("enter")
        await shown.sees("materials 3.78 EUR in all", "100 g of Calcium hydroxide", "booked", "taken")
        await shown.press("f8")
        await shown.sees("1 treatment booked", "Wed 2026-11-25", "1 in 4", "to make first")
        await shown.press("f9")
        await shown.sees("1 material to buy", "Acetone", "order when below 1 L")


async def test_a_round_through_a_place_is_left_and_gone_on_with_and_booked_once(screens, stocked, store: Store) -> None:
    from stockroom.store.lots import find_lot

    async with screens() as shown:
        await shown.press("f10")
        await shown.sees("Count which place?", "shelf", "2 lots kept here")
        shown.screen.go_on("shelf")
        await shown.sees("Round through shelf", "Not seen yet, to be looked for: 2", "the books say 1 L")
        await shown.press("ctrl+b")
        await shown.until(lambda: "the books say" not in shown.text, "the books to be hidden")
        await shown.fill("seen", f"{stocked['jar']} 900 mL")
        await shown.press("enter")
        await shown.sees("Seen: 1", "900 mL")
        await shown.fill("seen", "[/] 3")
        await shown.press("enter")
        await shown.sees("! ")
        await shown.press("escape")
        await shown.sees("a round is in progress: 1 seen, begun by AB")
        shown.screen.go_on("shelf")
        await shown.sees("Seen: 1", "− 100 mL")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Counted: shelf")
        await shown.press("enter")
    assert find_lot(store, stocked["jar"]).balance.quantity == 900_000
    assert find_lot(store, stocked["lime"]).look_for
