"""What is left of a lot, found by weighing it."""

from __future__ import annotations

from typing import Any

import pytest

NOW = ("--on", "2026-11-28T10:00")


@pytest.fixture
def ethanol(stockroom: Any) -> str:
    """500 mL of ethanol at the books' 0.807 g/mL, in a bottle that weighs 310 g empty."""
    code: str = stockroom.json(*NOW, "receive", "ethanol", "500 mL", "--cost", "5.00", "--place", "shelf")["code"]
    kept = stockroom.json(*NOW, "count", code, "--tare", "310 g")
    assert kept == {"code": code, "tare": "310", "unit": "g", "day": "2026-11-28", "by": "AB"}
    return code


def test_a_bottle_is_counted_by_its_weight_with_the_errors_said(stockroom: Any, ethanol: str) -> None:
    """By hand: 290 g / 0.807 = 359.4 mL; 288 / 0.81507 = 353.3, 292 / 0.79893 = 365.5 mL."""
    counted = stockroom.json(*NOW, "count", ethanol, "--gross", "600 g", "--why", "spring round")
    weighed = counted["weighed"]
    assert (counted["counted"], counted["difference"], counted["value"]) == ("359", "-141", "-1.41")
    assert (weighed["low"], weighed["best"], weighed["high"], weighed["unit"]) == (353, 359, 365, "mL")
    assert (weighed["gross_g"], weighed["tare_g"]) == ("600", "310")
    assert any("each good to 1 g" in ground for ground in weighed["grounds"])
    assert stockroom.json("verify")["problems"] == []


def test_what_the_weight_cannot_tell_from_the_books_leaves_them_as_they_are(stockroom: Any, ethanol: str) -> None:
    """500 mL weigh 403.5 g; 715 g gross is 405 g, within two steps and one per cent."""
    counted = stockroom.json(*NOW, "count", ethanol, "--gross", "715 g")
    assert (counted["counted"], counted["difference"]) == ("500", "0")
    assert "cannot be told from what the books say" in stockroom(*NOW, "count", ethanol, "--gross", "715 g").out


def test_a_powder_is_gross_less_tare(stockroom: Any) -> None:
    code = stockroom.json(*NOW, "receive", "methyl-cellulose", "100 g", "--cost", "10")["code"]
    stockroom.json(*NOW, "count", code, "--tare", "55.3 g")
    counted = stockroom.json(*NOW, "count", code, "--gross", "145.3 g")
    assert (counted["counted"], counted["weighed"]["low"], counted["weighed"]["high"]) == ("90", 89.8, 90.2)
    assert stockroom(*NOW, "count", code, "--gross", "145 g", "--density", "1.3").code == 2


def test_a_jar_over_solid_is_weighed_less_what_the_books_say_lies_in_it(jar: Any) -> None:
    """5 g of 95 % in a litre leave about 3 g (common practice: 1.6 g dissolve): 1,000 g net are about 997 mL."""
    jar.json("--on", "2026-01-05", "count", "L002U", "--tare", "420 g")
    counted = jar.json("--on", "2026-01-05", "count", "L002U", "--gross", "1320 g", "--dry-run")
    assert counted["action"] is None
    assert any("less the solid in it" in ground for ground in counted["weighed"]["grounds"])
    assert counted["weighed"]["best"] == pytest.approx(900 - 3.1, abs=10)


def test_a_jar_whose_solid_the_books_cannot_tell_is_not_weighed(stockroom: Any) -> None:
    stockroom.json(*NOW, "receive", "sodium-chloride", "1 kg", "--cost", "3")
    code = stockroom.json(*NOW, "make", "sodium-chloride-saturated", "1 L")["code"]
    stockroom.json(*NOW, "count", code, "--tare", "420 g")
    refused = stockroom.json(*NOW, "count", code, "--gross", "900 g", code=1)
    assert "Measure its liquid instead" in refused["error"]["message"]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--gross", "300 g"), 2),
        (("--gross", "much"), 2),
        (("--gross", "600 mL"), 2),
        (("--gross", "600 g", "400 mL"), 2),
        (("--gross", "600 g", "--density", "heavy"), 2),
        (("400 mL", "--density", "0.8"), 2),
        (("--tare", "310 g", "--gross", "600 g"), 2),
        (("--tare", "0 g"), 2),
    ],
)
def test_what_cannot_have_been_weighed_books_nothing(
    stockroom: Any, ethanol: str, words: tuple[str, ...], code: int
) -> None:
    assert stockroom(*NOW, "count", ethanol, *words).code == code
    lot = stockroom.json(*NOW, "lot", ethanol)
    assert (lot["amount"], lot["tare"]["amount"]) == ("500", "310")


def test_without_a_tare_or_a_density_it_says_what_is_missing(stockroom: Any) -> None:
    code = stockroom.json(*NOW, "receive", "starch-paste", "100 mL", "--found")["code"]
    assert "--tare" in stockroom.json(*NOW, "count", code, "--gross", "600 g", code=1)["error"]["message"]
    stockroom.json(*NOW, "count", code, "--tare", "550 g")
    assert "--density" in stockroom.json(*NOW, "count", code, "--gross", "600 g", code=2)["error"]["message"]
    sheets = stockroom.json(*NOW, "receive", "blotter", "5 sheets", "--cost", "4")["code"]
    stockroom.json(*NOW, "count", sheets, "--tare", "1 g")
    assert stockroom(*NOW, "count", sheets, "--gross", "600 g").code == 1


def test_the_tare_weighed_last_counts_and_the_lot_says_who_weighed_it(stockroom: Any, ethanol: str) -> None:
    stockroom.json("--on", "2026-11-29", "count", ethanol, "--tare", "312 g")
    assert stockroom.json(*NOW, "lot", ethanol)["tare"] == {
        "amount": "312", "unit": "g", "day": "2026-11-29", "by": "AB",
    }  # fmt: skip
    assert "312 g empty, weighed on 2026-11-29 by AB" in stockroom(*NOW, "lot", ethanol).out


def test_a_round_takes_gross_weights_and_keeps_what_they_said(stockroom: Any, ethanol: str, store: Any) -> None:
    seen = stockroom.json(*NOW, "stock-take", "shelf", "--seen", f"{ethanol}=gross 600 g")["seen"][0]
    assert (seen["counted"], seen["weighed"]) == ("359", {"low": 353, "high": 365})
    assert "by weight 353 mL to 365 mL" in stockroom(*NOW, "stock-take", "shelf").out
    action = stockroom.json(*NOW, "stock-take", "shelf", "--confirm")["action"]
    details = store.row("SELECT details FROM action WHERE code = :code", code=action)["details"]
    assert '"gross_ug": 600000000' in details or '"gross_ug":600000000' in details
    assert store.row("SELECT method FROM counted")["method"] == "weighed"
    assert stockroom(*NOW, "stock-take", "shelf", "--seen", f"{ethanol}=gross much").code == 2


def test_a_jar_weighed_empty_before_it_is_filled_keeps_its_tare(stockroom: Any) -> None:
    on = ("--on", "2026-01-02T09:00")
    stockroom.json(*on, "receive", "methyl-cellulose", "2 x 100 g", "--cost", "20", "--tare", "41 g", "--tare", "43 g")
    held = stockroom.json(*on, "shelf", "methyl")["lots"]
    assert [stockroom.json("lot", lot["code"])["tare"]["amount"] for lot in held] == ["41", "43"]
    jars = stockroom.json(*on, "make", "methyl-cellulose-gel-5", "1 L", "--into", "2 x 500 mL", "--tare", "310 g")[
        "codes"
    ]
    assert [stockroom.json("lot", jar)["tare"]["amount"] for jar in jars] == ["310", "310"]


def test_tares_that_do_not_fit_the_jars_book_nothing(stockroom: Any) -> None:
    words = ("receive", "ethanol", "3 x 1 L", "--cost", "20", "--tare", "41 g", "--tare", "43 g")
    assert "2 tares for 3 containers" in stockroom.json(*words, code=2)["error"]["message"]
    assert stockroom.json(*words[:5], "--tare", "heavy", code=2)["error"]["kind"]
    assert stockroom.json("shelf")["lots"] == []
