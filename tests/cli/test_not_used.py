"""What lies on the shelf and was not used for a year."""

from __future__ import annotations

from conftest import CommandLine


def not_used(stockroom: CommandLine, on: str) -> list[str]:
    """Return why each is told."""
    items = stockroom.json("--on", on, "due")["items"]
    return [f"{item['code']}: {item['why']}" for item in items if item["kind"] == "not-used"]


def test_what_was_never_used_is_told_after_a_year_with_its_value(stockroom: CommandLine) -> None:
    stockroom.json("--on", "2025-01-10", "receive", "blotter", "2 x 25 sheets", "--cost", "61.00")
    assert not_used(stockroom, "2026-01-10") == []
    assert not_used(stockroom, "2026-01-11") == [
        "blotter: never used since it came, over a year ago: 50 pieces in 2 lots, worth 61.00 EUR; "
        "keep it, give it away or discard it"
    ]


def test_any_use_within_the_year_keeps_it_off_the_list(stockroom: CommandLine) -> None:
    code = stockroom.json("--on", "2024-01-10", "receive", "blotter", "25 sheets", "--cost", "30.00")["code"]
    stockroom.json("--on", "2025-03-01", "take", code, "5 sheets", "--why", "cleaning")
    assert not_used(stockroom, "2026-03-01") == []
    assert not_used(stockroom, "2026-03-02") == [
        f"blotter: not used since 2025-03-01: 20 pieces in {code}, worth 24.00 EUR; keep it, give it away or discard it"
    ]


def test_what_is_thrown_away_or_brought_back_is_no_use(stockroom: CommandLine) -> None:
    code = stockroom.json("--on", "2025-01-10", "receive", "blotter", "25 sheets", "--cost", "30.00")["code"]
    stockroom.json("--on", "2026-01-01", "take", code, "5 sheets", "--why", "spilled")
    stockroom.json("--on", "2026-01-02", "take", code, "5 sheets", "--why", "lent", "--to", "the museum")
    stockroom.json("--on", "2026-01-03", "bring-back", code, "5 sheets")
    assert len(not_used(stockroom, "2026-02-01")) == 1


def test_found_stock_of_unknown_cost_is_worth_at_least(stockroom: CommandLine) -> None:
    stockroom.json("--on", "2025-01-10", "receive", "blotter", "10 sheets", "--found")
    assert "worth at least 0.00 EUR" in not_used(stockroom, "2026-02-01")[0]


def test_what_is_past_its_date_is_due_for_that_alone(stockroom: CommandLine) -> None:
    stockroom.json("--on", "2025-01-10", "receive", "ethanol", "1 L", "--cost", "13.90", "--use-by", "2025-12")
    items = stockroom.json("--on", "2026-02-01", "due")["items"]
    assert [item["kind"] for item in items] == ["past-use-by"]


def test_a_recent_delivery_of_what_is_not_used_is_left_out(stockroom: CommandLine) -> None:
    stockroom.json("--on", "2025-01-10", "receive", "blotter", "10 sheets", "--cost", "10")
    stockroom.json("--on", "2026-01-10", "receive", "blotter", "90 sheets", "--cost", "90")
    assert ": 10 pieces in " in not_used(stockroom, "2026-02-01")[0]
