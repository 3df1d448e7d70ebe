"""A little of one lot from the command line: taken, brought back, thrown away, sent back."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

NOW = ("--on", "2026-11-25T14:10")
HOSTILE = ["[A3]", "[/]", "=1+1", "1:100:5", "\"q\" 'q'; --", "🗺 chart", "خرائط", "\x1b[2Jx\x07"]


def receive(stockroom: Any, material: str = "ethanol", quantity: str = "1 L", cost: str = "10.00", *more: str) -> str:
    code: str = stockroom.json(*NOW, "receive", material, quantity, "--cost", cost, *more)["code"]
    return code


def new_job(stockroom: Any, *objects: str) -> str:
    named = [word for name in objects for word in ("--object", name)]
    code: str = stockroom.json(*NOW, "job", "new", "Harbour charts", *named)["code"]
    return code


def held(stockroom: Any, code: str) -> tuple[str, str]:
    lot = stockroom.json(*NOW, "lot", code)
    return lot["amount"], lot["value"]


def books(stockroom: Any) -> dict[str, Decimal]:
    """Return the sums that `verify` prints, having found nothing wrong."""
    assert stockroom.json("verify")["problems"] == []
    lines = [line.split() for line in stockroom("verify").out.splitlines() if line.endswith(" EUR")]
    return {" ".join(words[:-2]): Decimal(words[-2]) for words in lines}


def test_a_little_for_a_job_is_charged_to_it(stockroom: Any) -> None:
    """By hand: 25 mL of 1 L for 10.00 cost 0.25."""
    lot, job = receive(stockroom), new_job(stockroom, "Sheet 1")
    taken = stockroom.json(*NOW, "take", lot, "25 mL", "--job", job, "--object", "Sheet 1")
    assert [(one["code"], one["amount"], one["unit"], one["cost"]) for one in taken["drawn"]] == [
        (lot, "25", "mL", "0.25")
    ]
    assert (taken["cost"], taken["currency"], taken["left"], taken["job"]) == ("0.25", "EUR", "975", job)
    assert held(stockroom, lot) == ("975", "9.75")
    assert stockroom.json("cost", job)["total"] == "0.25"
    assert books(stockroom)["in jobs"] == Decimal("0.25")


@pytest.mark.parametrize(
    ("reason", "where"),
    [
        ("spilled", "wasted"),
        ("broken", "wasted"),
        ("lent", "studio use"),
        ("given", "studio use"),
        ("test", "studio use"),
        ("cleaning", "studio use"),
    ],
)
def test_a_little_without_a_job_goes_where_its_reason_says(stockroom: Any, reason: str, where: str) -> None:
    lot = receive(stockroom)
    assert stockroom.json(*NOW, "take", lot, "250 mL", "--why", reason)["cost"] == "2.50"
    sums = books(stockroom)
    assert sums[where] == Decimal("2.50")
    assert sums["bought"] == Decimal("10.00") == sums["on the shelves"] + sums["wasted"] + sums["studio use"]


@pytest.mark.parametrize("why", [(), ("--why", "because"), ("--why", "[A3]"), ("--why", "")])
def test_neither_job_nor_reason_takes_nothing_and_names_the_reasons(stockroom: Any, why: tuple[str, ...]) -> None:
    lot = receive(stockroom)
    failed = stockroom(*NOW, "take", lot, "25 mL", *why)
    assert failed.code == 2
    assert "spilled" in failed.err
    assert "--job" in failed.err
    assert held(stockroom, lot) == ("1000", "10.00")


def test_to_whom_and_until_when_go_with_a_loan_only(stockroom: Any) -> None:
    lot = receive(stockroom)
    loan = ("--to", "Map room", "--back", "2026-12-01")
    assert stockroom(*NOW, "take", lot, "100 mL", "--why", "test", *loan).code == 2
    assert stockroom.json(*NOW, "take", lot, "100 mL", "--why", "lent", *loan)["action"].startswith("A")


def test_an_object_is_named_with_its_job_only(stockroom: Any) -> None:
    lot = receive(stockroom)
    new_job(stockroom, "Sheet 1")
    assert stockroom(*NOW, "take", lot, "25 mL", "--why", "test", "--object", "Sheet 1").code == 2
    assert held(stockroom, lot) == ("1000", "10.00")


def test_equal_takings_differ_by_one_cent_at_most_and_the_last_takes_what_is_left(stockroom: Any) -> None:
    """By hand: 0.50 over seven pieces is 7 1/7 cents each; six of 7 or 8 and the seventh make 50."""
    lot = receive(stockroom, "gloves", "7 pieces", "0.50")
    costs = [stockroom.json(*NOW, "take", lot, "1 piece", "--why", "cleaning")["cost"] for _ in range(7)]
    assert sum(Decimal(cost) for cost in costs) == Decimal("0.50")
    assert set(costs) <= {"0.07", "0.08"}


def test_the_last_of_a_plain_lot_ends_it(stockroom: Any) -> None:
    lot = receive(stockroom)
    assert stockroom.json(*NOW, "take", lot, "1 L", "--why", "cleaning")["ended"] is True
    assert stockroom(*NOW, "take", lot, "1 mL", "--why", "cleaning").code == 1


def test_more_than_the_books_hold_is_short_until_it_is_counted_first(stockroom: Any) -> None:
    """More found has quantity and no value: 1.2 L still cost 10.00."""
    lot = receive(stockroom)
    short = stockroom.json(*NOW, "take", lot, "1.2 L", "--why", "cleaning", code=1)
    assert short["short"] == [{"material": "ethanol", "needed": "1200", "available": "1000", "unit": "mL"}]
    assert short.get("action") is None
    assert "--count-first" in short["error"]["message"]
    taken = stockroom.json(*NOW, "take", lot, "1.2 L", "--why", "cleaning", "--count-first")
    assert (taken["drawn"][0]["amount"], taken["cost"], taken["left"]) == ("1200", "10.00", "0")
    assert books(stockroom)["studio use"] == Decimal("10.00")


def test_an_unfit_lot_for_a_job_needs_a_reason_and_the_reason_is_kept(stockroom: Any) -> None:
    lot = receive(stockroom, "ethanol", "1 L", "10.00", "--use-by", "2026-11-24")
    job = new_job(stockroom)
    asked = ("take", lot, "25 mL", "--job", job)
    assert "--why" in stockroom.json(*NOW, *asked, code=1)["error"]["message"]
    assert held(stockroom, lot) == ("1000", "10.00")
    taken = stockroom.json(*NOW, *asked, "--why", "smells and burns as new")
    assert "past use-by 2026-11-24" in taken["drawn"][0]["override"]
    assert f"not fit, used all the same: {lot}: past use-by" in stockroom(*NOW, "job", "show", job).out
    assert taken["why"] == "smells and burns as new"
    assert stockroom.json(*NOW, "lot", lot)["history"][-1]["reason"] == "smells and burns as new"


def test_a_spill_of_an_unfit_lot_is_booked_without_more_questions(stockroom: Any) -> None:
    lot = receive(stockroom, "ethanol", "1 L", "10.00", "--use-by", "2026-11-24")
    assert stockroom.json(*NOW, "take", lot, "25 mL", "--why", "spilled")["cost"] == "0.25"


def test_a_draw_opens_a_closed_bottle(stockroom: Any) -> None:
    lot = receive(stockroom)
    stockroom.json(*NOW, "take", lot, "25 mL", "--why", "cleaning")
    opened = stockroom.json(*NOW, "lot", lot)
    assert (opened["opened_on"], opened["use_by"]) == ("2026-11-25", "2027-11-25")


@pytest.mark.parametrize("amount", ["1:4", "25", "0 mL", "-5 mL", "1,500 mL", "=1+1", "2 sheets", "\x1b[2J"])
@pytest.mark.parametrize("command", ["take", "discard", "bring-back"])
def test_an_amount_that_cannot_be_read_books_nothing(stockroom: Any, command: str, amount: str) -> None:
    lot = receive(stockroom)
    stockroom.json(*NOW, "take", lot, "500 mL", "--why", "test")
    why = ("--why", "test")
    failed = stockroom(*NOW, command, *why, "--", lot, amount)
    assert failed.code == 2
    assert "\x1b" not in failed.err
    assert held(stockroom, lot) == ("500", "5.00")


@pytest.mark.parametrize("command", ["take", "discard", "return", "bring-back"])
def test_a_dry_run_equals_the_booking_and_books_nothing(stockroom: Any, command: str) -> None:
    lot = receive(stockroom)
    stockroom.json(*NOW, "take", lot, "300 mL", "--why", "test")
    more = {"return": ("--credit", "1.00")}.get(command, ())
    asked = (command, lot, "200 mL", "--why", "test", *more)
    plan = stockroom.json(*NOW, *asked, "--dry-run")
    assert plan["action"] is None
    assert held(stockroom, lot) == ("700", "7.00")
    booked = stockroom.json(*NOW, *asked)
    assert booked["action"].startswith("A")
    assert {**plan, "action": None} == {**booked, "action": None}


def test_part_of_a_take_comes_back_with_its_share_and_the_last_return_takes_the_rest(stockroom: Any) -> None:
    """By hand: 30 mL cost 1.00 (of 300 mL for 10.00); 10 mL back 0.33, 10 of the 20 still out 0.34, the rest 0.33."""
    lot, job = receive(stockroom, "ethanol", "300 mL"), new_job(stockroom)
    stockroom.json(*NOW, "take", lot, "30 mL", "--job", job)
    values = [stockroom.json(*NOW, "bring-back", lot, "10 mL", "--job", job)["value"] for _ in range(3)]
    assert sum(Decimal(value) for value in values) == Decimal("1.00")
    assert set(values) <= {"0.33", "0.34"}
    assert held(stockroom, lot) == ("300", "10.00")
    assert stockroom.json("cost", job)["total"] == "0.00"
    assert stockroom(*NOW, "bring-back", lot, "1 mL", "--job", job).code == 2
    assert books(stockroom)["in jobs"] == 0


BEFORE_IT_CAME = [
    ("take", "{lot}", "1 mL", "--why", "test"),
    ("take", "{lot}", "1 mL", "--why", "test", "--count-first"),
    ("discard", "{lot}", "1 mL", "--why", "spilt"),
    ("discard", "{lot}", "--why", "past its date"),
    ("return", "{lot}", "1 mL", "--credit", "0", "--why", "leaks"),
    ("check", "{lot}", "looks", "clear"),
]


@pytest.mark.parametrize("asked", BEFORE_IT_CAME)
def test_nothing_happens_to_a_lot_on_a_day_before_it_came(stockroom: Any, asked: tuple[str, ...]) -> None:
    lot = receive(stockroom)
    words = [word.format(lot=lot) for word in asked]
    refused = stockroom.json(*NOW, *words, "--day", "2020-01-01", code=1)
    assert "was not here yet on 2020-01-01" in refused["error"]["message"]
    assert held(stockroom, lot) == ("1000", "10.00")


@pytest.mark.parametrize("asked", [("discard", "--why", "spilt"), ("return", "--credit", "1", "--why", "leaks")])
def test_the_way_out_of_too_little_is_one_that_the_command_has(stockroom: Any, asked: tuple[str, ...]) -> None:
    lot = receive(stockroom)
    short = stockroom.json(*NOW, asked[0], lot, "2 L", *asked[1:], code=1)
    assert (short["error"]["kind"], short["short"][0]["available"]) == ("short", "1000")
    assert "--count-first" not in short["error"]["message"]
    assert f"stockroom count {lot}" in short["error"]["message"]


def test_a_loan_to_nobody_named_is_due_in_words_that_say_so(stockroom: Any) -> None:
    lot = receive(stockroom)
    stockroom.json(*NOW, "take", lot, "30 mL", "--why", "lent")
    loan = next(item for item in stockroom.json(*NOW, "due")["items"] if item["kind"] == "loan")
    assert loan["name"].endswith("lent to someone not named")


def test_never_more_comes_back_than_went(stockroom: Any) -> None:
    lot = receive(stockroom)
    action = stockroom.json(*NOW, "take", lot, "30 mL", "--why", "lent")["action"]
    refused = stockroom.json(*NOW, "bring-back", action, "31 mL", code=1)
    assert refused["error"]["kind"] == "refused"
    back = stockroom.json(*NOW, "bring-back", action, "30 mL")
    assert (back["code"], back["kind"], back["value"], back["job"]) == (lot, "bring-back", "0.30", None)
    assert held(stockroom, lot) == ("1000", "10.00")


def test_what_a_bath_left_unused_takes_its_share_of_the_cost_back(stockroom: Any) -> None:
    """By hand: a fill of 500 mL takes 125 mL of 2 L for 8.00, 0.50; 100 mL of it left are 0.10."""
    receive(stockroom, "calcium-hydroxide-solution", "2 L", "8.00")
    job = new_job(stockroom)
    used = stockroom.json(*NOW, "use", "calcium-hydroxide-1-in-4", "--job", job, "--qty", "500 mL")
    kept = stockroom.json(*NOW, "bring-back", used["action"], "100 mL")
    assert (kept["kind"], kept["amount"], kept["value"], kept["job"]) == ("remainder", "100", "0.10", job)
    assert "not known since" in stockroom.json(*NOW, "lot", kept["code"])["strength"]
    assert stockroom.json("cost", job)["total"] == "0.40"
    assert stockroom(*NOW, "bring-back", used["action"], "401 mL").code == 1
    late = stockroom(*NOW, "put-right", used["action"], "--amount", "100 mL", "--why", "mistyped")
    assert "cannot be put right" in late.err
    assert "keeps what was left of its bath" in late.err


def test_a_used_bath_is_kept_without_value_and_is_never_fit(stockroom: Any) -> None:
    receive(stockroom, "calcium-hydroxide-solution", "2 L", "8.00")
    job = new_job(stockroom)
    used = stockroom.json(*NOW, "use", "calcium-hydroxide-1-in-4", "--job", job, "--qty", "500 mL")
    kept = stockroom.json(*NOW, "bring-back", used["action"], "400 mL", "--used")
    assert (kept["kind"], kept["value"]) == ("used bath", "0.00")
    assert stockroom.json(*NOW, "lot", kept["code"])["fit"] is False
    assert stockroom.json("cost", job)["total"] == "0.50"
    label = stockroom(*NOW, "label", kept["code"]).out
    assert "Used bath: Calcium hydroxide bath" in label and "discard by" in label
    assert "fresh until" not in label


def test_part_of_a_lot_is_thrown_away_and_the_rest_stays(stockroom: Any) -> None:
    lot = receive(stockroom)
    gone = stockroom.json(*NOW, "discard", lot, "100 mL", "--why", "cloudy", "--to", "drain")
    assert (gone["cost"], gone["left"], gone["ended"], gone["to"]) == ("1.00", "900", False, "drain")
    assert books(stockroom)["wasted"] == Decimal("1.00")


def test_all_of_a_lot_is_thrown_away_and_ends_it(stockroom: Any) -> None:
    lot = receive(stockroom)
    gone = stockroom.json(*NOW, "discard", lot, "--why", "past its date")
    assert (gone["cost"], gone["left"], gone["ended"]) == ("10.00", "0", True)
    assert stockroom.json(*NOW, "lot", lot)["ended_why"] == "discarded: past its date"
    assert stockroom(*NOW, "discard", lot, "--why", "again").code == 1


def test_nothing_is_thrown_away_without_a_reason(stockroom: Any) -> None:
    lot = receive(stockroom)
    assert stockroom(*NOW, "discard", lot).code == 2
    assert stockroom(*NOW, "discard", lot, "2 L", "--why", "cloudy").code == 1
    assert held(stockroom, lot) == ("1000", "10.00")


@pytest.mark.parametrize(
    ("credit", "bought", "wasted", "differences"),
    [("4.00", "6.00", "0.00", "0.00"), ("3.00", "7.00", "1.00", "0.00"), ("12.00", "-2.00", "0.00", "-8.00")],
)
def test_a_credit_lowers_what_was_bought_and_the_rest_is_waste(
    stockroom: Any, credit: str, bought: str, wasted: str, differences: str
) -> None:
    """By hand: 400 mL of 1 L for 10.00 are worth 4.00; 6.00 stay on the shelf whatever the credit."""
    lot = receive(stockroom)
    back = stockroom.json(*NOW, "return", lot, "400 mL", "--credit", credit, "--why", "leaking cap")
    assert (back["drawn"][0]["amount"], back["cost"], back["credit"], back["left"]) == ("400", "4.00", credit, "600")
    assert held(stockroom, lot) == ("600", "6.00")
    sums = books(stockroom)
    assert (sums["bought"], sums["wasted"], sums["differences"]) == (
        Decimal(bought),
        Decimal(wasted),
        Decimal(differences),
    )


def test_a_jar_made_here_cannot_go_back_to_a_supplier(stockroom: Any) -> None:
    receive(stockroom, "calcium-hydroxide", "500 g")
    jar = stockroom.json(*NOW, "make", "calcium-hydroxide-saturated", "1 L")["code"]
    refused = stockroom.json(*NOW, "return", jar, "1 L", "--credit", "1", "--why", "no", code=1)
    assert "not bought" in refused["error"]["message"]
    assert stockroom(*NOW, "return", receive(stockroom), "1 L", "--credit", "much", "--why", "no").code == 2
    assert stockroom(*NOW, "return", receive(stockroom), "2 L", "--credit", "1", "--why", "no").code == 1


@pytest.mark.parametrize("text", HOSTILE)
def test_typed_text_survives_and_never_steers_the_terminal(stockroom: Any, text: str) -> None:
    lot = receive(stockroom)
    gone = stockroom.json(*NOW, "discard", lot, "1 mL", "--why", text)
    assert gone["why"] == text
    ran = [stockroom(*NOW, "discard", lot, "1 mL", "--why", "no such can", "--to", text)]
    ran += [stockroom(*NOW, "discard", lot, "1 mL", "--why", text), stockroom(*NOW, "take", lot, "1 mL", "--why", text)]
    ran += [stockroom(*NOW, "take", text, "1 mL", "--why", "test"), stockroom(*NOW, "lot", lot)]
    for one in ran:
        assert "\x1b" not in one.out + one.err
        assert "\x07" not in one.out + one.err
    assert [line["reason"] for line in stockroom.json(*NOW, "lot", lot)["history"]].count(text) == 2
