"""What booked treatments need: published requirements tables, and what differs in a studio, by hand.

The tables are in weeks; week 1 is the one in which the plan is made, a need of a week is one of its Monday, and a
delay of two weeks is one of fourteen days.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from plan_words import TODAY, Studio, day

from stockroom.domain.open_days import ClosedTime, OpenDays
from stockroom.errors import BadInput
from stockroom.planning.needs import Need


def monday(week: int) -> date:
    return TODAY + timedelta(weeks=week - 1)


def weekly(needs: list[Need], *, begin: bool = False) -> dict[int, int]:
    """Return what is to be there, or to be begun, by week."""
    return {((need.begin_by if begin else need.by) - TODAY).days // 7 + 1: need.quantity for need in needs}


def test_a_two_level_table_gives_the_published_releases() -> None:
    """Chairs of a seat, a back and four legs; two weeks for each, lot for lot, no safety stock.

    A published exercise of two levels ("Aldershot Manufacturing", weeks 1 to 4 as printed; read in a copy, author
    not named). Weeks 5 to 8, with 175, 0, 90 and 60 chairs, are computed by the same rule. What the table calls
    weeks are days here, a week apart.
    """
    studio = Studio()
    studio.makes("chair", "seat 1, back 1, legs 4", ready_after="14 days")
    for part in ("seat", "back", "legs"):
        studio.makes(part, "wood 1", ready_after="14 days")
    for key, quantity in (("chair", 260), ("seat", 60), ("back", 40), ("legs", 80)):
        studio.holds(key, quantity)
    studio.awaits("seat", 50, monday(1))
    studio.awaits("back", 10, monday(1))
    for week, quantity in ((1, 150), (3, 70), (5, 175), (7, 90), (8, 60)):
        studio.books("chair", quantity, monday(week))
    plan = studio.plan()
    of = {key: [need for need in plan.make if need.material.key == key] for key in ("chair", "seat", "back", "legs")}
    assert weekly(of["chair"]) == {5: 135, 7: 90, 8: 60}
    assert weekly(of["chair"], begin=True) == {3: 135, 5: 90, 6: 60}
    assert weekly(of["seat"], begin=True) == {1: 25, 3: 90, 4: 60}
    assert weekly(of["back"], begin=True) == {1: 85, 3: 90, 4: 60}
    assert weekly(of["legs"], begin=True) == {1: 460, 3: 360, 4: 240}
    assert not any(need.late for need in plan.make)


@pytest.mark.parametrize(
    ("pack", "keep", "receipts", "releases"),
    [
        (230, 0, {4: 230, 7: 230}, {2: 230, 5: 230}),
        (None, 0, {4: 3, 6: 150, 7: 120}, {2: 3, 4: 150, 5: 120}),
        (None, 80, {4: 83, 6: 150, 7: 120}, {2: 83, 4: 150, 5: 120}),
        (230, 80, {4: 230, 6: 230}, {2: 230, 4: 230}),
    ],
)
def test_one_record_under_several_lot_rules(
    pack: int | None, keep: int, receipts: dict[int, int], releases: dict[int, int]
) -> None:
    """The seat record of Krajewski and Ritzman, Operations Management: gross 150 0 0 120 0 150 120 0, 37 on hand,
    230 due in week 1, two weeks' delay. The two releases of 230 are printed; the rows with 80 kept are computed.
    """
    studio = Studio()
    studio.buys("seat", delivery_days=14, pack=pack, keep=keep, together_days=0)
    studio.holds("seat", 37)
    studio.awaits("seat", 230, monday(1))
    for week, quantity in ((1, 150), (4, 120), (6, 150), (7, 120)):
        studio.books("seat", quantity, monday(week))
    plan = studio.plan()
    assert weekly(plan.buy) == receipts
    assert weekly(plan.buy, begin=True) == releases


@pytest.mark.parametrize(("keep", "releases"), [(0, [1, 2, 4]), (20, [1, 2, 3, 5])])
def test_what_is_kept_back_brings_orders_forward(keep: int, releases: list[int]) -> None:
    """A record of the type of Vollmann, Berry and Whybark: gross 30 40 40 30 30 30, one week's delay, lots of 50, 2 on
    hand, 50 due in week 1. Releases in weeks 1, 2 and 4 are printed; those with 20 kept are computed.
    """
    studio = Studio()
    studio.buys("part", delivery_days=7, pack=50, keep=keep, together_days=0)
    studio.holds("part", 2)
    studio.awaits("part", 50, monday(1))
    for week, quantity in enumerate((30, 40, 40, 30, 30, 30), 1):
        studio.books("part", quantity, monday(week))
    assert list(weekly(studio.plan().buy, begin=True)) == releases


def test_lot_for_lot_follows_every_week() -> None:
    """A printed exercise: gross 30 25 20 15 30 30 50 50, 10 on hand, 75 due in week 1, three weeks' delay; receipts
    5 30 30 50 50 from week 4 on. The releases are computed.
    """
    studio = Studio()
    studio.buys("shaft", delivery_days=21, together_days=0)
    studio.holds("shaft", 10)
    studio.awaits("shaft", 75, monday(1))
    for week, quantity in enumerate((30, 25, 20, 15, 30, 30, 50, 50), 1):
        studio.books("shaft", quantity, monday(week))
    plan = studio.plan()
    assert weekly(plan.buy) == {4: 5, 5: 30, 6: 30, 7: 50, 8: 50}
    assert weekly(plan.buy, begin=True) == {1: 5, 2: 30, 3: 30, 4: 50, 5: 50}


def test_a_jar_is_made_as_large_as_what_falls_into_its_life() -> None:
    """Computed: a life of 90 days from day 0, 50 mL on days 10, 40, 80 and 120. Three of them are in its life."""
    studio = Studio()
    studio.makes("bath", "salt 1", life="90 days", together_days=365, ready_after="10 days")
    for number in (10, 40, 80, 120):
        studio.books("bath", 50, day(number))
    first, second = studio.plan().make
    assert (first.quantity, first.begin_by) == (150, day(0))
    assert (second.quantity, second.by) == (50, day(120))


def test_full_jars_are_made_and_what_stays_in_each_is_not_counted_on() -> None:
    """2000 mL from jars of 1000 of which 50 stay behind take three; the 850 mL over serve the next booking."""
    studio = Studio()
    studio.makes("stock", "salt 1", life="12 months", jar=1000, left_behind=50, together_days=0)
    studio.holds("stock", 100, kind="jar")
    studio.books("stock", 2050, day(3))
    studio.books("stock", 850, day(5))
    (made,) = studio.plan().make
    assert made.quantity == 3000
    assert "0.05 mL will be fit to use" in made.why


def test_making_begins_on_the_last_open_day_so_that_it_has_settled() -> None:
    """Wanted on Tuesday the 10th and a day to settle: Monday. With Saturday to Monday closed: Friday the 6th."""
    studio = Studio()
    studio.makes("stock", "salt 1", life="12 months", ready_after="24 h")
    studio.books("stock", 100, day(8))
    assert studio.plan().make[0].begin_by == day(7)
    studio.open_days = OpenDays(weekdays=frozenset({0, 5, 6}))
    assert studio.plan().make[0].begin_by == date(2026, 3, 6)
    assert not studio.plan().make[0].late


def test_nothing_is_made_so_early_that_it_expires_first() -> None:
    """It keeps three days: before a closed week it would be past its date, so it is made on the very day."""
    studio = Studio()
    studio.makes("paste", "starch 1", life="3 days")
    studio.open_days = OpenDays(times=[ClosedTime(first=day(4), last=day(11))])
    studio.books("paste", 100, day(11))
    (made,) = studio.plan().make
    assert made.begin_by == day(11)
    assert "closed that day" in made.why


def test_what_keeps_for_hours_is_made_for_its_day_alone() -> None:
    studio = Studio()
    studio.makes("fresh", "salt 1", life="24 h", batch=1000)
    studio.books("fresh", 100, day(3))
    studio.books("fresh", 150, day(4))
    assert [(need.by, need.quantity) for need in studio.plan().make] == [(day(3), 100), (day(4), 150)]


def test_a_jar_that_keeps_for_hours_never_counts_for_tomorrow() -> None:
    studio = Studio()
    studio.holds("fresh", 100, use_by="2026-03-03T18:00", kind="jar")
    studio.books("fresh", 40, day(0))
    studio.books("fresh", 40, day(1))
    plan = studio.plan()
    assert [(need.by, need.quantity) for need in plan.buy] == [(day(1), 40)]


def test_a_lot_counts_only_from_the_day_it_is_ready() -> None:
    """Ready at 14:10, it is not there for a treatment that begins at noon."""
    studio = Studio()
    studio.holds("stock", 100, ready_on="2026-03-03T14:10")
    studio.books("stock", 40, day(1))
    studio.books("stock", 40, day(2))
    assert [(need.by, need.quantity) for need in studio.plan().buy] == [(day(1), 40)]


def test_the_earliest_use_by_is_taken_first() -> None:
    """WHO, Good Distribution Practices, Annex 5: earliest expiry first. Constructed: lot A came on 1 January and keeps
    to 31 December, lot B came on 1 February and keeps to 30 June, 10 in each; 12 on 1 March are B 10 and A 2.
    """
    studio = Studio()
    studio.holds("thing", 10, received_on="2026-01-01", use_by="2026-12-31")
    studio.holds("thing", 10, received_on="2026-02-01", use_by="2026-06-30")
    studio.books("thing", 12, day(0))
    plan = studio.plan()
    assert [(one.source, one.quantity) for one in studio.takings(plan, "thing")] == [("L2", 10), ("L1", 2)]


def test_a_lot_past_its_date_on_the_day_leaves_the_rest_short() -> None:
    """The same lots for 12 on 15 July: A 10, and 2 are short, since B is past its date."""
    studio = Studio()
    studio.holds("thing", 10, received_on="2026-01-01", use_by="2026-12-31")
    studio.holds("thing", 10, received_on="2026-02-01", use_by="2026-06-30")
    studio.books("thing", 12, date(2026, 7, 15))
    plan = studio.plan()
    assert [(one.source, one.quantity) for one in studio.takings(plan, "thing")] == [("L1", 10), (None, 2)]
    assert plan.buy[0].quantity == 2


def test_a_lot_opened_by_one_booking_counts_only_for_its_life_once_opened() -> None:
    studio = Studio()
    studio.holds("peroxide", 100, use_by="2026-12-31", life_opened="30 days")
    studio.books("peroxide", 10, day(0))
    studio.books("peroxide", 10, day(30))
    studio.books("peroxide", 10, day(31))
    assert [need.by for need in studio.plan().buy] == [day(31)]


def test_what_should_have_begun_is_late_with_the_day_it_can_be_there() -> None:
    """Needed tomorrow and three days to make: it should have begun two days ago, and is there in three."""
    studio = Studio()
    studio.makes("stock", "salt 1", life="12 months", ready_after="3 days")
    studio.holds("salt", 1000)
    studio.books("stock", 100, day(1))
    (made,) = studio.plan().make
    assert (made.begin_by, made.late, made.there_from) == (day(-2), True, day(3))
    assert "late: ready 2026-03-05 at the earliest" in made.why


def test_an_ingredient_that_comes_late_makes_the_making_late() -> None:
    """Ten days of delivery before a making that takes one: not before day 11, though it could begin on day 4."""
    studio = Studio()
    studio.makes("stock", "salt 1", life="12 months", ready_after="24 h")
    studio.buys("salt", delivery_days=10)
    studio.books("stock", 100, day(5))
    plan = studio.plan()
    assert (plan.buy[0].late, plan.buy[0].there_from) == (True, day(10))
    assert (plan.make[0].begin_by, plan.make[0].late, plan.make[0].there_from) == (day(4), True, day(11))
    assert plan.buy[0].bookings == plan.make[0].bookings == ("K1",)


def test_packs_and_the_least_order_are_kept_to() -> None:
    studio = Studio()
    studio.buys("blotter", delivery_days=2, pack=25, least_packs=2)
    studio.books("blotter", 26, day(9))
    studio.books("blotter", 80, day(10))
    assert [(need.quantity, need.begin_by) for need in studio.plan().buy] == [(125, day(7))]


def test_an_order_goes_out_on_a_day_when_both_are_open_and_stands_still_while_the_supplier_is_closed() -> None:
    """Wanted on Monday the 16th, five days' delivery. The supplier is closed from the 11th to the 13th, so the five
    days are the 15th, 14th, 10th, 9th and 8th; the 8th is a Sunday, when neither works: Friday the 6th.
    """
    studio = Studio()
    weekend = frozenset({5, 6})
    supplier = OpenDays(weekdays=weekend, times=[ClosedTime(first=date(2026, 3, 11), last=date(2026, 3, 13))])
    studio.open_days = OpenDays(weekdays=weekend)
    studio.buys("blotter", delivery_days=5, open_days=supplier)
    studio.books("blotter", 1, date(2026, 3, 16))
    assert studio.plan().buy[0].begin_by == date(2026, 3, 6)


def test_needs_of_one_material_from_every_level_are_met_together() -> None:
    """Salt is booked itself and goes into two solutions, one of them made of the other: 10 + 20 + 30 = 60."""
    studio = Studio()
    studio.makes("weak", "strong 1, salt 1", life="12 months")
    studio.makes("strong", "salt 1", life="12 months")
    studio.books("salt", 10, day(5))
    studio.books("weak", 20, day(6))
    studio.books("strong", 10, day(7))
    plan = studio.plan()
    assert {need.material.key: need.quantity for need in plan.make} == {"weak": 20, "strong": 30}
    assert sum(need.quantity for need in plan.buy) == 10 + 20 + 30


def test_a_ring_of_recipes_is_refused_by_name() -> None:
    studio = Studio()
    studio.makes("one", "other 1")
    studio.makes("other", "one 1, salt 1")
    studio.books("one", 1, day(5))
    with pytest.raises(BadInput, match=r"(make-one → make-other|make-other → make-one) → make-"):
        studio.plan()


def test_begun_in_the_afternoon_it_is_not_ready_for_the_next_noon() -> None:
    """At 14:10 a day's settling ends at 14:10 tomorrow: it counts from the day after; begun at ten it would do."""
    studio = Studio()
    studio.makes("stock", "salt 1", life="12 months", ready_after="24 h")
    studio.holds("salt", 1000)
    studio.books("stock", 100, day(1))
    assert not studio.plan("2026-03-02T10:00").make[0].late
    (made,) = studio.plan("2026-03-02T14:10").make
    assert (made.late, made.there_from) == (True, day(2))


def test_what_is_ready_later_today_counts_for_today() -> None:
    """Paste begun at eleven and ready at one is not made twice."""
    studio = Studio()
    studio.holds("paste", 100, ready_on="2026-03-02T13:00", kind="jar")
    studio.books("paste", 40, day(0))
    assert studio.plan("2026-03-02T11:05").buy == []


def test_goods_on_order_count_only_as_long_as_they_keep() -> None:
    studio = Studio()
    studio.material("peroxide", life_closed="30 days")
    studio.awaits("peroxide", 100, day(2))
    studio.books("peroxide", 10, day(32))
    studio.books("peroxide", 10, day(33))
    assert [need.by for need in studio.plan().buy] == [day(33)]
