"""Using a bath or a treatment for a job from the command line."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

NOW = ("--on", "2026-11-28T10:00")
BATH = "calcium-hydroxide-1-in-4"
STOCK = "calcium-hydroxide-solution"
READING = "conditioned-wash-water"


def receive(stockroom: Any, material: str, quantity: str, cost: str = "10.00", *more: str) -> str:
    code: str = stockroom.json(*NOW, "receive", material, quantity, "--cost", cost, *more)["code"]
    return code


def new_job(stockroom: Any, title: str = "Harbour charts") -> str:
    code: str = stockroom.json(
        *NOW, "job", "new", title, "--object", "Sheet 1, 30 x 40 cm", "--object", "Sheet 2, 20 x 30 cm"
    )["code"]
    return code


def held(stockroom: Any, code: str) -> tuple[str, str]:
    lot = stockroom.json(*NOW, "lot", code)
    return lot["amount"], lot["value"]


def amounts(document: dict[str, Any]) -> dict[str, Decimal]:
    """Add up what was drawn of each material."""
    total: dict[str, Decimal] = {}
    for one in document["drawn"]:
        total[one["material"]] = total.get(one["material"], Decimal(0)) + Decimal(one["amount"])
    return total


def stock_up(stockroom: Any) -> None:
    """Put on the shelf what deacidifying and sizing takes."""
    receive(stockroom, STOCK, "5 L", "8.00")
    receive(stockroom, "methyl-cellulose-gel", "2 L", "6.00")
    receive(stockroom, "polyester-web-light", "10 m2", "25.00")
    receive(stockroom, "blotter", "25 sheets", "20.00")


def test_a_bath_1_in_4_of_half_a_litre_draws_125_millilitres(stockroom: Any) -> None:
    """One in four of 500 mL is 125 mL (USP, general notices: 1 in 10 is one part in ten of the finished volume).

    By hand: 125 mL of 2 L for 8.00 cost 0.50.
    """
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    job = new_job(stockroom)
    used = stockroom.json(*NOW, "use", BATH, "--job", job, "--qty", "500 mL")
    assert [(one["code"], one["amount"], one["unit"], one["cost"]) for one in used["drawn"]] == [
        (jar, "125", "mL", "0.50")
    ]
    assert (used["cost"], used["job"], used["fill"], used["unit"], used["fills"]) == ("0.50", job, "500", "mL", 1)
    assert (used["short"], used["objects"]) == ([], [])
    assert used["strength"] == "about 0.4 g/L calcium hydroxide"
    assert held(stockroom, jar) == ("1875", "7.50")
    assert stockroom.json("cost", job)["total"] == "0.50"


def test_a_bath_changed_once_takes_exactly_twice_the_materials(stockroom: Any) -> None:
    """An odd fill, 333 mL, so that doubling after rounding and rounding after doubling would differ."""
    stock_up(stockroom)
    job = new_job(stockroom)
    asked = ("use", "calcium-hydroxide-1-in-4-with-methyl-cellulose", "--job", job, "--qty", "333 mL", "--dry-run")
    once, twice = (stockroom.json(*NOW, *asked, "--fills", fills) for fills in ("1", "2"))
    assert amounts(twice) == {material: 2 * amount for material, amount in amounts(once).items()}
    assert amounts(once)[STOCK] == Decimal("83.25")


def test_changing_the_bath_takes_a_second_bath_but_no_second_set_of_webs(stockroom: Any) -> None:
    """By hand for 30 x 40 cm and 20 x 30 cm: webs twice 36 x 46 and twice 26 x 36 cm are 3312 + 1872 cm²."""
    stock_up(stockroom)
    job = new_job(stockroom)
    asked = ("use", "deacidify-and-size", "--job", job, "--qty", "1 L", "--dry-run")
    once, twice = (amounts(stockroom.json(*NOW, *asked, "--fills", fills)) for fills in ("1", "2"))
    assert once[STOCK] == 250
    assert once["methyl-cellulose-gel"] == 100
    assert once["polyester-web-light"] == 3312 + 1872
    assert once["blotter"] == 4
    assert twice == {**once, STOCK: 500, "methyl-cellulose-gel": 200}


def test_a_treatment_is_costed_to_the_cent(stockroom: Any) -> None:
    """By hand for one object of 30 x 40 cm and one fill of 1 L.

    Stock 250 mL of 5 L for 8.00 are 0.40; gel 100 mL of 2 L for 6.00 are 0.30; web 3312 cm² of 10 m² for 25.00 are
    0.828, so 0.83; blotter 2 of 25 for 20.00 are 1.60; in all 3.13.
    """
    stock_up(stockroom)
    job = new_job(stockroom)
    used = stockroom.json(*NOW, "use", "deacidify-and-size", "--job", job, "--object", "sheet 1")
    costs = {one["material"]: one["cost"] for one in used["drawn"]}
    assert costs == {
        STOCK: "0.40",
        "methyl-cellulose-gel": "0.30",
        "polyester-web-light": "0.83",
        "blotter": "1.60",
    }
    assert (used["cost"], used["objects"]) == ("3.13", ["Sheet 1"])
    assert stockroom.json("cost", job)["total"] == "3.13"
    assert stockroom.json("verify")["problems"] == []


def test_the_oldest_date_goes_first_and_a_second_lot_makes_up_the_rest(stockroom: Any) -> None:
    """By hand: 125 mL are 100 mL of the lot that ends first (all its 3.00) and 25 mL of the other (8.00 / 80)."""
    later = receive(stockroom, STOCK, "2 L", "8.00", "--use-by", "2027-12")
    sooner = receive(stockroom, STOCK, "100 mL", "3.00", "--use-by", "2027-01")
    receive(stockroom, STOCK, "1 L", "9.00", "--use-by", "2026-11-27")
    used = stockroom.json(*NOW, "use", BATH, "--job", new_job(stockroom), "--qty", "500 mL")
    assert [(one["code"], one["amount"], one["cost"]) for one in used["drawn"]] == [
        (sooner, "100", "3.00"),
        (later, "25", "0.10"),
    ]
    assert used["cost"] == "3.10"


@pytest.mark.parametrize("amount", ["1:4", "500", "0 mL", "500 g", "1,500 mL", "=1+1", "-500 mL"])
def test_a_fill_that_cannot_be_read_draws_nothing(stockroom: Any, amount: str) -> None:
    jar = receive(stockroom, STOCK, "2 L")
    assert stockroom(*NOW, "use", BATH, "--job", new_job(stockroom), f"--qty={amount}").code == 2
    assert held(stockroom, jar) == ("2000", "10.00")


def test_a_bare_ratio_is_refused_with_both_readings(stockroom: Any) -> None:
    failed = stockroom(*NOW, "use", BATH, "--job", new_job(stockroom), "--qty", "1:4")
    assert failed.code == 2
    assert "1 in 4" in failed.err
    assert "1 + 4" in failed.err


@pytest.mark.parametrize("fills", ["0", "-1", "two"])
def test_a_bath_is_filled_once_at_least(stockroom: Any, fills: str) -> None:
    receive(stockroom, STOCK, "2 L")
    assert stockroom(*NOW, "use", BATH, "--job", new_job(stockroom), f"--fills={fills}").code == 2


def test_everything_that_is_short_is_said_at_once_and_nothing_is_drawn(stockroom: Any) -> None:
    """For 30 x 40 and 20 x 30 cm and two fills of 1 L: 500 mL, 200 mL, 5184 cm² and 4 blotters are needed."""
    jar = receive(stockroom, STOCK, "5 L", "8.00")
    blotter = receive(stockroom, "blotter", "3 sheets", "3.00")
    job = new_job(stockroom)
    for dry in ((), ("--dry-run",)):
        short = stockroom.json(*NOW, "use", "deacidify-and-size", "--job", job, "--fills", "2", *dry, code=1)
        assert short["short"] == [
            {"material": "methyl-cellulose-gel", "needed": "200", "available": "0", "unit": "mL"},
            {"material": "polyester-web-light", "needed": "5184", "available": "0", "unit": "cm2"},
            {"material": "blotter", "needed": "4", "available": "3", "unit": "pieces"},
        ]
        assert short.get("action") is None
        assert (short["drawn"], short["error"]["kind"]) == ([], "short")
    assert held(stockroom, jar) == ("5000", "8.00")
    assert held(stockroom, blotter) == ("3", "3.00")
    assert stockroom.json("cost", job)["total"] == "0.00"


def test_an_unfit_lot_needs_a_reason_and_the_reason_is_kept(stockroom: Any) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00", "--use-by", "2026-11-27")
    asked = ("use", BATH, "--job", new_job(stockroom), "--qty", "500 mL")
    assert jar in stockroom.json(*NOW, *asked, code=1)["error"]["message"]
    refused = stockroom.json(*NOW, *asked, "--from", jar, code=1)
    assert refused["error"]["kind"] == "refused"
    assert "--why" in refused["error"]["message"]
    assert held(stockroom, jar) == ("2000", "8.00")
    used = stockroom.json(*NOW, *asked, "--from", jar, "--why", "titrated this morning")
    assert "past use-by 2026-11-27" in used["drawn"][0]["override"]
    assert used["why"] == "titrated this morning"
    assert "titrated this morning" in [line["reason"] for line in stockroom.json(*NOW, "lot", jar)["history"]]


def test_what_was_really_poured_is_drawn(stockroom: Any) -> None:
    """By hand: 130 mL of 2 L for 8.00 cost 0.52."""
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    took = ("--took", "calcium hydroxide solution=130 mL")
    used = stockroom.json(*NOW, "use", BATH, "--job", new_job(stockroom), "--qty", "500 mL", *took)
    assert (used["drawn"][0]["amount"], used["cost"]) == ("130", "0.52")
    assert held(stockroom, jar) == ("1870", "7.48")


def test_a_dry_run_equals_the_booking_and_books_nothing(stockroom: Any) -> None:
    stock_up(stockroom)
    asked = ("use", "deacidify-and-size", "--job", new_job(stockroom), "--fills", "2")
    before = stockroom.json(*NOW, "shelf")["lots"]
    plan = stockroom.json(*NOW, *asked, "--dry-run")
    assert (plan["action"], plan["code"]) == (None, None)
    assert stockroom.json(*NOW, "shelf")["lots"] == before
    booked = stockroom.json(*NOW, *asked)
    assert booked["action"].startswith("A")
    assert {**plan, "action": None} == {**booked, "action": None}


def test_a_bath_to_a_reading_ends_with_its_plan_and_books_nothing(stockroom: Any) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    job = new_job(stockroom)
    plan = stockroom.json(*NOW, "use", READING, "--job", job)
    assert plan["action"] is None
    assert "pH 8.0-8.5" in plan["waits_for"]
    told = stockroom(*NOW, "use", READING, "--job", job)
    assert told.code == 0
    assert "--added AMOUNT --reached READING" in told.out
    assert held(stockroom, jar) == ("2000", "8.00")


def test_the_first_dose_follows_the_batch(stockroom: Any) -> None:
    """The recipe begins with 0.5 mL for a litre: 2 mL for four."""
    receive(stockroom, STOCK, "2 L", "8.00")
    plan = stockroom.json(*NOW, "use", READING, "--job", new_job(stockroom), "--qty", "4 L")
    assert plan["waits_for"].endswith("beginning with about 2 mL")


@pytest.mark.parametrize("option", [("--qty", "1 L"), ("--fills", "2")])
def test_a_treatment_without_a_bath_has_no_fills(stockroom: Any, option: tuple[str, str]) -> None:
    job = new_job(stockroom)
    for words in (("use", "press-between-webs"), ("book", "press-between-webs", "--for", "tomorrow")):
        refused = stockroom(*NOW, *words, "--job", job, *option)
        assert refused.code == 2
        assert "has no bath" in refused.err


@pytest.mark.parametrize("added", [("--added", "0.6 mL"), ("--took", "calcium-hydroxide-solution=0.6 mL")])
def test_what_went_in_and_the_reading_book_it_with_its_clock_time(stockroom: Any, added: tuple[str, str]) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    job = new_job(stockroom)
    assert stockroom(*NOW, "use", READING, "--job", job, *added).code == 2
    used = stockroom.json(*NOW, "use", READING, "--job", job, *added, "--reached", "pH 8.2 at 21 °C")
    assert used["action"].startswith("A")
    assert (used["strength"], used["waits_for"]) == ("to pH 8.2 at 21 °C, 10:00", None)
    assert held(stockroom, jar)[0] == "1999.4"


def test_each_fill_to_a_reading_has_its_own(stockroom: Any) -> None:
    jar, job = receive(stockroom, STOCK, "2 L", "8.00"), new_job(stockroom)
    plan = stockroom.json(*NOW, "use", READING, "--job", job, "--fills", "2")
    assert plan["waits_for"].endswith("beginning with 0.5 mL, each of 2 fills anew")
    asked = ("use", READING, "--job", job, "--fills", "2", "--added", "0.6 mL")
    one = stockroom(*NOW, *asked, "--reached", "pH 8.2 at 21 °C")
    assert one.code == 2
    assert "Each of the 2 fills is measured anew" in one.err
    both = ("--added", "0.5 mL", "--reached", "pH 8.2 at 21 °C", "--reached", "pH 8.1 at 20 °C")
    assert stockroom(*NOW, *asked, "--added", "9 mL", *both).code == 2
    assert held(stockroom, jar) == ("2000", "8.00")
    used = stockroom.json(*NOW, *asked, *both)
    assert (used["drawn"][0]["amount"], used["strength"]) == ("1.1", "to pH 8.2 at 21 °C and pH 8.1 at 20 °C, 10:00")


@pytest.mark.parametrize("reached", ["pH 7.9", "pH 8.6", "9"])
def test_a_reading_outside_the_range_needs_a_reason(stockroom: Any, reached: str) -> None:
    receive(stockroom, STOCK, "2 L", "8.00")
    asked = ("use", READING, "--job", new_job(stockroom), "--added", "0.6 mL", "--reached", reached)
    assert stockroom(*NOW, *asked).code == 1
    assert stockroom(*NOW, *asked, "--why", "the water drifts").code == 0


@pytest.mark.parametrize(
    ("said", "named"),
    [
        (("--reached", "pH 8.2"), "--added"),
        (("--added", "0.6 mL", "--reached", "pH 8.2 at 300 °C"), "300 °C"),
        (("--added", "0.6 mL", "--reached", "pH 8.2 at noon"), "noon"),
    ],
)
def test_half_a_reading_or_one_no_bath_can_have_is_refused_and_nothing_is_booked(
    stockroom: Any, said: tuple[str, ...], named: str
) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    refused = stockroom.json(*NOW, "use", READING, "--job", new_job(stockroom), *said, code=2)
    assert named in refused["error"]["message"]
    assert held(stockroom, jar) == ("2000", "8.00")


def test_a_lot_that_came_later_is_not_drawn_even_when_it_is_counted_first(stockroom: Any) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    asked = ("use", BATH, "--job", new_job(stockroom), "--from", jar, "--count-first", "--day", "2020-01-01")
    assert "was not here yet" in stockroom.json(*NOW, *asked, code=1)["error"]["message"]
    assert held(stockroom, jar) == ("2000", "8.00")


def test_a_booking_is_done_once_by_its_use(stockroom: Any) -> None:
    receive(stockroom, STOCK, "2 L", "8.00")
    job = new_job(stockroom)
    booking = stockroom.json(*NOW, "book", BATH, "--job", job, "--for", "2026-11-30", "--qty", "200 mL")["code"]
    used = stockroom.json(*NOW, "use", BATH, "--job", job, "--booking", booking)
    assert (used["booking"], used["drawn"][0]["amount"]) == (booking, "50")
    assert stockroom(*NOW, "use", BATH, "--job", job, "--booking", booking).code == 1


def test_a_stock_is_made_not_used(stockroom: Any) -> None:
    failed = stockroom(*NOW, "use", "calcium-hydroxide-saturated", "--job", new_job(stockroom))
    assert failed.code == 2
    assert "stockroom make" in failed.err


def test_a_closed_job_takes_nothing_more(stockroom: Any) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    job = new_job(stockroom)
    stockroom.json(*NOW, "job", "close", job)
    assert stockroom(*NOW, "use", BATH, "--job", job, "--qty", "500 mL").code == 1
    assert held(stockroom, jar) == ("2000", "8.00")


def test_an_object_that_the_job_has_not_is_refused(stockroom: Any) -> None:
    receive(stockroom, STOCK, "2 L", "8.00")
    failed = stockroom(*NOW, "use", BATH, "--job", new_job(stockroom), "--object", "Sheet 9")
    assert failed.code == 2
    assert "Sheet 1" in failed.err


@pytest.mark.parametrize(
    "title", ["[A3]", "[/]", "=1+1", "1:100:5", "\"q\" 'q'; --", "🗺 chart", "خرائط", "\x1b[2Jx\x07"]
)
def test_typed_text_survives_and_never_steers_the_terminal(stockroom: Any, title: str) -> None:
    receive(stockroom, STOCK, "2 L", "8.00")
    job = stockroom.json(*NOW, "job", "new", title, "--object", title)["code"]
    asked = ("use", BATH, "--job", job, "--qty", "100 mL", "--object", title, "--why", title)
    used = stockroom.json(*NOW, *asked)
    assert (used["objects"], used["why"]) == ([title], title)
    ran = stockroom(*NOW, *asked)
    assert ran.code == 0
    assert "\x1b" not in ran.out + ran.err
    assert "\x07" not in ran.out + ran.err
    if title.isprintable():
        assert title in ran.out


def test_the_use_says_how_it_is_taken_back(stockroom: Any) -> None:
    jar = receive(stockroom, STOCK, "2 L", "8.00")
    job = new_job(stockroom)
    ran = stockroom(*NOW, "use", BATH, "--job", job, "--qty", "500 mL")
    action = ran.out.split("stockroom undo ")[1].split()[0]
    stockroom.json(*NOW, "undo", action, "--why", "wrong job")
    assert held(stockroom, jar) == ("2000", "8.00")
    assert stockroom.json("cost", job)["total"] == "0.00"
