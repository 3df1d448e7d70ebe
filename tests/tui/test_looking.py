"""What is looked at: a jar over time, stock ahead, the weeks to come, buying, a job's bars, traces and statements."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from stockroom.actions.bookings import book
from stockroom.actions.checking import check
from stockroom.actions.judging import Readings
from stockroom.actions.materials import edit_material
from stockroom.actions.offers import Asked, new_offer
from stockroom.actions.suppliers import new_supplier
from stockroom.actions.using import use
from stockroom.domain.occasion import Occasion
from stockroom.store.lots import shelf
from stockroom.store.open import Store
from stockroom.store.orders import all_orders

Occasions = Callable[..., Occasion]


@pytest.fixture
def offered(stocked: dict[str, str], store: Store, occasion: Occasions) -> dict[str, str]:
    """One material that is low and offered by one supplier, and one that nobody offers."""
    new_supplier(store, "Laboratory [A3]", delivery=5)
    new_offer(
        store, occasion(), Asked(supplier="Laboratory [A3]", material="calcium-hydroxide", pack="500 g", price="12.90")
    )
    edit_material(store, occasion(), "calcium-hydroxide", {"low": "600 g"})
    edit_material(store, occasion(), "acetone", {"low": "1 L"})
    return stocked


async def test_buying_is_grouped_by_supplier_and_one_key_drafts_the_orders(screens, offered, store: Store) -> None:
    async with screens() as shown:
        await shown.press("f9")
        await shown.sees("Laboratory [A3]   1 thing, 12.90 EUR", "1 x 500 g, 12.90 EUR", "order when below 600 g")
        await shown.sees("Nobody is known to offer these", "1 L lacking")
        await shown.press("o")
        await shown.sees("Draft these orders?", "1 x 500 g of Calcium hydroxide")
        await shown.press("b")
        await shown.sees("p Placed", "drafted", "Goods, net")
    (order,) = all_orders(store)
    assert (order.state, [line.packs for line in order.lines]) == ("drafted", [1])


async def test_an_order_goes_from_draft_to_delivery_by_its_page(screens, offered, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        await shown.press("f9")
        await shown.sees("1 thing")
        await shown.press("o")
        await shown.sees("Draft these orders?")
        await shown.press("b")
        await shown.sees("p Placed")
        await shown.press("p")
        await shown.sees("Note that an order was placed", "2026-11-30")  # five days of delivery
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("is placed")
        await shown.press("enter")
        await shown.sees("500 g to come", "r Receive", "drafted → placed on 2026-11-25")
        await shown.press("r")
        await shown.sees("Receive what was ordered", "a new lot")
        await shown.fill("freight", "4.90")
        await shown.sees("17.80 EUR, 4.90 EUR")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Received: P")
        await shown.press("enter")
        await shown.sees("What came", "closed")
    (order,) = all_orders(store)
    assert order.state == "closed"
    assert (
        sum(lot.balance.value for lot in shelf(store, "calcium hydroxide") if lot.kind == "bought") == 1890 - 11 + 1780
    )


async def test_a_line_is_taken_off_a_draft_and_its_sheet_is_saved(
    screens, offered, store: Store, tmp_path: Path
) -> None:
    async with screens() as shown:
        await shown.press("f9")
        await shown.sees("1 thing")
        await shown.press("o")
        await shown.sees("Draft these orders?")
        await shown.press("b")
        await shown.sees("s Sheet as PDF", "Enter: take it off the order")
        await shown.press("s")
        await shown.sees("Saved as")
        await shown.press("enter", "enter")
        await shown.sees("Take it off", "r Remove it")
        assert all_orders(store)[0].lines  # Enter pressed twice, as with wet gloves, takes nothing off
        await shown.press("r")
        await shown.until(lambda: not all_orders(store)[0].lines, "the line to be gone")
    assert list((tmp_path / "home").rglob("order-P*.pdf"))


async def test_the_code_of_an_order_opens_its_page(screens, offered, store: Store, occasion: Occasions) -> None:
    from stockroom.actions.ordering import draft_order

    code = draft_order(store, occasion(), "Laboratory [A3]", "[/] leave at the door").code
    async with screens() as shown:
        await shown.press("L")
        await shown.answer(code)
        await shown.press("enter")
        await shown.sees(code, "Laboratory [A3]", "[/] leave at the door", "p Placed")
        await shown.press("p")
        await shown.sees("has no lines yet")


async def test_stock_ahead_shows_bookings_and_the_amount_to_order_below(
    screens, offered, store: Store, occasion: Occasions
) -> None:
    async with screens() as shown:
        await shown.press("f9")
        await shown.sees("Calcium hydroxide")
        await shown.press("enter")
        await shown.sees("497 g fit to use now", "order when below 600 g", "█", "25 Nov 2026", "r Receive")


async def test_a_jar_over_time_shows_its_checks_and_where_every_figure_comes_from(
    screens, stocked, store: Store, occasion: Occasions
) -> None:
    for day, used in (("2026-11-05", "10.9 mL"), ("2026-11-12", "10.4 mL"), ("2026-11-20", "8.4 mL")):
        values = {"sample": "25 mL", "acid": "0.1 mol/L", "used": used, "temperature": "20 °C"}
        check(store, occasion(day), stocked["jar"], Readings(method="titration", values=values, sample="25 mL"))
    async with screens() as shown:
        shown.app.open_code(stocked["jar"])
        await shown.sees("What was done", "h Graph")
        await shown.press("h")
        await shown.sees("≈≈≈", "▓▓▓", "100 %", "90 %", "925 mL", "of 1 L", "remake", "has fallen below the limit")
        assert shown.text.count("●") == 3 + 1  # three checks, and the sign explained beneath
        await shown.press("s")
        await shown.sees("Where the figures come from", "Limit of 90 %", "common practice, no source", "2026-11-20")
        await shown.press("escape")
        await shown.sees("esc Back")


async def test_a_lot_that_is_no_jar_has_no_strength_over_time(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_code(stocked["lime"])
        await shown.sees("What was done", "d More")
        assert "Over time" not in shown.text


async def test_the_weeks_to_come_are_pointed_at_by_what_is_marked(
    screens, stocked, store: Store, occasion: Occasions
) -> None:
    today = occasion().today
    recipe, day = "calcium-hydroxide-1-in-4", today.replace(day=28)
    code = book(store, recipe, stocked["job"], day, today=today, fill="8 L", fills=1).booking.code
    async with screens() as shown:
        await shown.press("f8")
        await shown.sees("1 treatment booked", "today", "Mon 30 Nov", "booked", "order", "make", code)
        before = next(line for line in shown.text.splitlines() if "▼" in line)
        while shown.screen.marked.key != code:
            await shown.press("down")
        await shown.sees("Enter: do it")
        after = next(line for line in shown.text.splitlines() if "▼" in line)
        booked = next(line for line in shown.text.splitlines() if line.startswith(" booked"))
        assert before.index("▼") < after.index("▼") == booked.index("1")


def treat(store: Store, occasion: Occasions, stocked: dict[str, str]) -> None:
    """Book a bath and do it twice as large as it was booked."""
    today = occasion("2026-11-20").today
    booking = book(
        store, "calcium-hydroxide-1-in-4", stocked["job"], today, today=today, fill="400 mL", fills=1
    ).booking.code
    use(
        store,
        occasion("2026-11-20"),
        "calcium-hydroxide-1-in-4",
        stocked["job"],
        fill="800 mL",
        fills=1,
        objects=("Sheet 1",),
        booking=booking,
        tested="AB",
    )


async def test_a_job_shows_what_was_expected_beside_what_it_cost(
    screens, stocked, store: Store, occasion: Occasions
) -> None:
    treat(store, occasion, stocked)
    async with screens() as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("materials 0.02 EUR in all", "expected  0.01 EUR", "quantity +0.01 EUR", "so far    ████")


async def test_the_last_treatment_is_repeated_with_one_key(screens, stocked, store: Store, occasion: Occasions) -> None:
    treat(store, occasion, stocked)
    async with screens() as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("r Repeat")
        await shown.press("r")
        await shown.sees("Use for a job", "one fill of 800 mL", "Sheet 1")
        assert shown.screen.answers()["objects"] == "Sheet 1"


async def test_the_statement_is_read_before_it_is_saved(
    screens, stocked, store: Store, occasion: Occasions, tmp_path: Path
) -> None:
    treat(store, occasion, stocked)
    async with screens(size=(80, 24)) as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("s Record")
        await shown.press("s")
        await shown.sees("Materials statement: Harbour charts", "p Save as PDF")
        assert all(len(line) <= 80 for line in shown.text.splitlines())
        await shown.press("m")
        await shown.sees("Saved as")
    (saved,) = (tmp_path / "home").rglob(f"statement-{stocked['job']}.md")
    assert "Sheet 1" in saved.read_text("utf-8")


async def test_a_lot_is_traced_to_the_object_and_the_object_back_to_the_lot(
    screens, stocked, store: Store, occasion: Occasions
) -> None:
    treat(store, occasion, stocked)
    async with screens() as shown:
        shown.app.open_code(stocked["lime"])
        await shown.sees("What was done")
        await shown.press("w")
        await shown.sees(
            "Went into, and reached", f"Calcium hydroxide solution {stocked['jar']}", "1 Sheet 1", "Behind it"
        )
        assert "Sheet 2" not in shown.text
        await shown.press("down", "enter")
        await shown.sees("What was done", stocked["jar"])
        shown.app.open_code(stocked["job"])
        await shown.sees("w Trace")
        await shown.press("w")
        await shown.sees(
            "1 Sheet 1", "2 Sheet 2", "200 mL of Calcium hydroxide solution", f"hydroxide {stocked['lime']}"
        )
        await shown.press("space")
        await shown.until(lambda: stocked["lime"] not in shown.text, "the branch to be folded")
