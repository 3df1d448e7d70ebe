"""A command's answer as a table."""

from __future__ import annotations

import pytest

from stockroom.errors import BadInput
from stockroom.exchange.answers import parts_of, table_of


def shown(answer: dict[str, object], part: str | None) -> list[list[str | None]]:
    table = table_of(answer, "report", part)
    return [[column.name for column in table.columns], *map(list, table.rows)]


def test_a_range_inside_becomes_columns_and_a_list_of_texts_lines() -> None:
    answer = {"lots": [{"code": "L001W", "strength": {"low": 1.5, "high": 1.75}, "why": ["a", "b"], "fit": True}]}
    assert shown(answer, "lots") == [
        ["code", "strength_low", "strength_high", "why", "fit"],
        ["L001W", "1.5", "1.75", "a\nb", "yes"],
    ]


def test_items_inside_items_have_a_row_each_and_the_outer_amount_stands_once() -> None:
    answer = {"orders": [{"code": "P1", "cost": "5.00", "lines": [{"packs": 1}, {"packs": 2}]}, {"code": "P2"}]}
    assert shown(answer, "orders") == [
        ["code", "cost", "lines_packs"],
        ["P1", "5.00", "1"],
        ["P1", None, "2"],
        ["P2", None, None],
    ]


def test_amounts_are_numbers_and_codes_are_not() -> None:
    table = table_of({"lots": [{"maker_lot": "7731", "amount": "2.5", "value": "1.00", "count": 3}]}, "shelf", "lots")
    assert [column.name for column in table.columns if column.number] == ["amount", "value", "count"]


def test_an_answer_without_lists_is_one_row() -> None:
    assert shown({"volume_ml": 960}, None) == [["volume_ml"], ["960"]]
    assert parts_of({"volume_ml": 960}) == []


def test_what_holds_nothing_now_is_still_a_part() -> None:
    answer: dict[str, object] = {"make": [], "buy": [{"what": "blotter"}]}
    assert parts_of(answer) == ["buy", "make"]
    assert shown(answer, "make") == [[]]
    with pytest.raises(BadInput, match="Its parts: buy, make"):
        table_of(answer, "plan", "sell")
