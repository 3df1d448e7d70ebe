"""Making up on screen: the plan while typing, the confirmation, what is booked, and undo."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest

from stockroom.actions.lot_page import lot_page
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.taking import take
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import show
from stockroom.store.lots import find_lot, shelf
from stockroom.store.open import Store
from stockroom.tui.booking import says_the_same
from tests.tui.conftest import NOW


async def begin(shown) -> None:  # type: ignore[no-untyped-def]
    """Go to the form and choose the saturated solution."""
    await shown.press("f4", "enter")
    await shown.choose("saturated calcium")
    await shown.sees("3 g  Calcium hydroxide")


async def test_the_plan_follows_what_is_typed_and_books_nothing(screens, stocked, store: Store) -> None:
    before = store.revision()
    async with screens() as shown:
        await begin(shown)
        await shown.fill("amount", "500 mL")
        await shown.sees("1.5 g  Calcium hydroxide", stocked["lime"], "1 jar: 500 mL", "use by    2027-11-25")
        await shown.fill("jars", "2 x 250 mL")
        await shown.sees("2 jars of 250 mL")
    assert store.revision() == before


async def test_an_amount_that_cannot_be_read_is_told_in_words_while_typing(screens, stocked) -> None:
    async with screens() as shown:
        await begin(shown)
        await shown.fill("amount", "1,500 mL")
        await shown.sees("! ", "1,500")
        await shown.press("ctrl+s")
        await shown.sees("This cannot be read")
        await shown.press("enter")


async def test_b_books_the_confirmed_plan_and_the_result_shows_code_dates_and_cost(
    screens, stocked, store: Store
) -> None:
    async with screens() as shown:
        await begin(shown)
        await shown.fill("amount", "500 mL")
        await shown.sees("1 jar: 500 mL")
        await shown.press("ctrl+s")
        await shown.sees("Make up Calcium hydroxide solution, saturated?", "b Book it")
        await shown.press("b")
        await shown.sees("Made: Calcium hydroxide solution", "use by", "ready", "cost      0.06 EUR")
        made = [lot for lot in shelf(store, "solution") if lot.code != stocked["jar"]]
        assert [show(lot.amount) for lot in made] == ["500 mL"]
        assert f"Code: {made[0].code}" in shown.text
        await shown.press("l")
        await shown.sees(f"Label of {made[0].code}", "Danger", "Save as PDF")
        await shown.press("enter", "enter")
        await shown.sees("Enter chooses a recipe")
    assert made[0].initials == "AB"


async def test_enter_pressed_twice_books_nothing(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await begin(shown)
        before = store.revision()
        await shown.press("enter", "enter", "enter")
        await shown.sees("Make up Calcium hydroxide solution, saturated?")
        assert store.revision() == before
        await shown.press("escape")
        await shown.sees("[F4 Make]")
    assert store.revision() == before


async def test_a_shelf_that_changed_meanwhile_shows_the_new_plan_and_asks_again(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    async with screens() as shown:
        await begin(shown)
        await shown.press("ctrl+s")
        await shown.sees("b Book it", f"Calcium hydroxide  {stocked['lime']}")
        sooner = Delivery(material="calcium-hydroxide", quantity="100 g", cost=1000, use_by="2026-12-31")
        code = str(receive(store, occasion(), sooner).codes[0])
        await shown.press("b")
        await shown.sees("! The shelf changed", "Nothing was booked", f"Calcium hydroxide  {code}")
        assert [lot.code for lot in shelf(store, "solution")] == [stocked["jar"]]
        await shown.press("b")
        await shown.sees("Made:", code)
        await shown.press("enter")
    assert show(find_lot(store, code).amount) == "97 g"


async def test_a_minute_that_went_by_while_the_question_stood_there_is_no_change_of_the_shelf(
    screens, stocked, store: Store
) -> None:
    async with screens() as shown:
        await begin(shown)
        await shown.press("ctrl+s")
        await shown.sees("b Book it", "2026-11-26, 14:10")
        shown.app._now = lambda: NOW + timedelta(minutes=4)
        await shown.press("B")  # with caps lock
        await shown.sees("Made:", "2026-11-26, 14:14")
        assert "shelf changed" not in shown.text
        await shown.press("enter")


@pytest.mark.parametrize(
    ("before", "after", "same"),
    [
        ("ready 2026-11-26, 14:10", "ready 2026-11-26, 14:14", True),
        ("ready 2026-11-26, 14:10", "ready 2026-11-26, 14:20", False),
        ("ready 2026-11-26, 14:10", "ready 2026-11-26, 14:09", False),
        ("ready 2026-11-26, 23:59", "ready 2026-11-27, 00:03", False),
        ("3 g of L002U, 14:10", "3 g of L006M, 14:10", False),
        ("3 g of L002U", "3 g of L002U, 14:10", False),
    ],
)
def test_only_clock_times_that_went_on_are_let_pass(before: str, after: str, same: bool) -> None:
    assert says_the_same(before, after, within=timedelta(minutes=4)) is same


async def test_what_became_short_meanwhile_is_told_and_books_nothing(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    async with screens() as shown:
        await begin(shown)
        await shown.press("ctrl+s")
        await shown.sees("b Book it", "cost      0.12 EUR")
        held = find_lot(store, stocked["lime"]).amount
        take(store, occasion(), stocked["lime"], show(held), reason="spilled")
        await shown.press("b")
        await shown.sees("Not enough on the shelf", "Not booked")
        await shown.press("enter")
    assert [lot.code for lot in shelf(store, "solution")] == [stocked["jar"]]


async def test_undo_after_a_making_asks_why_and_offers_mistyped(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await begin(shown)
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Made:", "u undoes it")
        await shown.press("u")
        await shown.sees("Undo A", "mistyped")
        await shown.press("enter")
        await shown.sees("is undone: mistyped")
    assert [lot.code for lot in shelf(store, "solution")] == [stocked["jar"]]
    history = lot_page(store, stocked["lime"], datetime(2026, 11, 25, 14, 10)).history
    assert [line.in_effect for line in history if line.what == "make"] == [True, False]


async def test_a_reading_is_asked_for_before_anything_is_booked(screens, stocked, store: Store) -> None:
    before = store.revision()
    async with screens() as shown:
        await shown.press("f5", "enter")
        await shown.choose("conditioned wash")
        await shown.press("enter")
        await shown.choose("harbour")
        await shown.answer_media()
        await shown.sees("Waits for a reading", "Added", "Reached", "tested by AB")
        await shown.press("ctrl+s")
        await shown.sees("Fill in Added and Reached first")
    assert store.revision() == before
