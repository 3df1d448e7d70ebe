"""What holds of any plan: every need is met or told as late, and no lot is counted twice or past its date."""

from __future__ import annotations

from collections import Counter
from datetime import date

from hypothesis import given
from hypothesis import strategies as st
from plan_words import Studio, day

from stockroom.domain.open_days import ClosedTime, OpenDays
from stockroom.planning.needs import Plan

DAYS = st.integers(0, 40)
AMOUNTS = st.integers(1, 200)
LIVES = st.sampled_from([None, "12 h", "1 day", "3 days", "2 weeks", "1 month"])
WAITS = st.sampled_from([None, "4 h", "24 h", "3 days"])


@st.composite
def studios(draw: st.DrawFn) -> Studio:
    """Build a studio of three levels: a bath of two stocks, both of salt, with lots, orders and closed days."""
    studio = Studio()
    for key, told in (("weak", "strong 2, salt 1"), ("strong", "salt 3"), ("gel", "salt 2")):
        jar = draw(st.none() | st.integers(20, 100))
        left_behind = draw(st.integers(0, 10)) if jar else 0
        wait, life = draw(WAITS), draw(LIVES)
        batch = draw(st.integers(1, 50))
        studio.makes(key, told, batch=batch, jar=jar, left_behind=left_behind, ready_after=wait, life=life)
    studio.buys("salt", delivery_days=draw(st.integers(0, 10)), pack=draw(st.none() | st.integers(1, 50)))
    for key in ("weak", "strong", "gel", "salt", "web"):
        for _ in range(draw(st.integers(0, 3))):
            ready = draw(st.none() | DAYS)
            use_by = draw(st.none() | DAYS)
            studio.holds(
                key,
                draw(AMOUNTS),
                kind=draw(st.sampled_from(["bought", "jar"])),
                ready_on=None if ready is None else day(ready).isoformat(),
                use_by=None if use_by is None else day(use_by).isoformat(),
                life_opened=draw(LIVES),
            )
        if draw(st.booleans()):
            studio.awaits(key, draw(AMOUNTS), day(draw(DAYS)))
    for _ in range(draw(st.integers(1, 8))):
        studio.books(draw(st.sampled_from(["weak", "strong", "gel", "salt", "web"])), draw(AMOUNTS), day(draw(DAYS)))
    first = draw(DAYS)
    closed = ClosedTime(first=day(first), last=day(first + draw(st.integers(0, 10))))
    studio.open_days = OpenDays(weekdays=draw(st.sampled_from([frozenset(), frozenset({5, 6})])), times=[closed])
    return studio


def met(studio: Studio, plan: Plan) -> Counter[tuple[str, str, date]]:
    """Return what was planned for each booking, by material and day."""
    found: Counter[tuple[str, str, date]] = Counter()
    for key in studio.materials:
        for one in studio.takings(plan, key):
            if one.demand.making is None:
                found[one.demand.what, key, one.demand.on] += one.quantity
    return found


@given(studios())
def test_every_booked_need_is_met_to_the_quantum(studio: Studio) -> None:
    plan = studio.plan()
    assert met(studio, plan) == Counter(
        {
            (one.booking.code, need.material.key, date.fromisoformat(one.booking.for_day)): total.quanta
            for one, needs in studio.worked
            for need, total in needs
        }
    )


@given(studios())
def test_no_lot_is_counted_beyond_what_it_holds_nor_outside_its_days(studio: Studio) -> None:
    plan = studio.plan()
    lots = {lot.code: lot for lot in studio.lots}
    taken: Counter[str] = Counter()
    for key in studio.materials:
        for one in studio.takings(plan, key):
            if one.source is not None:
                lot = lots[one.source]
                taken[one.source] += one.quantity
                assert lot.material.key == key
                assert lot.use_by is None or one.demand.on.isoformat() <= lot.use_by
                assert lot.ready_on is None or one.demand.on.isoformat() >= lot.ready_on
    assert all(quantity <= lots[code].balance.quantity for code, quantity in taken.items())


@given(studios())
def test_what_is_made_or_bought_covers_what_is_taken_of_it_and_is_never_past_its_date(studio: Studio) -> None:
    plan = studio.plan()
    for key, material in studio.materials.items():
        needs = plan.receipts.get(material.id, [])
        taken: Counter[int] = Counter()
        for one in studio.takings(plan, key):
            if one.receipt is not None:
                taken[one.receipt] += one.quantity
                assert one.demand.on >= needs[one.receipt].by
                assert set(one.demand.bookings) <= set(needs[one.receipt].bookings)
        for number, need in enumerate(needs):
            assert 0 < taken[number] <= need.quantity
            assert need.late == (need.there_from > need.by)
            assert need.begin_by <= need.by
            assert need.begin_by >= day(0) or need.late


@given(studios())
def test_every_making_has_its_ingredients_planned_on_the_day_it_begins(studio: Studio) -> None:
    """A quantum of strong takes three of salt, and so on: each making's draws are met in full."""
    plan = studio.plan()
    recipes = {"weak": {"strong": 2, "salt": 1}, "strong": {"salt": 3}, "gel": {"salt": 2}}
    for key, parts in recipes.items():
        material = studio.materials[key]
        for number, need in enumerate(plan.receipts.get(material.id, [])):
            for part, times in parts.items():
                drawn = [one for one in studio.takings(plan, part) if one.demand.making == (material.id, number)]
                assert sum(one.quantity for one in drawn) == need.quantity * times
                assert {one.demand.on for one in drawn} == {max(need.begin_by, day(0))}
