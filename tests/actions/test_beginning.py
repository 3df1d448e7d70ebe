"""Beginning a stockroom."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest

from stockroom.actions import beginning
from stockroom.actions.beginning import begin
from stockroom.domain.starter_files import starter_materials, starter_recipes
from stockroom.errors import BadInput, NotFound
from stockroom.store.materials import all_materials
from stockroom.store.open import Store, open_store
from stockroom.store.recipes import all_recipes
from stockroom.store.studio import all_measures, all_places


def test_a_new_stockroom_holds_every_starter_material_and_recipe(store: Store) -> None:
    assert {material.key for material in all_materials(store)} == {material.key for material in starter_materials()}
    assert {recipe.key for recipe in all_recipes(store)} == {recipe.key for recipe in starter_recipes()}


def test_a_new_stockroom_measures_with_the_spoons_of_a_kitchen_set_and_more(store: Store) -> None:
    """Spoons of 5, 2.5, 1.25 and 0.63 mL: common practice, no source."""
    measures = all_measures(store)
    assert sorted(each.capacity_ul or 0 for each in measures if each.kind == "spoon") == [630, 1250, 2500, 5000]
    assert {each.kind for each in measures} == {"spoon", "beaker", "cylinder", "tray", "balance"}
    assert [each.resolution_ug for each in measures if each.kind == "balance"] == [10_000]
    assert [place.name for place in all_places(store)] == ["refrigerator", "shelf", "solvent cupboard"]


def test_what_fails_half_way_leaves_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> int:
        raise NotFound("stopped half-way")

    monkeypatch.setattr(beginning, "add_recipe", fail)
    with pytest.raises(NotFound):
        begin(tmp_path / "new.db")
    assert list(tmp_path.iterdir()) == []


def test_only_its_owner_can_read_a_new_stockroom(tmp_path: Path) -> None:
    begin(tmp_path / "new.db", empty=True)
    assert stat.S_IMODE((tmp_path / "new.db").stat().st_mode) == 0o600


@pytest.mark.parametrize(
    "wrong", [{"initials": "A B"}, {"name": " "}, {"currency": "euro"}, {"time_zone": ""}, {"costs": ""}]
)
def test_what_cannot_be_used_is_refused_before_there_is_a_file(tmp_path: Path, wrong: dict[str, str]) -> None:
    with pytest.raises(BadInput):
        begin(tmp_path / "new.db", **wrong)  # type: ignore[arg-type]
    assert list(tmp_path.iterdir()) == []


def test_two_stockrooms_share_nothing(tmp_path: Path) -> None:
    begin(tmp_path / "one.db", initials="KM", empty=True)
    begin(tmp_path / "two.db", initials="AB")
    with open_store(tmp_path / "one.db") as one:
        assert all_materials(one) == []
