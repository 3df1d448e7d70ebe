"""A label that was scanned, or read by a person who cannot read all of it."""

from __future__ import annotations

from typing import Any

NOW = ("--on", "2026-11-28T10:00")


def test_a_smudged_code_lists_the_lots_that_fit_by_place(stockroom: Any) -> None:
    codes = [
        stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9", "--place", place)["code"]
        for place in ("solvent cupboard", "refrigerator", "shelf")
    ]
    assert codes == ["L001W", "L002U", "L006M"]
    found = stockroom.json(*NOW, "scan", "l00??")
    assert [(lot["place"], lot["code"]) for lot in found["lots"]] == [
        ("refrigerator", "L002U"), ("shelf", "L006M"), ("solvent cupboard", "L001W"),
    ]  # fmt: skip
    assert found["code"] is None
    assert stockroom.json(*NOW, "scan", "LO02?")["code"] == "L002U"
    assert "refrigerator:  L002U  Ethanol 96 %" in stockroom(*NOW, "scan", "L0?2U").out


def test_what_has_ended_comes_last_and_what_fits_nothing_says_so(stockroom: Any) -> None:
    for _ in range(2):
        stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "9")
    stockroom.json(*NOW, "count", "L001W", "--empty", "--why", "unknown")
    assert [lot["code"] for lot in stockroom.json(*NOW, "scan", "L00??")["lots"]] == ["L002U", "L001W"]
    assert "emptied on 2026-11-28" in stockroom(*NOW, "scan", "L00??").out
    failed = stockroom(*NOW, "scan", "L9??")
    assert failed.code == 2
    assert "No lot's code could be" in failed.err
