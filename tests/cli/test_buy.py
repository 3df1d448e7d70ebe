"""What to reorder, from the command line, and what is due of it."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from conftest import CommandLine

from stockroom.store.open import Store

NOW = ("--on", "2026-11-25T14:10")


@pytest.fixture
def shop(stockroom: CommandLine) -> CommandLine:
    """300 mL of ethanol of which a litre is wanted; two suppliers, one of them without a delivery time."""
    stockroom.json(*NOW, "receive", "ethanol", "300 mL", "--cost", "5")
    stockroom.json(*NOW, "material", "edit", "ethanol", "--low", "1 L")
    stockroom.json(*NOW, "supplier", "new", "Chemist", "--delivery-days", "5", "--minimum-order", "40")
    stockroom.json(*NOW, "supplier", "new", "Paper goods, by post")
    stockroom.json(*NOW, "supplier", "offer", "chemist", "ethanol", "1 L", "12.00", "--catalogue-number", "E1")
    return stockroom


def kinds(shop: CommandLine) -> dict[str, str]:
    """Return what is due of ethanol, by kind."""
    items = shop.json(*NOW, "due")["items"]
    return {item["kind"]: item["why"] for item in items if item["code"] == "ethanol"}


def test_a_line_says_what_how_much_from_whom_by_when_and_why(shop: CommandLine) -> None:
    found = shop.json(*NOW, "buy")
    (line,) = found["lines"]
    assert (line["material"], line["packs"], line["supplier"], line["cost"]) == ("ethanol", 1, "Chemist", "12.00")
    assert (line["net"], line["unit"], line["order_by"], line["late"]) == ("700", "mL", "2026-11-25", False)
    assert line["why"] == "300 mL fit to use or on order, order when below 1 L (set by hand)"
    assert line["unit_price"] == {"price": "12.00", "per": "L"}
    assert found["suppliers"] == [{"supplier": "Chemist", "cost": "12.00", "short_of_minimum": "28.00"}]
    assert "28.00 EUR more" in shop(*NOW, "buy").out


def test_what_nobody_offers_is_listed_as_such(shop: CommandLine) -> None:
    shop.json(*NOW, "material", "edit", "acetone", "--low", "500 mL")
    (line,) = [line for line in shop.json(*NOW, "buy")["lines"] if line["material"] == "acetone"]
    assert (line["packs"], line["supplier"], line["cost"], line["advice"]) == (None, None, None, ["no offer kept"])
    assert "No offer kept" in shop(*NOW, "buy").out


def test_drafting_the_lines_counts_them_as_coming(shop: CommandLine) -> None:
    done = shop.json(*NOW, "buy", "--order")
    (code,) = done["orders"]
    order = shop.json(*NOW, "order", "show", code)
    assert [(line["material"], line["packs"], line["cost"]) for line in order["lines"]] == [("ethanol", 1, "12.00")]
    again = shop.json(*NOW, "buy")
    assert (again["lines"], again["waiting"]) == ([], [code])
    assert shop(*NOW, "buy", "--order").code == 1
    shop.json(*NOW, "order", "cancel", code)
    assert len(shop.json(*NOW, "buy")["lines"]) == 1


def test_booked_work_comes_first_and_is_netted_against_what_is_on_order(shop: CommandLine, tmp_path: Path) -> None:
    """By hand: 1.5 L are booked, 300 mL are here and a litre is to be left: 1.5 + 1 - 0.3 = 2.2 L lack.

    A litre that is drafted or on order leaves 1.2 L.
    """
    recipe = tmp_path / "wash.toml"
    recipe.write_text(
        '[recipe]\nkey = "varnish-off"\nname = "Varnish off"\nkind = "treatment"\nsource = "made up"\n'
        '[[line]]\nmaterial = "ethanol"\namount = "1.5 L"\n[[step]]\nwords = "Swab."\n'
    )
    shop.json(*NOW, "recipe", "new", "--from", str(recipe))
    job = shop.json(*NOW, "job", "new", "Sea chart")["code"]
    shop.json(*NOW, "book", "varnish-off", "--job", job, "--for", "2026-12-10")
    (line,) = [line for line in shop.json(*NOW, "buy")["lines"] if line["material"] == "ethanol"]
    assert (line["net"], line["packs"]) == ("2200", 3)
    assert line["bookings"]
    code = shop.json(*NOW, "order", "new", "chemist")["code"]
    shop.json(*NOW, "order", "add", code, "ethanol", "1")
    for _ in range(2):  # drafted first, then placed
        (line,) = [line for line in shop.json(*NOW, "buy")["lines"] if line["material"] == "ethanol"]
        assert (line["net"], line["packs"]) == ("1200", 2)
        assert code in line["why"]
        if shop.json(*NOW, "order", "show", code)["state"] == "drafted":
            shop.json(*NOW, "order", "place", code)


def test_due_tells_what_to_order_until_it_is_ordered_and_then_that_it_is_late(shop: CommandLine) -> None:
    assert {"low", "reorder"} <= kinds(shop).keys()
    assert kinds(shop)["reorder"].startswith("1 x 1 L from Chemist: 300 mL fit to use")
    (code,) = shop.json(*NOW, "buy", "--order")["orders"]
    assert "reorder" not in kinds(shop)
    shop.json(*NOW, "order", "place", code)
    late = shop.json("--on", "2026-12-03", "due")["items"]
    assert ("order-late", code, "2026-11-30") in [(one["kind"], one["code"], one["by"]) for one in late]
    assert "expected 3 days ago" in next(one["why"] for one in late if one["kind"] == "order-late")
    assert not [one for one in shop.json("--on", "2026-11-30", "due")["items"] if one["kind"] == "order-late"]
    shop.json("--on", "2026-12-03", "receive", "--order", code)
    assert not [one for one in shop.json("--on", "2026-12-04", "due")["items"] if one["kind"] == "order-late"]


def test_the_reckoned_amount_counts_where_it_is_more_than_the_one_set_by_hand(shop: CommandLine) -> None:
    """Twelve uses of 100 mL in twelve weeks: more than the 10 mL that were set; `due` and `buy` agree."""
    shop.json("--on", "2026-08-01", "receive", "isopropanol", "3 L", "--cost", "30")
    code = shop.json("--on", "2026-08-01", "shelf", "isopropanol")["lots"][0]["code"]
    shop.json(*NOW, "material", "edit", "isopropanol", "--low", "10 mL")
    shop.json(*NOW, "supplier", "offer", "paper", "isopropanol", "1 L", "9.00")
    for week in range(12):
        day = date.fromordinal(date(2026, 8, 31).toordinal() + 7 * week).isoformat()
        shop.json("--on", day, "take", code, "100 mL", "--why", "cleaning")
    shop.json("--on", "2026-11-20", "count", code, "50 mL", "--why", "spilled")
    (line,) = [line for line in shop.json(*NOW, "buy")["lines"] if line["material"] == "isopropanol"]
    assert "reckoned from 12 uses" in line["why"]
    assert "14 days delivery" in line["why"]  # nobody knows how long this supplier takes
    told = [item for item in shop.json(*NOW, "due")["items"] if item["code"] == "isopropanol"]
    assert [item["kind"] for item in told] == ["reorder"]


def test_what_will_be_past_its_date_before_a_delivery_comes_does_not_count(shop: CommandLine) -> None:
    """A litre more, but past its date in three days, with five days of delivery: 700 mL lack all the same."""
    shop.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--use-by", "2026-11-28")
    (line,) = shop.json(*NOW, "buy")["lines"]
    assert (line["net"], line["packs"]) == ("700", 1)
    assert "1 L here will be past its date" in line["why"]
    shop.json(*NOW, "receive", "ethanol", "700 mL", "--cost", "9", "--use-by", "2026-12-28")
    assert shop.json(*NOW, "buy")["lines"] == []


@pytest.mark.parametrize("wrong", [("--order-cost", "5"), ("--keeping", "20"), ("--order-cost", "x", "--keeping", "2")])
def test_half_an_economy_is_refused(shop: CommandLine, wrong: tuple[str, ...]) -> None:
    assert shop(*NOW, "buy", *wrong).code == 2


def test_looking_changes_nothing(shop: CommandLine, store: Store) -> None:
    before = "\n".join(store.connection.iterdump())
    shop.json(*NOW, "buy")
    shop.json(*NOW, "due")
    assert "\n".join(store.connection.iterdump()) == before


def test_nothing_to_buy_is_said(stockroom: CommandLine) -> None:
    assert json.loads(stockroom("--json", *NOW, "buy").out)["lines"] == []
    assert "Nothing needs to be ordered" in stockroom(*NOW, "buy").out
    assert stockroom(*NOW, "buy", "--order").code == 1
