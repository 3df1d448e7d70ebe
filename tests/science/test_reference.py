"""The reference tables: every figure says where it comes from."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import get_args

import pytest

import stockroom
from stockroom.science.powders import find_powder
from stockroom.science.reference import Row, Verified, rows

TABLES = sorted(path.stem for path in (Path(stockroom.__file__).parent / "reference").glob("*.toml"))


@pytest.mark.parametrize("table", TABLES)
def test_every_row_has_a_range_a_unit_its_conditions_and_a_source(table: str) -> None:
    """A row of words, such as a hazard statement, has neither figure nor unit."""
    assert rows(table)
    for row in rows(table):
        if row.unit:
            low, high = row.span
            assert 0 < low <= high
            assert isinstance(low, Decimal) and isinstance(high, Decimal)
        figures = (row.value is not None, row.low is not None, row.high is not None)
        assert figures in ([(True, False, False), (False, True, True)] if row.unit else [(False, False, False)])
        assert all((row.of, row.what, row.conditions, row.source))
        assert row.verified in get_args(Verified)


def test_what_nobody_looked_up_says_so() -> None:
    cited = [row.cite() for row in find_powder("heavy magnesium carbonate").sources]
    assert all("from memory, not verified" in citation for citation in cited)


def test_every_powder_of_the_table_can_be_used() -> None:
    for name in {row.of for row in rows("powder_densities")}:
        assert find_powder(name).name == name


def test_a_row_without_a_figure_is_a_mistake_in_the_table() -> None:
    with pytest.raises(ValueError, match="needs a value"):
        _ = Row(of="a", what="b", unit="g", conditions="c", source="d", verified="read").span
