"""Whatever a file holds, it ends as data or as listed problems, and on a refusal nothing has changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import CommandLine
from exchange_files import TABLES, everything_in
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from stockroom.exchange.files import laid_out
from stockroom.exchange.layouts import LAYOUTS, LEFT_OUT
from stockroom.exchange.sheet import Column, Table
from stockroom.store.open import Store

NOW = ("--on", "2026-11-25T14:10", "--by", "AB", "--json")

CELL = st.one_of(
    st.sampled_from(
        [
            "=1+1", "+1", "-1", "@A1", "\t", "a\rb", '"', "'", "x" * 10_000, "a\0b", "0,5", "1,500", "1.500,00", "1e9",
            "2027-08", "08/2027", "3/4/2026", "2026-02-30", "25.11.2026", "9999-12-31", "0", "-5 g", "1 in 4", "1:4",
            "500 g", "1 L", "3 x 1 L", "2 sheets", "12.50", "unknown", "at least 3", "yes", "no", "L001W", "l0o1w",
            "ethanol", "calcium-hydroxide", "shelf", "mass", "AB", "jar", "[\"a\"]", "[[[[", "NaN", "inf", "½", "²",
            "\u202egnirts", "\U0001f600", "Ａ", "١٢", "%", "..", "/etc/passwd",
        ]
    ),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
)  # fmt: skip


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(what=st.sampled_from(TABLES), form=st.sampled_from([".csv", ".xlsx", ".json"]), cells=st.data())
def test_any_cells_end_as_data_or_as_problems(
    what: str, form: str, cells: st.DataObject, new_store: Callable[[], Store], tmp_path: Path
) -> None:
    layout = LAYOUTS[what]
    chosen = cells.draw(st.lists(st.sampled_from(layout.names), unique=True)) + list(layout.needed)
    names = list(dict.fromkeys(chosen))
    rows = cells.draw(st.lists(st.tuples(*(CELL | st.none() for _ in names)), min_size=1, max_size=3))
    path = tmp_path / f"table{form}"
    path.write_bytes(
        laid_out(Table(name=what, columns=tuple(Column(name=name) for name in names), rows=tuple(rows)), form)
    )
    store = new_store()
    store.close()
    line = CommandLine(store.path)
    before = everything_in(line)
    ended = line(*NOW, "import", str(path), "--as", what)
    assert ended.code in (0, 2)
    if ended.code:
        assert everything_in(line) == before
        assert ended.json["error"]["message"]
    assert line.json("verify")["problems"] == []


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(content=st.binary(max_size=300) | st.text(max_size=100).map(lambda text: text.encode("utf-16", "ignore")))
@example(content=b"_")
@pytest.mark.parametrize("form", ["csv", "xlsx", "json"])
def test_any_bytes_are_refused_or_read(form: str, content: bytes, stockroom: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / f"table.{form}"
    path.write_bytes(content)
    assert stockroom(*NOW, "import", str(path), "--as", "places", "--dry-run").code in (0, 2)


def test_the_column_that_leaves_rows_out_belongs_to_no_table() -> None:
    assert all(LEFT_OUT not in layout.names for layout in LAYOUTS.values())
