"""When a jar must be made afresh, by numbers worked out by hand; the shelves are constructed."""

from __future__ import annotations

import shelf_words as words

from stockroom.domain.recipes import RecipeVersion
from stockroom.planning.remake import (
    Needed,
    Reason,
    date_reasons,
    lacking,
    plan_remake,
    solid_reason,
    start_by,
    volume_reason,
)
from stockroom.science.quantities import Dimension, Quantity

NOW = words.moment("2026-03-01T12:00")
LITRE = 1_000_000
STOCK = RecipeVersion(batch=Quantity(Dimension.VOLUME, LITRE), life="30 days", ready_after="24 h")


def needed(code: str, day: str, millilitres: int) -> Needed:
    return Needed(booking=code, day=day, quantity=millilitres * 1000)


def test_the_booking_that_runs_the_jars_dry_sets_the_day() -> None:
    """1000 mL less 600 on the 5th leaves 400: the 600 mL of the 9th lack 200."""
    jar = words.lot("A1", LITRE, kind="jar")
    booked = [needed("K2", "2026-03-09", 600), needed("K1", "2026-03-05", 600)]
    assert lacking([jar], booked, None) == [(booked[0], 200_000)]
    found = volume_reason([jar], booked, NOW)
    assert found is not None
    assert (found.by, found.why) == (
        "2026-03-09",
        "600 mL needed for K2 on 2026-03-09, 400 mL of it will be fit to use",
    )
    assert volume_reason([jar], booked[1:], NOW) is None


def test_what_another_jar_covers_is_not_made() -> None:
    """The 500 mL of the 9th come out of the second jar when the first is past its date on the 7th."""
    old = words.lot("A1", LITRE, kind="jar", use_by="2026-03-07")
    second = words.lot("A2", LITRE, kind="jar", use_by="2026-06-30")
    booked = [needed("K1", "2026-03-09", 500)]
    plan = plan_remake(old, date_reasons(old, NOW), [old, second], booked, STOCK, NOW)
    assert plan is not None
    assert (plan.reason, plan.by, plan.make) == ("use-by", "2026-03-07", None)


def test_what_is_booked_within_the_next_life_is_made_in_whole_batches() -> None:
    """From 7 March, 30 days end on 6 April: 700 + 600 mL are 2 litres in whole ones; the 900 mL of the 20th wait."""
    jar = words.lot("A1", LITRE, kind="jar", use_by="2026-03-07")
    booked = [needed("K1", "2026-03-09", 700), needed("K2", "2026-04-06", 600), needed("K3", "2026-04-20", 900)]
    plan = plan_remake(jar, date_reasons(jar, NOW), [jar], booked, STOCK, NOW)
    assert plan is not None
    assert plan.make == Quantity(Dimension.VOLUME, 2 * LITRE)
    assert plan.start_by == "2026-03-06"


def test_the_earliest_reason_rules_and_the_others_are_told_after_it() -> None:
    jar = words.lot("A1", LITRE, kind="jar", use_by="2026-06-30", check_by="2026-02-20")
    trend = Reason(reason="trend", by="2026-04-01", why="falls")
    refill = solid_reason(jar, "0.4 to 0.8 refills", None, NOW)
    plan = plan_remake(jar, [*date_reasons(jar, NOW), refill, trend], [jar], [], STOCK, NOW)
    assert plan is not None
    assert (plan.reason, plan.by) == ("overdue check", "2026-02-20")
    assert [(one.reason, one.by) for one in plan.others] == [
        ("trend", "2026-04-01"), ("use-by", "2026-06-30"), ("solid", None),
    ]  # fmt: skip


def test_of_an_empty_jar_no_check_is_missed() -> None:
    """Only its solid is left: nothing can be titrated, and what is booked does not wait for it."""
    empty = words.lot("A1", 0, kind="jar", use_by="2026-06-30", check_by="2026-02-20")
    assert [one.reason for one in date_reasons(empty, NOW)] == ["use-by"]


def test_a_check_that_is_not_yet_overdue_is_no_reason_and_a_failed_one_is_one_today() -> None:
    assert date_reasons(words.lot("A1", kind="jar", check_by="2026-03-01"), NOW) == []
    failed = words.lot("A1", kind="jar", unfit="check: weak by titration on 2026-02-27")
    assert [(one.reason, one.by) for one in date_reasons(failed, NOW)] == [("failed check", "2026-03-01")]
    assert date_reasons(words.lot("A1", kind="jar", unfit="withdrawn"), NOW) == []


def test_solid_used_up_ends_a_jar_when_its_liquid_runs_out() -> None:
    jar = words.lot("A1", LITRE, kind="jar")
    assert solid_reason(jar, "0.4 of a refill", "2026-03-09", NOW).by == "2026-03-09"
    dry = words.lot("A1", 0, kind="jar", state="solid only")
    assert solid_reason(dry, "0.4 of a refill", None, NOW).by == "2026-03-01"


def test_making_begins_so_early_that_it_has_settled() -> None:
    """24 h before noon of the 9th is the 8th; 3 days before it the 6th; 24 h before a minute of the 9th the 8th."""
    assert start_by("2026-03-09", "24 h") == "2026-03-08"
    assert start_by("2026-03-09", "3 days") == "2026-03-06"
    assert start_by("2026-03-09T09:00", "24 h") == "2026-03-08"
    assert start_by("2026-03-09", "4 h") == "2026-03-09"
    assert start_by("2026-03-09", None) == "2026-03-09"


def test_too_late_to_settle_is_said_with_the_day_it_would_be_ready() -> None:
    jar = words.lot("A1", 100_000, kind="jar")
    booked = [needed("K1", "2026-03-01", 500)]
    short = volume_reason([jar], booked, NOW)
    assert short is not None
    plan = plan_remake(jar, [short], [jar], booked, STOCK, NOW)
    assert plan is not None
    assert plan.start_by == "2026-02-28"
    assert plan.why.endswith("begun now, the next is ready 2026-03-02, 12:00")
