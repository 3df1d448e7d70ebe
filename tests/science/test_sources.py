"""Looking up where a figure comes from."""

from __future__ import annotations

from stockroom.science.reference import rows
from stockroom.science.sources import find_rows, table_names


def test_every_row_of_every_table_is_found_without_a_word() -> None:
    assert len(find_rows(())) == sum(len(rows(table)) for table in table_names())


def test_every_word_must_stand_in_the_row() -> None:
    found = find_rows(("Greenspan", "sodium chloride"))
    assert found and all(row.of == "sodium chloride" and "Greenspan" in row.source for _, row in found)
    assert {row.source.split()[0] for _, row in find_rows(("ph", "memory", "hydroxide"))} == {"Bates"}
    assert find_rows(("xyzzy",)) == []


def test_a_figure_is_shown_as_its_source_has_it() -> None:
    shown = {row.what: row.figure for _, row in find_rows(("pharmacopoeia",))}
    assert shown["least strength, USP"] == "1.40 g/L"
    assert shown["purity of the powder"] == "95.0 to 100.5 %"


def test_sources_that_disagree_on_keeping_stand_side_by_side() -> None:
    """Wheat starch paste: 20 days (Abbey Newsletter 19-5, 1995), 7 days (a museum's recipe); both read."""
    kept = [float(row.span[1]) for _, row in find_rows(("keeping times", "wheat starch")) if row.what == "keeping time"]
    assert sorted(kept) == [7, 20]


def test_alkaline_reserve_counts_acid_not_carbonate() -> None:
    """2 % of calcium carbonate takes 0.40 mol/kg of acid: ASTM D4988, ISO 9706 (read); 0.20 mol/kg of carbonate."""
    reserve = {row.what: float(row.span[0]) for row in rows("alkaline_reserve")}
    assert 2 * reserve["calcium carbonate in that reserve"] == reserve["alkaline reserve, as acid it takes"]
    assert abs(reserve["alkaline reserve, as calcium carbonate"] * 10 / 100.087 - 0.20) < 0.001
