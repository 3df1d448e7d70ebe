"""Using for a job on screen: what is drawn, what is short, and the booking that is done with it."""

from __future__ import annotations

from collections.abc import Callable

from stockroom.actions.bookings import book
from stockroom.actions.costing import used_for
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import show
from stockroom.store.jobs import bookings_of, find_job
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


async def choose_bath(shown, recipe: str = "1 in 4 calcium hydroxide bath") -> None:  # type: ignore[no-untyped-def]
    await shown.press("f5", "enter")
    await shown.answer(recipe)
    await shown.press("enter")
    await shown.until(lambda: not shown.screen.is_modal, "the recipe to be taken")
    await shown.press("enter")
    await shown.choose("harbour")


async def test_two_fills_draw_twice_from_the_jar_and_the_job_bears_the_cost(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fill", "500 mL")
        await shown.fill("fills", "2")
        await shown.sees("2 fills of 500 mL", "250 mL  Calcium hydroxide solution", stocked["jar"])
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees(f"Used for {stocked['job']}", "250 mL")
        await shown.press("enter")
        await shown.sees("Enter chooses a job")
    assert show(find_lot(store, stocked["jar"]).amount) == "750 mL"
    assert [show(one.quantity) for one in used_for(store, find_job(store, stocked["job"]))] == ["250 mL"]


async def test_what_is_short_is_said_for_each_material_and_cannot_be_booked(screens, stocked, store: Store) -> None:
    before = store.revision()
    async with screens() as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fill", "10 L")
        await shown.sees("Not enough on the shelf", "2.5 L needed, 1 L fit to use, 1.5 L short")
        await shown.press("ctrl+s")
        await shown.sees("! Not booked")
        await shown.press("enter")
    assert store.revision() == before


async def test_fills_that_are_no_whole_number_are_refused_in_words(screens, stocked) -> None:
    async with screens() as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fills", "two")
        await shown.sees("'two' is not a number of fills")


async def test_a_booking_that_is_due_opens_the_form_filled_in_and_is_done_with_it(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    receive(store, occasion(), Delivery(material="polyester-web-light", quantity="10 m2", cost=4000))
    receive(store, occasion(), Delivery(material="blotter", quantity="20 pieces", cost=4000))
    today = occasion().today
    booked = book(store, "calcium-hydroxide-1-in-4", stocked["job"], today, today=today, fill="8 L", fills=1)
    async with screens() as shown:
        await shown.sees("! short", booked.booking.code)
        await shown.press("L")
        await shown.answer(booked.booking.code)
        await shown.press("enter")
        await shown.sees("Use for a job", f"{stocked['job']} Harbour charts", "8 L")
        await shown.fill("fill", "1 L")
        await shown.sees("250 mL  Calcium hydroxide solution")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees(f"Used for {stocked['job']}")
        await shown.press("enter")
    job = find_job(store, stocked["job"])
    assert [one.state for one in bookings_of(store, job.id)] == ["done"]


async def test_the_common_cautions_stand_below_the_steps(screens, stocked) -> None:
    """What the program knows of the materials is said on screen as by command; common practice, no source."""
    async with screens(size=(120, 60)) as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fill", "500 mL")
        await shown.sees(
            "Common cautions", "nothing goes back into", "Local rules say what may go down the drain, into"
        )
