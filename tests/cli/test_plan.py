"""What booked work needs, from the command line: the answer to a booking, the plan, closed days, what is due."""

from __future__ import annotations

from typing import Any

import pytest
from conftest import CommandLine

from stockroom.store.open import Store

TODAY = ("--on", "2026-11-25T10:00")


@pytest.fixture
def bench(stockroom: CommandLine) -> CommandLine:
    """A stockroom with powder for calcium hydroxide solution and water, no jar of it, and one job."""
    stockroom.json("--on", "2026-11-01", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json("--on", "2026-11-01", "job", "new", "Harbour charts", "--object", "Sheet 1, 40 x 30 cm")
    return stockroom


def book(bench: CommandLine, recipe: str, day: str, *more: str) -> Any:
    return bench.json(*TODAY, "book", recipe, "--job", "Harbour", "--for", day, *more)


def only(lines: list[dict[str, Any]]) -> dict[str, Any]:
    (line,) = lines
    return line


def test_booking_says_at_once_what_must_be_made_first_and_by_when(bench: CommandLine) -> None:
    """1 in 4 of 500 mL takes 125 mL; a usual batch of 1 L settles 24 h, so it is begun the day before."""
    booked = book(bench, "calcium-hydroxide-1-in-4", "2026-12-02", "--qty", "500 mL")
    made = only(booked["make"])
    assert (booked["ready"], booked["buy"], booked["earliest"]) == (False, [], None)
    assert (made["what"], made["amount"], made["unit"]) == ("calcium-hydroxide-solution", "1000", "mL")
    assert (made["by"], made["needed_on"], made["late"]) == ("2026-12-01", "2026-12-02", False)
    assert made["bookings"] == [booked["code"]]
    assert "needs 125 mL, 0 mL will be fit to use" in made["why"]
    bench.json("--on", "2026-11-25T11:00", "make", "calcium-hydroxide-saturated", "1 L")
    assert book(bench, "calcium-hydroxide-1-in-4", "2026-12-03", "--qty", "500 mL")["ready"] is True


def test_what_the_making_itself_lacks_is_to_be_bought_before_it(bench: CommandLine) -> None:
    """500 g hold for 166 L; 200 L at 3 g a litre want 600 g: 100 g lack on the day the making begins."""
    booked = book(bench, "calcium-hydroxide-1-in-2", "2026-12-02", "--qty", "20 L", "--fills", "20")
    assert only(booked["make"])["amount"] == "200000"
    bought = only(booked["buy"])
    assert (bought["what"], bought["amount"], bought["unit"]) == ("calcium-hydroxide", "100", "g")
    assert bought["needed_on"] == only(booked["make"])["by"] == "2026-12-01"


def test_a_booking_that_cannot_be_met_in_time_says_so_and_from_when_on(bench: CommandLine) -> None:
    """Begun today at ten, it has settled tomorrow: not today."""
    booked = book(bench, "calcium-hydroxide-1-in-4", "today")
    assert (booked["earliest"], only(booked["make"])["late"]) == ("2026-11-26", True)
    ran = bench(*TODAY, "book", "--move", booked["code"], "2026-11-26")
    assert "by Wed 2026-11-25  make 1 L" in ran.out
    assert "earliest" not in ran.err


def test_a_booking_that_takes_what_another_counts_on_says_whose(bench: CommandLine) -> None:
    """10 sheets of blotter for the second booking; the first one of eight leaves two."""
    bench.json("--on", "2026-11-01", "supplier", "new", "Paper goods", "--delivery-days", "30")
    bench.json("--on", "2026-11-01", "receive", "blotter", "4 pieces", "--cost", "5.00", "--supplier", "Paper goods")
    bench.json("--on", "2026-11-01", "receive", "polyester-web-heavy", "10 sheets", "--cost", "64.00")
    first = book(bench, "press-between-webs", "2026-12-10")
    assert (first["ready"], first["makes_late"]) == (True, [])
    second = book(bench, "press-between-webs", "2026-12-05")
    assert second["ready"] is True
    assert second["makes_late"] == [first["code"]]


def test_planning_never_changes_the_ledger_nor_anything_else(bench: CommandLine, store: Store) -> None:
    book(bench, "calcium-hydroxide-1-in-4", "2026-12-02")
    before = list(store.connection.iterdump())
    bench.json(*TODAY, "plan")
    bench.json(*TODAY, "due")
    assert list(store.connection.iterdump()) == before


def test_the_plan_goes_by_week_and_shows_first_what_should_have_begun(bench: CommandLine) -> None:
    book(bench, "calcium-hydroxide-1-in-4", "2026-11-25")
    book(bench, "local-mend", "2026-12-20")
    out = bench(*TODAY, "plan").out
    assert out.index("Should have begun already") < out.index("Week of Mon 2026-12-14")
    assert "by Tue 2026-11-24  make 1 L of Calcium hydroxide solution (calcium-hydroxide-saturated)  LATE" in out
    plan = bench.json(*TODAY, "plan")
    assert {line["what"] for line in plan["buy"]} >= {"wheat-starch", "blotter"}
    assert [line["late"] for line in plan["make"]] == [True, False]
    assert bench.json(*TODAY, "plan", "--within", "5")["buy"] == []


def test_a_plan_without_bookings_is_empty_and_says_so(stockroom: CommandLine) -> None:
    plan = stockroom.json(*TODAY, "plan")
    assert (plan["make"], plan["buy"], plan["not_worked_out"]) == ([], [], [])
    assert "Nothing is booked" in stockroom(*TODAY, "plan").out
    assert stockroom(*TODAY, "plan", "--within", "-1").code == 2


def test_a_booking_that_cannot_be_worked_out_is_told_and_not_dropped(stockroom: CommandLine) -> None:
    job = stockroom.json(*TODAY, "job", "new", "Charts", "--object", "Sheet 1")["code"]
    booked = stockroom.json(*TODAY, "book", "press-between-webs", "--job", job, "--for", "tomorrow")
    assert booked["ready"] is False
    (trouble,) = stockroom.json(*TODAY, "plan")["not_worked_out"]
    assert booked["code"] in trouble
    assert "Sheet 1" in trouble


def test_making_begins_on_the_last_open_day_before_a_break(bench: CommandLine) -> None:
    """Wanted on Monday 4 January; closed from 24 December to 3 January: begun on Wednesday the 23rd."""
    bench.json(*TODAY, "closed", "new", "2026-12-24", "--until", "2027-01-03", "--note", "winter break")
    booked = book(bench, "calcium-hydroxide-1-in-4", "2027-01-04")
    assert only(booked["make"])["by"] == "2026-12-23"
    bench.json(*TODAY, "closed", "drop", "2026-12-31")
    assert only(bench.json(*TODAY, "plan", "--within", "60")["make"])["by"] == "2027-01-03"


def test_closed_weekdays_of_a_supplier_bring_the_order_forward(bench: CommandLine) -> None:
    """Two days' delivery before Tuesday 8 December is Sunday; the supplier works Monday to Friday: Friday the 4th.

    Three are lacking of four; blotter comes in packs of 25.
    """
    bench.json(*TODAY, "supplier", "new", "Paper goods", "--delivery-days", "2")
    bench.json("--on", "2026-11-01", "receive", "polyester-web-heavy", "10 sheets", "--cost", "64.00")
    bench.json("--on", "2026-11-01", "receive", "blotter", "1 pieces", "--cost", "2.00", "--supplier", "Paper goods")
    bench.json(*TODAY, "closed", "weekdays", "Sat, Sun", "--supplier", "Paper goods")
    booked = book(bench, "press-between-webs", "2026-12-08")
    bought = only(booked["buy"])
    assert (bought["what"], bought["amount"], bought["by"], bought["supplier"]) == (
        "blotter", "25", "2026-12-04", "Paper goods",
    )  # fmt: skip


def test_closed_days_are_listed_changed_and_keep_who_changed_them(stockroom: CommandLine, store: Store) -> None:
    stockroom.json(*TODAY, "closed", "new", "2026-12-24", "--until", "2027-01-02", "--note", "winter break")
    kept = stockroom.json(*TODAY, "closed", "weekdays", "sat sun")
    assert kept["weekdays"] == ["Saturday", "Sunday"]
    assert only(stockroom.json(*TODAY, "closed", "list")["closed"])["times"] == [
        {"first": "2026-12-24", "last": "2027-01-02", "note": "winter break"}
    ]
    assert stockroom.json("--on", "2027-02-01", "closed", "weekdays", "none")["weekdays"] == []
    assert stockroom.json("--on", "2027-02-01", "closed", "list")["closed"] == []
    assert only(stockroom.json("--on", "2027-02-01", "closed", "list", "--all")["closed"])["whose"] == "the studio"
    edits = store.rows("SELECT field, became, initials FROM edit WHERE noun = 'closed days' ORDER BY id")
    assert [(row["field"], row["became"], row["initials"]) for row in edits] == [
        ("closed", "2026-12-24 to 2027-01-02 (winter break)", "AB"),
        ("weekdays", "Saturday, Sunday", "AB"),
        ("weekdays", None, "AB"),
    ]


@pytest.mark.parametrize(
    ("arguments", "code", "named"),
    [
        (("new", "2026-11-24"), 2, "passed"),
        (("new", "2026-12-24", "--until", "2026-12-20"), 2, "before it begins"),
        (("new", "2026-12-24", "--until", "2028-01-02"), 2, "more than a year"),
        (("new", "2026-12-31"), 1, "already"),
        (("new", "03/04/2027"), 2, "2027-04-03"),
        (("new", "2027-02-01", "--supplier", "nobody"), 2, "nobody"),
        (("new", "2027-02-01", "--note", ""), 2, "note"),
        (("weekdays", "sat, funday"), 2, "funday"),
        (("weekdays", "t"), 2, "not a weekday"),
        (("weekdays", "mon tue wed thu fri sat sun"), 2, "seven"),
        (("weekdays", ""), 2, "none"),
        (("drop", "2026-12-01"), 2, "2026-12-01"),
    ],
)
def test_closed_days_that_cannot_be_are_refused(
    stockroom: CommandLine, arguments: tuple[str, ...], code: int, named: str
) -> None:
    stockroom.json(*TODAY, "closed", "new", "2026-12-24", "--until", "2027-01-02")
    before = stockroom.json(*TODAY, "closed", "list")
    failed = stockroom(*TODAY, "closed", *arguments)
    assert failed.code == code
    assert named in failed.err
    assert stockroom.json(*TODAY, "closed", "list") == before


def due(bench: CommandLine, *more: str, kinds: tuple[str, ...] = ("make-by", "short")) -> list[dict[str, Any]]:
    return [one for one in bench.json(*TODAY, "due", *more)["items"] if one["kind"] in kinds]


def test_a_making_for_a_booking_is_due_by_the_day_it_must_begin(bench: CommandLine) -> None:
    book(bench, "calcium-hydroxide-1-in-4", "2026-12-02", "--qty", "500 mL")
    made = only(due(bench))
    assert (made["kind"], made["code"], made["by"]) == ("make-by", "calcium-hydroxide-solution", "2026-12-01")
    assert "make 1 L by calcium-hydroxide-saturated" in made["why"]
    assert due(bench, "--within", "5") == []


def test_what_must_be_bought_for_a_booking_is_short_until_it_is_there(bench: CommandLine) -> None:
    """Nobody knows how long its delivery takes: fourteen days are taken, so it is to be ordered today."""
    bench.json("--on", "2026-11-01", "receive", "polyester-web-heavy", "10 sheets", "--cost", "64.00")
    booked = book(bench, "press-between-webs", "2026-12-02")
    short = only(due(bench))
    assert (short["kind"], short["code"], short["by"]) == ("short", booked["code"], "2026-12-02")
    assert "Blotter: 4 pieces needed, 0 pieces will be fit to use; order by 2026-11-25" in short["why"]
    bench.json(*TODAY, "receive", "blotter", "4 pieces", "--cost", "5.00")
    assert due(bench) == []


def test_before_a_break_what_must_settle_for_the_first_morning_is_due(bench: CommandLine) -> None:
    """Away until Sunday the 6th, with nothing kept as closed: what Monday needs settled is begun today."""
    book(bench, "calcium-hydroxide-1-in-4", "2026-12-07")
    assert only(due(bench))["by"] == "2026-12-06"
    assert only(due(bench, "--until", "2026-12-06"))["by"] == "2026-11-25"
    assert bench(*TODAY, "due", "--until", "2026-11-24").code == 2
    assert bench(*TODAY, "due", "--until", "2026-12-06", "--within", "3").code == 2


def test_before_a_break_what_passes_its_date_or_gives_off_gas_is_named(bench: CommandLine) -> None:
    """Magnesium bicarbonate keeps for days in a vented bottle; citrate is past its date in the break."""
    bench.json("--on", "2026-11-24", "receive", "magnesium-carbonate", "500 g", "--cost", "9.00")
    bench.json("--on", "2026-11-24T10:00", "make", "magnesium-bicarbonate", "1 L")
    named = due(bench, "--until", "2026-12-06", kinds=("use-first",))
    assert len(named) == 1
    assert "vented" in named[0]["why"]
    assert "2026-11-27" in named[0]["why"]


def test_sheets_are_bought_whole_after_the_layout_of_the_cuts(bench: CommandLine) -> None:
    """Five of 297 x 210 mm come out of 760 x 560 mm (see science, cutting): six objects take two sheets, not one.

    By area six would be 0.88 of a sheet. What is used is booked by area all the same.
    """
    bench.json("material", "new", "Lining paper", "--measured-by", "area", "--sheet", "760 x 560 mm")
    recipe = bench.path.parent / "line.toml"
    recipe.write_text(
        """
        [recipe]
        key = "line"
        name = "Line"
        kind = "treatment"
        [[line]]
        material = "lining-paper"
        amount = "6 each of 297 x 210 mm"
        """,
        "utf-8",
    )
    bench.json("recipe", "new", "--from", str(recipe))
    bought = only(book(bench, "line", "2026-12-10")["buy"])
    assert (bought["what"], bought["amount"], bought["unit"]) == ("lining-paper", str(2 * 76 * 56), "cm2")
    bench.json(*TODAY, "receive", "lining-paper", "1 sheet", "--cost", "4.00")
    (short,) = [item for item in bench.json(*TODAY, "due", "--within", "30")["items"] if item["kind"] == "short"]
    assert "about 1.2 sheets needed, 1 sheet will be fit to use" in short["why"]
    assert (
        "needs about 1.2 sheets, 1 sheet will be here"
        in only(bench.json(*TODAY, "plan", "--within", "60")["buy"])["why"]
    )
    used = bench.json(*TODAY, "use", "line", "--job", "Harbour")
    assert only(used["drawn"])["amount"] == "3742.2"


def test_makings_are_planned_in_full_jars_and_what_stays_behind_is_not_counted_on(bench: CommandLine) -> None:
    """Jars of 500 mL of which 100 mL stay behind: 125 mL take one jar, 1000 mL take three of 400 mL each."""
    kept = bench.json(*TODAY, "jars", "calcium-hydroxide-saturated", "--size", "½ L", "--stays", "100 mL")
    assert (kept["size"], kept["stays"], kept["unit"]) == ("500", "100", "mL")
    booked = book(bench, "calcium-hydroxide-1-in-4", "2026-12-02", "--qty", "500 mL")
    assert only(booked["make"])["amount"] == "500"
    bench.json(*TODAY, "book", "--cancel", booked["code"])
    booked = book(bench, "calcium-hydroxide-1-in-4", "2026-12-02", "--qty", "4 L")
    assert only(booked["make"])["amount"] == "1500"
    assert bench.json(*TODAY, "jars")["jars"] == [kept]
    bench.json(*TODAY, "jars", "calcium-hydroxide-saturated", "--any")
    assert only(bench.json(*TODAY, "plan")["make"])["amount"] == "1000"
    assert bench.json(*TODAY, "jars")["jars"] == []


def test_what_stays_behind_in_a_jar_that_is_there_is_not_counted_on(bench: CommandLine) -> None:
    """A litre of which 100 mL stay behind meets 900 mL and no more."""
    bench.json("--on", "2026-11-20", "make", "calcium-hydroxide-saturated", "1 L")
    bench.json(*TODAY, "jars", "calcium-hydroxide-saturated", "--size", "1 L", "--stays", "100 mL")
    assert book(bench, "calcium-hydroxide-1-in-4", "2026-12-02", "--qty", "3.6 L")["ready"] is True
    booked = book(bench, "calcium-hydroxide-1-in-4", "2026-12-03", "--qty", "4 mL")
    assert "needs 1 mL, 0 mL will be fit to use" in only(booked["make"])["why"]


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        (("calcium-hydroxide-saturated",), "--size"),
        (("calcium-hydroxide-saturated", "--size", "1 L", "--any"), "--size"),
        (("calcium-hydroxide-saturated", "--size", "100 g"), "100 g"),
        (("calcium-hydroxide-saturated", "--size", "0 mL"), "0 mL"),
        (("calcium-hydroxide-saturated", "--size", "100 mL", "--stays", "100 mL"), "gives nothing"),
        (("calcium-hydroxide-saturated", "--any", "--stays", "100 mL"), "--size"),
        (("wash", "--size", "1 L"), "treatment"),
        (("nothing of this name", "--size", "1 L"), "nothing of this name"),
        (("--size", "1 L"), "recipe"),
    ],
)
def test_a_jar_that_cannot_be_is_refused(stockroom: CommandLine, arguments: tuple[str, ...], named: str) -> None:
    failed = stockroom(*TODAY, "jars", *arguments)
    assert failed.code == 2
    assert named in failed.err
    assert stockroom.json(*TODAY, "jars")["jars"] == []


def test_a_booking_names_what_may_stand_in_and_what_is_measured_to_a_reading(bench: CommandLine) -> None:
    bench.json("--on", "2026-11-01", "receive", "blotter", "25 pieces", "--cost", "29.50")
    bench.json("--on", "2026-11-01", "receive", "polyester-web-heavy", "2 sheets", "--cost", "12.80")
    booked = book(bench, "wash", "2026-12-02")
    assert [one["what"] for one in booked["buy"]] == ["polyester-web-light"]
    assert booked["stand_ins"] == ["Polyester web, heavy may stand in for Polyester web, light: 1.4 m² is here"]
    assert booked["to_a_reading"] == ["Calcium hydroxide solution"]


def test_a_booking_on_a_closed_day_is_kept_and_says_so(bench: CommandLine) -> None:
    bench.json(*TODAY, "closed", "weekdays", "Sat, Sun")
    ran = bench(*TODAY, "book", "calcium-hydroxide-1-in-4", "--job", "Harbour", "--for", "2026-12-05")
    assert ran.code == 0
    assert "2026-12-05 is kept as closed" in ran.err
    assert "by Fri 2026-12-04" in ran.out


def test_a_weaker_lot_counts_for_less(bench: CommandLine) -> None:
    """Ten grams of 50 % do the work of five; a usual batch of gel, 500 mL of 5 % w/v, takes 25 g."""
    bench.json("--on", "2026-11-01", "receive", "methyl-cellulose", "10 g", "--cost", "2.00", "--purity", "50 % w/w")
    booked = book(bench, "facing", "2026-12-10")
    powder = only([one for one in booked["buy"] if one["what"] == "methyl-cellulose"])
    assert "needs 25 g, 5 g will be here" in powder["why"]


def test_a_making_too_late_for_another_booking_is_not_late_for_this_one(bench: CommandLine) -> None:
    """One making serves both: too late for today's bath, in time for next week's."""
    book(bench, "calcium-hydroxide-1-in-4", "today")
    ran = bench(*TODAY, "book", "calcium-hydroxide-1-in-4", "--job", "Harbour", "--for", "2026-12-02")
    assert "To be there in time:" in ran.out
    assert "LATE" not in ran.out
    assert "earliest day" not in ran.err
