"""What to buy of one material, worked by hand."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.materials import Material
from stockroom.domain.open_days import OpenDays
from stockroom.domain.orders import DeliveryTime, Offer
from stockroom.domain.studio import Supplier
from stockroom.planning.buying import Choice, Standing, plan_buying, unit_price
from stockroom.planning.buying_advice import Economy
from stockroom.planning.needs import Need
from stockroom.science.quantities import Dimension

TODAY = date(2026, 11, 25)
STUFF = Material(id=1, key="stuff", name="Stuff", kind="reagent", dimension=Dimension.VOLUME, life_closed="12 months")
LITRE = 1_000_000


def choice(
    supplier: int, litres: int, price: int, *, days: int = 7, least: int = 1, breaks: tuple[tuple[int, int], ...] = ()
) -> Choice:
    """An offer of packs of so many litres at a price in cents."""
    offer = Offer(
        id=supplier, supplier=Supplier(id=supplier, key=f"s{supplier}", name=f"Supplier {supplier}"), material=STUFF,
        pack_quanta=litres * LITRE, price=price, currency="EUR", own_currency="EUR", minimum_packs=least, breaks=breaks,
    )  # fmt: skip
    return Choice(offer=offer, time=DeliveryTime(promised=days))


def standing(
    here: float = 0, *, below: float | None = None, needs: tuple[tuple[float, int], ...] = (), coming: float = 0,
    taken: tuple[tuple[float, int], ...] = (), yearly: float | None = None,
) -> Standing:  # fmt: skip
    """Litres, and days of December 2026."""
    return Standing(
        material=STUFF,
        here=int(here * LITRE),
        coming=int(coming * LITRE),
        below=None if below is None else int(below * LITRE),
        below_why="set by hand",
        needs=tuple(need(litres, day) for litres, day in needs),
        taken=tuple((date(2026, 12, day), int(litres * LITRE)) for litres, day in taken),
        yearly=None if yearly is None else int(yearly * LITRE),
    )


def need(litres: float, day: int) -> Need:
    by = date(2026, 12, day)
    return Need(
        material=STUFF, quantity=int(litres * LITRE), by=by, begin_by=by, why="", bookings=(f"K{day}",), there_from=by
    )


def test_nothing_is_bought_while_enough_is_here_or_on_order() -> None:
    assert plan_buying(standing(2, below=2), [choice(1, 1, 900)], TODAY) is None
    assert plan_buying(standing(1, below=2, coming=1), [choice(1, 1, 900)], TODAY) is None
    assert plan_buying(standing(1), [choice(1, 1, 900)], TODAY) is None


def test_the_net_need_is_rounded_up_to_packs_and_to_the_fewest_sold() -> None:
    """0.5 lacking to the amount to order at and 1.2 for a booking are 1.7: two packs, or the four that are sold."""
    asked = standing(0.5, below=1, taken=((0.5, 3),), needs=((0.7, 10),))
    line = plan_buying(asked, [choice(1, 1, 900)], TODAY)
    assert line is not None
    assert (line.net.quanta, line.packs, line.cost) == (1_700_000, 2, 1800)
    sold = plan_buying(asked, [choice(1, 1, 900, least=4)], TODAY)
    assert sold is not None
    assert sold.packs == 4


def test_what_is_needed_on_a_day_is_ordered_the_delivery_time_before_or_told_as_late() -> None:
    line = plan_buying(standing(needs=((1, 10),)), [choice(1, 1, 900)], TODAY)
    assert line is not None
    assert (line.order_by, line.late) == (date(2026, 12, 3), False)
    late = plan_buying(standing(needs=((1, 1),)), [choice(1, 1, 900)], TODAY)
    assert late is not None
    assert (late.order_by, late.late) == (date(2026, 11, 24), True)
    assert "2026-11-24" in late.why[-1]


def test_the_order_by_day_is_open_at_the_supplier() -> None:
    """3 December 2026 is a Thursday; a supplier closed on Thursdays and Wednesdays takes it on Tuesday."""
    open_days = OpenDays(weekdays=frozenset({2, 3}))
    closed = Choice(offer=choice(1, 1, 900).offer, time=DeliveryTime(promised=7), open_days=open_days)
    line = plan_buying(standing(needs=((1, 10),)), [closed], TODAY)
    assert line is not None
    assert line.order_by == date(2026, 12, 1)


def test_a_booking_that_brings_it_below_is_the_day_to_order() -> None:
    line = plan_buying(standing(3, below=2, taken=((0.5, 2), (1, 8))), [choice(1, 1, 900)], TODAY)
    assert line is not None
    assert (line.order_by, line.net.quanta) == (date(2026, 12, 8), 500_000)


def test_what_costs_least_is_chosen_unless_it_comes_too_late() -> None:
    cheap, quick = choice(1, 1, 900, days=30), choice(2, 1, 1100, days=3)
    line = plan_buying(standing(below=1), [cheap, quick], TODAY)
    assert line is not None
    assert line.offer == cheap.offer
    timely = plan_buying(standing(needs=((1, 4),)), [cheap, quick], TODAY)
    assert timely is not None
    assert timely.offer == quick.offer
    assert "costs less but would come too late" in timely.advice[0]


def test_a_larger_pack_that_is_cheaper_by_the_unit_is_advice() -> None:
    line = plan_buying(standing(below=1), [choice(1, 1, 900), choice(2, 5, 2500)], TODAY)
    assert line is not None
    assert (line.packs, line.cost) == (1, 900)
    assert "cheaper per L" in line.advice[0]
    assert unit_price(choice(2, 5, 2500).offer, 1) == Decimal(500)


def test_no_more_is_bought_than_is_used_before_its_date() -> None:
    """2 litres a year, kept for a year: of the 4 that lack, 2 will be used; a booked need is never cut."""
    line = plan_buying(standing(below=4, yearly=2), [choice(1, 1, 900)], TODAY)
    assert line is not None
    assert (line.packs, "2 rather than 4 packs" in line.advice[0]) == (2, True)
    booked = plan_buying(standing(below=1, yearly=0.5, needs=((3, 10),)), [choice(1, 1, 900)], TODAY)
    assert booked is not None
    assert booked.packs == 3
    large = plan_buying(standing(below=4, yearly=2), [choice(1, 5, 900)], TODAY)
    assert large is not None
    assert (large.packs, "of 5 L only" in large.advice[0]) == (1, True)


def test_what_nobody_offers_is_listed_all_the_same() -> None:
    line = plan_buying(standing(0.2, below=1), [], TODAY)
    assert line is not None
    assert (line.packs, line.cost, line.offer, line.advice) == (None, None, None, ("no offer kept",))
    assert line.why == ("200 mL fit to use or on order, order when below 1 L (set by hand)",)


@pytest.mark.parametrize(
    ("breaks", "words"),
    [(((2, 800),), "2 cost 16.00 EUR, against 9.00 EUR"), (((2, 400),), "2 cost 8.00 EUR, less than 9.00 EUR")],
)
def test_a_near_price_break_is_advice_only(breaks: tuple[tuple[int, int], ...], words: str) -> None:
    line = plan_buying(standing(below=1), [choice(1, 1, 900, breaks=breaks)], TODAY)
    assert line is not None
    assert line.packs == 1
    assert words in line.advice[0]


def test_the_economic_quantity_is_advice_where_its_costs_are_told() -> None:
    """By hand: sqrt(2 x 12 x 8.00 / (20 % of 9.00)) is 10.3; keeping ten costs 18.60 a year, eleven 18.63."""
    line = plan_buying(
        standing(below=1, yearly=12), [choice(1, 1, 900)], TODAY, Economy(order_cost=800, keeping_percent=20)
    )
    assert line is not None
    assert line.packs == 1
    assert "economic quantity 10 packs" in line.advice[0]


def test_more_than_is_used_in_one_shelf_life_is_not_economic() -> None:
    """By hand: two packs a year at 20.00 an order and 2 % of 9.00 give 21, and of what keeps a year two are used.

    The rule (no more than use times life) is from memory: Silver, Pyke and Peterson, 3rd edition, section 5.6.
    """
    economy = Economy(order_cost=2000, keeping_percent=2)
    line = plan_buying(standing(below=1, yearly=2), [choice(1, 1, 900)], TODAY, economy)
    assert line is not None
    assert "economic quantity 21 packs" in line.advice[0]
    assert line.advice[0].endswith("but only 2 packs used before their date")


@given(
    here=st.integers(0, 50), below=st.integers(0, 50), needs=st.lists(st.integers(1, 20), max_size=3),
    pack=st.integers(1, 7), least=st.integers(1, 4), yearly=st.one_of(st.none(), st.integers(0, 100)),
)  # fmt: skip
def test_a_booked_need_is_always_bought_whole(
    here: int, below: int, needs: list[int], pack: int, least: int, yearly: int | None
) -> None:
    """And without a date that limits it, all that lacks is; never a pack more than rounding asks for."""
    asked = standing(here, below=below, needs=tuple((litres, 20 + n) for n, litres in enumerate(needs)), yearly=yearly)
    line = plan_buying(asked, [choice(1, pack, 100, least=least)], TODAY)
    if not asked.net:
        assert line is None
        return
    assert line is not None
    assert line.packs is not None
    assert line.packs >= least
    assert line.packs * pack * LITRE >= asked.booked_lack
    assert line.packs == least or (line.packs - 1) * pack * LITRE < asked.net
    if yearly is None:
        assert line.packs * pack * LITRE >= asked.net
