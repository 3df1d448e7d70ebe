"""What the screens show of the plan: the coming weeks, and one material's stock as it will be."""

from __future__ import annotations

from datetime import date, datetime

import pytest
from conftest import ZONE, CommandLine

from stockroom.actions.planned import coming_weeks, load_plan, projected_stock
from stockroom.errors import NotFound
from stockroom.store.open import Store

NOW = datetime(2026, 11, 25, 10, tzinfo=ZONE)
TODAY = ("--on", "2026-11-25T10:00")
SOLUTION = "calcium-hydroxide-solution"


@pytest.fixture
def bench(stockroom: CommandLine) -> CommandLine:
    """500 g of powder, half a litre of solution that keeps to 2 December, two baths booked, one order under way."""
    for arguments in (
        ("receive", "calcium-hydroxide", "500 g", "--cost", "12.50"),
        ("receive", SOLUTION, "500 mL", "--cost", "0.10", "--use-by", "2026-12-02"),
        ("job", "new", "Charts", "--object", "Sheet 1, 40 x 30 cm"),
    ):
        stockroom.json("--on", "2026-11-01", *arguments)
    for day, quantity in (("2026-11-30", "1.2 L"), ("2026-12-07", "800 mL")):
        stockroom.json(*TODAY, "book", "calcium-hydroxide-1-in-4", "--job", "Charts", "--for", day, "--qty", quantity)
    return stockroom


def test_one_materials_stock_is_followed_through_bookings_dates_and_makings(bench: CommandLine, store: Store) -> None:
    """By hand: 500 mL, less 300 on the 30th; the other 200 are past their date from the 3rd on; a litre made for the
    7th gives 200 of it.
    """
    points = projected_stock(store, SOLUTION, NOW)
    assert [(point.day.isoformat(), point.quantity) for point in points] == [
        ("2026-11-25", 500_000),
        ("2026-11-30", 200_000),
        ("2026-12-03", 0),
        ("2026-12-07", 800_000),
    ]
    assert [kind for point in points for kind, _, _ in point.changes] == ["booking", "expiry", "made", "booking"]
    with pytest.raises(NotFound):
        projected_stock(store, "nothing of this name", NOW)


def test_a_jar_that_settles_and_an_order_under_way_are_on_the_curve(bench: CommandLine, store: Store) -> None:
    """Made at ten, it counts from tomorrow on; ten packs of 25 sheets come on the 4th."""
    bench.json(*TODAY, "make", "calcium-hydroxide-saturated", "1 L")
    bench.json(*TODAY, "supplier", "new", "Paper goods", "--delivery-days", "9")
    bench.json(*TODAY, "supplier", "offer", "Paper goods", "blotter", "25 pieces", "29.50")
    order = bench.json(*TODAY, "order", "new", "Paper goods")["code"]
    bench.json(*TODAY, "order", "add", order, "blotter", "10")
    bench.json(*TODAY, "order", "place", order)
    ready = projected_stock(store, SOLUTION, NOW)[1]
    assert (ready.day, ready.changes[0][0], ready.changes[0][2]) == (date(2026, 11, 26), "ready", 1_000_000)
    assert [(point.day.isoformat(), point.quantity) for point in projected_stock(store, "blotter", NOW)] == [
        ("2026-11-25", 0),
        ("2026-12-04", 250_000),
    ]
    arrival = next(moment for moment in coming_weeks(store, NOW) if moment.kind == "arrival")
    assert (arrival.day, arrival.code) == (date(2026, 12, 4), order)


def test_the_coming_weeks_hold_bookings_makings_and_closed_days_in_order(bench: CommandLine, store: Store) -> None:
    bench.json(*TODAY, "closed", "new", "2026-12-05", "--until", "2026-12-06", "--note", "fair")
    assert [(moment.day.isoformat(), moment.kind) for moment in coming_weeks(store, NOW)] == [
        ("2026-11-30", "booking"),
        ("2026-12-04", "make"),
        ("2026-12-05", "closed"),
        ("2026-12-07", "booking"),
    ]
    assert [moment.kind for moment in coming_weeks(store, NOW, days=9)] == ["booking", "make"]


def test_a_booking_for_which_nothing_is_in_time_is_marked_late(bench: CommandLine, store: Store) -> None:
    bench.json(*TODAY, "book", "calcium-hydroxide-1-in-4", "--job", "Charts", "--for", "today", "--qty", "8 L")
    late = [(moment.kind, moment.late) for moment in coming_weeks(store, NOW) if moment.day <= NOW.date()]
    assert late == [("make", True), ("booking", True)]


def test_what_is_on_order_is_not_bought_again(bench: CommandLine, store: Store) -> None:
    """Four blotters are needed and 25 are under way; with the order ended they are to be bought."""
    bench.json("--on", "2026-11-01", "receive", "polyester-web-heavy", "10 sheets", "--cost", "64.00")
    bench.json(*TODAY, "book", "press-between-webs", "--job", "Charts", "--for", "2026-12-10")
    assert [need.material.key for need in load_plan(store, NOW).plan.buy] == ["blotter"]
    bench.json(*TODAY, "supplier", "new", "Paper goods", "--delivery-days", "9")
    bench.json(*TODAY, "supplier", "offer", "Paper goods", "blotter", "25 pieces", "29.50")
    order = bench.json(*TODAY, "order", "new", "Paper goods")["code"]
    bench.json(*TODAY, "order", "add", order, "blotter", "1")
    bench.json(*TODAY, "order", "place", order)
    assert load_plan(store, NOW).plan.buy == []


def test_the_cheapest_offer_says_pack_least_order_and_delivery(bench: CommandLine, store: Store) -> None:
    """Ten at 15.00 are dearer a piece than 25 at 29.50, of which two packs are the least."""
    bench.json("--on", "2026-11-01", "receive", "polyester-web-heavy", "10 sheets", "--cost", "64.00")
    bench.json(*TODAY, "book", "press-between-webs", "--job", "Charts", "--for", "2026-12-10")
    for name, days, pack, price, least in (
        ("Near", "1", "10 pieces", "15.00", "1"), ("Far", "9", "25 pieces", "29.50", "2"),
    ):  # fmt: skip
        bench.json(*TODAY, "supplier", "new", name, "--delivery-days", days)
        bench.json(*TODAY, "supplier", "offer", name, "blotter", pack, price, "--minimum-packs", least)
    (bought,) = load_plan(store, NOW).plan.buy
    assert (bought.supplier, bought.quantity, bought.begin_by) == ("Far", 50_000, date(2026, 12, 1))
