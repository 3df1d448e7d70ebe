"""When to make a jar afresh, by command: on the lot's page and among what is due."""

from __future__ import annotations

from typing import Any

from conftest import CommandLine
from titrations import JAR, titrate


def remake(jar: CommandLine, on: str) -> Any:
    return jar.json("--on", on, "lot", JAR)["remake"]


def remakes_due(jar: CommandLine, on: str) -> list[dict[str, Any]]:
    return [one for one in jar.json("--on", on, "due")["items"] if one["kind"] == "remake"]


def book(jar: CommandLine, day: str, quantity: str, fills: str) -> str:
    job = jar.json("--on", "2026-01-05", "job", "new", "Harbour charts", "--object", "Sheet 1, 30 x 40 cm")["code"]
    booked = jar.json(
        "--on", "2026-01-05", "book", "calcium-hydroxide-1-in-4", "--job", job, "--for", day, "--qty", quantity,
        "--fills", fills,
    )  # fmt: skip
    code: str = booked["code"]
    return code


def test_a_jar_nothing_is_booked_for_ends_by_its_date_and_is_not_due(jar: CommandLine) -> None:
    plan = remake(jar, "2026-01-05")
    assert (plan["by"], plan["reason"], plan["make"]) == ("2027-01-03", "use-by", None)
    assert remakes_due(jar, "2026-01-05") == []


def test_booked_baths_that_need_more_than_the_jar_holds_set_the_day(jar: CommandLine) -> None:
    """2 fills of 2.4 L at 1 in 4 are 1200 mL of 1000: 200 mL lack, one litre is made, begun a day before."""
    booked = book(jar, "2026-01-12", "2.4 L", "2")
    plan = remake(jar, "2026-01-05")
    assert (plan["by"], plan["reason"], plan["start_by"]) == ("2026-01-12", "volume", "2026-01-11")
    assert plan["make"]["unit"] == "mL"
    assert booked in plan["why"]
    due = remakes_due(jar, "2026-01-05")
    assert [(one["code"], one["by"]) for one in due] == [(JAR, "2026-01-11")]
    assert "begin by 2026-01-11" in due[0]["why"]
    assert "begin by 2026-01-11" in jar("--on", "2026-01-05", "lot", JAR).out


def test_a_trend_is_told_from_the_third_titration_on_and_kept_for_what_is_due(jar: CommandLine) -> None:
    """By hand: 10.9, 10.7, 10.5 mL ten days apart; at 22 °C 10.8 mL are about 98 %, so 90 % is near 9.9 mL.

    0.2 mL in ten days from 10.5 mL on 26 January reach it about 30 days later: the last week of February, give or
    take the rounding of the saturation.
    """
    for used, day in (("10.9 mL", "2026-01-06"), ("10.7 mL", "2026-01-16")):
        titrate(jar, used, on=day)
    assert "trend" not in str(remake(jar, "2026-01-16"))
    titrate(jar, "10.5 mL", on="2026-01-26")
    plan = remake(jar, "2026-01-26")
    assert plan["reason"] == "trend"
    assert "2026-02-18" <= plan["by"] <= "2026-03-04"
    due = remakes_due(jar, "2026-02-18")
    assert [(one["code"], one["by"]) for one in due] == [(JAR, plan["by"])]
    assert jar.json("verify")["problems"] == []


def test_solid_that_may_not_saturate_the_next_refill_is_told_as_a_range(jar: CommandLine) -> None:
    """4.75 g less 1.6 g for the first litre and for two litres of refills: none is left for a third."""
    for day in ("2026-01-06", "2026-01-08"):
        jar.json("--on", day, "take", JAR, "950 mL", "--why", "test")
        jar.json("--on", f"{day}T13:00", "top-up", JAR, "950 mL", "--temperature", "22")
    solid = next(one for one in remake(jar, "2026-01-10")["others"] if one["reason"] == "solid")
    assert solid["by"] is None
    assert "likeliest" in solid["why"]
    jar.json("--on", "2026-01-10", "take", JAR, "1 L", "--why", "test")
    due = remakes_due(jar, "2026-01-10")
    assert [(one["code"], one["by"]) for one in due] == [(JAR, "2026-01-10")]


def test_a_topping_up_over_solid_begins_the_line_through_the_checks_anew(jar: CommandLine) -> None:
    for used, day in (("11.0 mL", "2026-01-06"), ("10.7 mL", "2026-02-06"), ("10.4 mL", "2026-03-06")):
        titrate(jar, used, on=day)
    assert "trend" in {one["reason"] for one in reasons(jar, "2026-03-07")}
    jar.json("--on", "2026-03-08", "top-up", JAR, "75 mL", "--temperature", "22 °C")
    assert "trend" not in {one["reason"] for one in reasons(jar, "2026-03-10")}
    titrate(jar, "10.9 mL", on="2026-03-20")
    titrate(jar, "10.9 mL", on="2026-04-20")
    assert "trend" not in {one["reason"] for one in reasons(jar, "2026-04-21")}


def reasons(jar: CommandLine, on: str) -> list[Any]:
    plan = remake(jar, on)
    return [plan, *plan["others"]]


def test_what_is_to_be_made_is_due_on_the_day_on_which_the_plan_begins_it(jar: CommandLine) -> None:
    book(jar, "2026-01-12", "2.4 L", "2")
    (due,) = remakes_due(jar, "2026-01-05")
    (make,) = jar.json("--on", "2026-01-05", "plan")["make"]
    assert due["by"] == make["by"] == "2026-01-11"
