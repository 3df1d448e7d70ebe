"""Orders from draft to closing, and goods received against them."""

from __future__ import annotations

from decimal import Decimal

import pytest
from conftest import CommandLine

NOW = ("--on", "2026-11-25T14:10")


def test_an_order_goes_from_draft_to_closed(shop: CommandLine, placed: str) -> None:
    shown = shop.json(*NOW, "order", "show", placed)
    assert (shown["state"], shown["placed_on"], shown["expected_on"]) == ("placed", "2026-11-25", "2026-12-05")
    assert (shown["cost"], [line["cost"] for line in shown["lines"]]) == ("154.00", ["36.00", "118.00"])
    came = shop.json("--on", "2026-12-04", "receive", "--order", placed, "ethanol", "2 x 1 L")
    assert (came["state"], came["open"]) == ("partly delivered", ["1 L of Ethanol 96 %", "100 pieces of Blotter"])
    last = shop.json("--on", "2026-12-09", "receive", "--order", placed)
    assert (last["state"], last["open"], last["cost"]) == ("closed", [], "130.00")
    time = shop.json("--on", "2026-12-10", "supplier", "show", "paper")["experienced"]
    assert time == {"orders": 1, "low": 14, "usual": 14, "high": 14}


def test_placing_fixes_the_prices(shop: CommandLine, placed: str) -> None:
    shop.json(*NOW, "supplier", "offer", "paper", "ethanol", "1 L", "14.00")
    assert shop.json(*NOW, "order", "show", placed)["cost"] == "154.00"
    assert shop(*NOW, "order", "add", placed, "ethanol", "1").code == 1
    assert shop(*NOW, "order", "remove", placed, "1").code == 1
    assert shop.json(*NOW, "receive", "--order", placed)["cost"] == "154.00"


def test_a_draft_is_placed_at_the_newest_price_and_says_what_changed(shop: CommandLine) -> None:
    code = shop.json(*NOW, "order", "new", "paper")["code"]
    assert "14.00 EUR more" in shop.json(*NOW, "order", "add", code, "ethanol", "3")["notes"][0]
    shop.json(*NOW, "supplier", "offer", "paper", "ethanol", "1 L", "14.00")
    done = shop.json(*NOW, "order", "place", code)
    assert done["cost"] == "42.00"
    assert "14.00 EUR a pack, not 12.00 EUR" in done["notes"][0]


def test_an_order_booked_late_has_the_prices_of_the_day_it_was_placed(shop: CommandLine) -> None:
    """Ethanol was 11.00 from 1 November, and 12.00 from the 25th."""
    shop.json(*NOW, "supplier", "offer", "paper", "ethanol", "1 L", "11.00", "--day", "2026-11-01")
    code = shop.json(*NOW, "order", "new", "paper")["code"]
    shop.json(*NOW, "order", "add", code, "ethanol", "5")
    shop.json(*NOW, "order", "add", code, "blotter", "1")
    done = shop.json(*NOW, "order", "place", code, "--day", "2026-11-20")
    assert ([line["price"] for line in done["lines"]], done["cost"]) == (["11.00", "31.00"], "86.00")
    assert "11.00 EUR a pack, not 12.00 EUR" in done["notes"][0]


def test_placing_can_be_taken_back_until_something_came(shop: CommandLine, placed: str) -> None:
    assert shop.json(*NOW, "order", "place", placed, "--undo")["state"] == "drafted"
    shop.json(*NOW, "order", "remove", placed, "2")
    shop.json(*NOW, "order", "place", placed)
    shop.json(*NOW, "receive", "--order", placed, "ethanol", "1 L")
    assert shop(*NOW, "order", "place", placed, "--undo").code == 1
    steps = [edit["became"] for edit in shop.json(*NOW, "order", "show", placed)["edits"] if edit["field"] == "state"]
    assert steps == ["placed on 2026-11-25", "drafted", "placed on 2026-11-25"]


def test_more_packs_of_the_same_are_one_line_at_the_price_break(shop: CommandLine) -> None:
    code = shop.json(*NOW, "order", "new", "paper")["code"]
    assert shop.json(*NOW, "order", "add", code, "blotter", "2")["cost"] == "62.00"
    added = shop.json(*NOW, "order", "add", code, "blotter", "2")
    assert (len(added["lines"]), added["cost"]) == (1, "118.00")


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        (("add", "ORDER", "ethanol", "0"), 2),
        (("add", "ORDER", "ethanol", "-2"), 2),
        (("add", "ORDER", "ethanol", "10001"), 2),
        (("add", "ORDER", "acetone", "1"), 2),
        (("add", "ORDER", "ethanol", "1", "--pack", "5 L"), 2),
        (("remove", "ORDER", "1"), 2),
        (("place", "ORDER"), 1),
        (("close", "ORDER", "--why", "x"), 1),
        (("show", "P001W"), 2),
        (("place", "ORDER", "--undo"), 1),
    ],
)
def test_what_cannot_be_done_to_a_draft_is_refused(shop: CommandLine, wrong: tuple[str, ...], code: int) -> None:
    order = shop.json(*NOW, "order", "new", "paper")["code"]
    before = shop.json(*NOW, "order", "show", order)
    failed = shop(*NOW, "order", *(order if word == "ORDER" else word for word in wrong))
    assert (failed.code, bool(failed.err.strip())) == (code, True)
    assert shop.json(*NOW, "order", "show", order) == before


def test_a_day_before_the_placing_is_not_expected(shop: CommandLine) -> None:
    code = shop.json(*NOW, "order", "new", "paper")["code"]
    shop.json(*NOW, "order", "add", code, "ethanol", "5")
    assert shop(*NOW, "order", "place", code, "--expected", "2026-11-24").code == 2
    assert shop(*NOW, "order", "place", code, "--day", "2026-11-26").code == 2
    assert shop.json(*NOW, "order", "show", code)["state"] == "drafted"


def test_another_day_is_expected_when_the_supplier_says_so(shop: CommandLine, placed: str) -> None:
    assert shop(*NOW, "order", "expect", placed, "2026-11-20").code == 2
    told = shop.json(*NOW, "order", "expect", placed, "2026-12-14", "--why", "supplier wrote")
    assert told["expected_on"] == "2026-12-14"
    assert "LATE" not in shop("--on", "2026-12-14", "order", "list").out
    assert "LATE, expected 2026-12-14" in shop("--on", "2026-12-15", "order", "show", placed).out
    kinds = [item["kind"] for item in shop.json("--on", "2026-12-10", "due")["items"]]
    assert "order-late" not in kinds
    draft = shop.json(*NOW, "order", "new", "paper")["code"]
    assert shop(*NOW, "order", "expect", draft, "2026-12-14").code == 1


def test_nothing_comes_of_a_draft_a_closed_order_or_before_the_placing(shop: CommandLine, placed: str) -> None:
    draft = shop.json(*NOW, "order", "new", "paper")["code"]
    assert shop(*NOW, "receive", "--order", draft).code == 1
    assert shop(*NOW, "receive", "--order", placed, "--day", "2026-11-20").code == 1
    shop.json(*NOW, "order", "cancel", placed, "--why", "ordered twice")
    assert "ordered twice" in shop(*NOW, "receive", "--order", placed).err
    assert shop.json(*NOW, "shelf")["lots"] == []


def test_freight_is_shared_by_value_to_the_cent(shop: CommandLine, placed: str) -> None:
    """By hand: 10.00 over 36.00 and 118.00; each litre 12/154 of it is 77.9 cents, each pack 29.5/154 is 191.6.

    The whole cents are 77 three times and 191 four times, 995; the five left go to the greatest remainders.
    """
    came = shop.json(*NOW, "receive", "--order", placed, "--freight", "10.00")
    assert [lot["freight"] for lot in came["lots"]] == ["0.78"] * 3 + ["1.92", "1.92", "1.91", "1.91"]
    assert sum(Decimal(lot["cost"]) for lot in came["lots"]) == Decimal("164.00")
    assert len(came["codes"]) == len(set(came["codes"])) == 7


def test_freight_over_goods_without_value_is_shared_by_quantity(shop: CommandLine, placed: str) -> None:
    came = shop.json(*NOW, "receive", "--order", placed, "ethanol", "2 x 1 L", "--cost", "0", "--freight", "3.01")
    assert [lot["cost"] for lot in came["lots"]] == ["1.51", "1.50"]


def test_each_line_has_its_own_lot_number_and_date(shop: CommandLine, placed: str) -> None:
    told = ("--line", "ethanol=1 L", "--line", "2=25 sheets", "--lot-number", "ethanol=77=31", "--place", "shelf")
    came = shop.json(*NOW, "receive", "--order", placed, *told, "--use-by", "ethanol=2028-06")
    first, second = (shop.json(*NOW, "lot", code) for code in came["codes"])
    assert (first["supplier"], first["order"]) == ("Paper goods, by post", placed)
    assert (first["maker_lot"], first["use_by"], first["place"]) == ("77=31", "2028-06-30", "shelf")
    assert (second["maker_lot"], second["place"]) == (None, "shelf")
    assert shop(*NOW, "receive", "--order", placed, "--lot-number", "7731").code == 2


def test_other_packs_and_what_was_billed_are_booked_as_they_came(shop: CommandLine, placed: str) -> None:
    """By hand: half a litre and a litre of three at 36.00 cost 6.00 and 12.00; billed 20.00, they share that."""
    came = shop.json(*NOW, "receive", "--order", placed, "ethanol", "2 x 500 mL")
    assert [lot["cost"] for lot in came["lots"]] == ["6.00", "6.00"]
    billed = shop.json(*NOW, "receive", "--order", placed, "ethanol", "2 x 1 L", "--cost", "20.00")
    assert [lot["cost"] for lot in billed["lots"]] == ["10.00", "10.00"]
    assert "billed otherwise" in billed["notes"][0]
    assert billed["open"] == ["100 pieces of Blotter"]


def test_more_than_ordered_is_refused_unless_it_is_said_to_be_kept(shop: CommandLine, placed: str) -> None:
    failed = shop(*NOW, "receive", "--order", placed, "ethanol", "4 x 1 L")
    assert failed.code == 1
    assert "1 L more than is still to come" in failed.err
    assert shop.json(*NOW, "shelf")["lots"] == []
    kept = shop.json(*NOW, "receive", "--order", placed, "ethanol", "4 x 1 L", "--more")
    assert (kept["cost"], kept["open"]) == ("48.00", ["100 pieces of Blotter"])


@pytest.mark.parametrize(
    "wrong",
    [
        ("acetone", "1 L"),
        ("3", "1 L"),
        ("ethanol", "1 kg of it"),
        ("ethanol", "0 L"),
        ("ethanol", "1 L", "--freight=-3"),
        ("ethanol", "1 L", "--supplier", "Another"),
        ("ethanol", "1 L", "--found"),
        ("--line", "ethanol=1 L", "--line", "1=1 L"),
        ("--line", "ethanol"),
        ("ethanol", "1 L", "--line", "blotter=25 sheets"),
        ("ethanol", "1 L", "--place", "nowhere"),
    ],
)
def test_a_delivery_that_does_not_fit_its_order_books_nothing(
    shop: CommandLine, placed: str, wrong: tuple[str, ...]
) -> None:
    failed = shop(*NOW, "receive", "--order", placed, *wrong)
    assert (failed.code, bool(failed.err.strip())) == (2, True)
    assert shop.json(*NOW, "shelf")["lots"] == []
    assert shop.json(*NOW, "order", "show", placed)["state"] == "placed"


def test_what_belongs_to_an_order_is_refused_without_one(stockroom: CommandLine) -> None:
    assert stockroom(*NOW, "receive", "ethanol", "1 L", "--cost", "1", "--freight", "1").code == 2
    assert stockroom(*NOW, "receive", "ethanol").code == 2
    assert stockroom(*NOW, "receive", "ethanol", "1 L", "--cost", "1", "--cost", "2").code == 2


def test_undoing_a_delivery_opens_its_order_again(shop: CommandLine, placed: str) -> None:
    action = shop.json(*NOW, "receive", "--order", placed)["action"]
    assert shop.json(*NOW, "order", "show", placed)["state"] == "closed"
    back = shop.json(*NOW, "undo", action, "--why", "another order")["action"]
    shown = shop.json(*NOW, "order", "show", placed)
    assert (shown["state"], [line["came"] for line in shown["lines"]]) == ("placed", ["0", "0"])
    shop.json(*NOW, "undo", back, "--why", "it was this one")
    assert shop.json(*NOW, "order", "show", placed)["state"] == "closed"
    assert not shop.json(*NOW, "verify")["problems"]


def test_the_rest_of_an_order_is_closed_with_a_reason_and_opened_again(shop: CommandLine, placed: str) -> None:
    assert shop(*NOW, "order", "close", placed, "--why", "sold out").code == 1  # nothing came: it is cancelled
    shop.json(*NOW, "receive", "--order", placed, "ethanol", "3 x 1 L")
    assert shop(*NOW, "order", "cancel", placed, "--why", "sold out").code == 1
    assert shop(*NOW, "order", "close", placed).code == 2
    closed = shop.json(*NOW, "order", "close", placed, "--why", "sold out")
    assert (closed["state"], closed["ended_why"]) == ("closed", "the rest will not come: sold out")
    assert shop.json(*NOW, "order", "close", placed, "--undo")["state"] == "partly delivered"


def test_a_dry_run_of_a_delivery_shows_what_would_be_booked(shop: CommandLine, placed: str) -> None:
    plan = shop.json(*NOW, "receive", "--order", placed, "--freight", "3", "--dry-run")
    assert (plan["action"], plan["code"], plan["cost"], plan["state"]) == (None, None, "157.00", "closed")
    assert shop.json(*NOW, "order", "show", placed)["state"] == "placed"


def test_an_order_in_another_currency_is_booked_at_its_own_rate(shop: CommandLine) -> None:
    """By hand: 3 x 30.00 at 0.8713 is 78.417, to the cent 78.42; a third of it is 26.14."""
    offer = ("supplier", "offer", "paper", "acetone", "2.5 L", "30.00", "--currency", "USD", "--rate", "0.8713")
    shop.json(*NOW, *offer)
    code = shop.json(*NOW, "order", "new", "paper")["code"]
    shop.json(*NOW, "order", "add", code, "acetone", "3")
    assert shop.json(*NOW, "order", "place", code)["cost"] == "78.42"
    costs = [shop.json(*NOW, "receive", "--order", code, "acetone", "2.5 L")["cost"] for _ in range(3)]
    assert costs == ["26.14"] * 3


def test_an_order_is_expected_on_an_open_day(shop: CommandLine) -> None:
    """Ten days from Wednesday 25 November 2026 is a Saturday; where weekends are closed it comes on Monday the 7th."""
    shop.json(*NOW, "closed", "weekdays", "Saturday, Sunday")
    code = shop.json(*NOW, "order", "new", "paper")["code"]
    shop.json(*NOW, "order", "add", code, "ethanol", "5")
    assert shop.json(*NOW, "order", "place", code)["expected_on"] == "2026-12-07"
