"""Materials from the command line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from conftest import CommandLine
from hypothesis import given
from hypothesis import strategies as st

from stockroom.actions.materials import new_material, written
from stockroom.actions.posting import post
from stockroom.cli.output import plain
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import NewLot
from stockroom.domain.material_files import read_material
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import Dimension
from stockroom.store.lots import lots_of_materials
from stockroom.store.materials import all_materials, find_material
from stockroom.store.open import Store


@pytest.mark.parametrize("measured_by", [dimension.value for dimension in Dimension])
def test_a_name_alone_makes_a_material_of_each_dimension(stockroom: Any, measured_by: str) -> None:
    added = stockroom.json("material", "new", "Ochre, finely ground", "--measured-by", measured_by)
    assert (added["key"], added["name"], added["measured_by"]) == (
        "ochre-finely-ground",
        "Ochre, finely ground",
        measured_by,
    )
    assert added["key"] in [each["key"] for each in stockroom.json("material", "list", "ochre")["materials"]]


@pytest.mark.parametrize("name", ["[A3]", "[/]", "=1+1", "1:100:5", "'; --", "🧪", "مادة", "Müller's “ß”", "a\u202eb"])
def test_what_a_material_is_called_comes_back_as_typed(stockroom: Any, name: str) -> None:
    added = stockroom.json("material", "new", "--measured-by", "mass", "--", name)
    assert added["name"] == name
    assert added["key"].isascii()
    shown = stockroom.json("material", "show", added["key"])
    assert shown["name"] == name
    assert plain(name) in stockroom("material", "list").out


def test_a_key_is_made_from_the_name_and_never_given_twice(stockroom: Any) -> None:
    keys = [
        stockroom.json("material", "new", name, "--measured-by", "mass")["key"]
        for name in ("Crème brûlée", "Creme, brulee", "creme: BRULEE", "!", "?")
    ]
    assert keys == ["creme-brulee", "creme-brulee-2", "creme-brulee-3", "material", "material-2"]


@given(name=st.text(min_size=1, max_size=30).filter(lambda text: text.isprintable() and text.strip()))
def test_any_printable_name_is_kept_as_typed_under_a_plain_key(new_store: Callable[[], Store], name: str) -> None:
    with new_store() as store:
        added = new_material(store, {"name": name, "measured_by": "mass", "grade": "of this test"})
    assert added.name == name
    assert added.key.replace("-", "").isalnum() and added.key.isascii() and added.key == added.key.lower()


def test_the_same_name_twice_needs_another_grade_or_a_key(stockroom: Any) -> None:
    stockroom.json("material", "new", "Agar", "--measured-by", "mass")
    refused = stockroom.json("material", "new", "agar ", "--measured-by", "mass", code=1)
    assert refused["error"]["kind"] == "already-exists"
    assert stockroom.json("material", "new", "agar", "--measured-by", "mass", "--grade", "fine")["key"] == "agar-2"
    assert stockroom.json("material", "new", "agar", "--measured-by", "mass", "--key", "agar-x")["key"] == "agar-x"
    assert stockroom.json("material", "new", "bagar", "--measured-by", "mass", "--key", "agar-x", code=1)


def test_everything_that_can_be_said_of_a_material_is_kept(stockroom: Any) -> None:
    said = {
        "--density": "0.79",
        "--purity": "96 % v/v",
        "--molar-mass": "46.07",
        "--kind": "solvent",
        "--grade": "denatured, clear",
        "--pack-word": "canister",
        "--pack": "5 L",
        "--life-opened": "24 months",
        "--low": "500 mL",
        "--storage": "solvent cupboard",
        "--signal-word": "Danger",
        "--pictogram": "GHS02",
        "--hazard": "H225 Highly flammable liquid and vapour",
        "--source": "from memory",
    }
    typed = [part for pair in said.items() for part in pair]
    stockroom.json("material", "new", "Spirit", "--measured-by", "volume", "--vented", "--not-metered", *typed)
    shown = stockroom.json("material", "show", "spirit")
    assert {name: shown[name] for name in ("density", "purity", "molar_mass", "pack", "low", "life_opened")} == {
        "density": "0.79",
        "purity": "96 % v/v",
        "molar_mass": "46.07",
        "pack": "5 L",
        "low": "500 mL",
        "life_opened": "24 months",
    }
    assert (shown["vented"], shown["metered"]) == (True, False)
    assert shown["hazards"] == ["H225 Highly flammable liquid and vapour"]
    assert shown["pictograms"] == ["GHS02"]
    sheet = stockroom.json(
        "material", "new", "Blue board", "--measured-by", "area", "--sheet-size", "760 x 560 mm", "--grain", "along"
    )
    assert (sheet["sheet"], sheet["grain"]) == ("76 x 56 cm", "along")


def test_a_density_and_a_molar_mass_are_read_with_their_unit_or_without(stockroom: Any) -> None:
    said = ("--density", "0,79 g/ml", "--molar-mass", "46.07 g/mol")
    shown = stockroom.json("material", "new", "Spirit", "--measured-by", "volume", *said)
    assert (shown["density"], shown["molar_mass"]) == ("0.79", "46.07")


@pytest.mark.parametrize(
    ("options", "named"),
    [
        (("--density", "dense"), "density"),
        (("--density", "790 kg/m3"), "790 kg/m3"),
        (("--density", "-1"), "negative"),
        (("--purity", "1:4"), "1:4"),
        (("--low", "500"), "unit"),
        (("--low", "2 L"), "mass"),
        (("--life-opened", "6 m"), "6 m"),
        (("--hazard", "burns"), "burns"),
        (("--pictogram", "GHS42"), "GHS42"),
        (("--pack", "5 kg"), "pack_word"),
        (("--key", "Not A Key"), "Not A Key"),
        (("--sheet", "30 x 40 cm"), "sheet"),
    ],
)
def test_what_cannot_be_meant_is_refused_and_nothing_is_added(
    stockroom: Any, options: tuple[str, ...], named: str
) -> None:
    failed = stockroom("material", "new", "Verdigris", "--measured-by", "mass", *options)
    assert failed.code == 2
    assert named in failed.err
    assert stockroom.json("material", "list", "verdigris")["materials"] == []


def test_an_edit_keeps_who_when_why_and_the_old_value(stockroom: Any) -> None:
    stockroom.json("material", "new", "Agar", "--measured-by", "mass", "--low", "100 g", "--hazard", "H315 Irritates")
    edited = stockroom.json("material", "edit", "agar", "--low", "0,25 kg", "--hazard", "", "--why", "we use more now")
    assert {change["field"]: (change["was"], change["became"]) for change in edited["changes"]} == {
        "low": ("100 g", "250 g"),
        "hazards": ("H315 Irritates", None),
    }
    edits = stockroom.json("material", "show", "agar")["edits"]
    assert {(edit["field"], edit["by"], edit["why"]) for edit in edits} == {
        ("low", "AB", "we use more now"),
        ("hazards", "AB", "we use more now"),
    }
    assert "100 g → 250 g" in stockroom("material", "show", "agar").out


def test_an_edit_that_says_nothing_new_is_told_and_one_that_says_nothing_is_refused(stockroom: Any) -> None:
    stockroom.json("material", "new", "Agar", "--measured-by", "mass", "--low", "100 g")
    assert stockroom.json("material", "edit", "agar", "--low", "0.1 kg")["changes"] == []
    assert stockroom.json("material", "edit", "agar", code=2)["error"]["kind"] == "bad-input"


def test_an_edit_never_changes_what_a_lot_was_received_with(
    stockroom: Any, store: Store, occasion: Callable[..., Occasion]
) -> None:
    stockroom.json(
        "material", "new", "Agar", "--measured-by", "mass", "--purity", "95 % w/w", "--life-closed", "2 years"
    )
    agar = find_material(store, "agar")
    with store.write() as booked_at:
        lot = NewLot(
            key=-1,
            material=agar,
            kind="bought",
            fields={"purity": agar.purity, "life_closed": agar.life_closed, "use_by": "2028-11-25"},
        )
        arrival = Movement(lot=-1, quantity=5_000_000, value=500, other_end="supplier", effect="base")
        post(store, Draft(kind="receive", occasion=occasion(), movements=(arrival,), new_lots=(lot,)), booked_at)
    stockroom.json("material", "edit", "agar", "--purity", "80 % w/w", "--life-closed", "1 year")
    (kept,) = lots_of_materials(store, [agar.id])
    assert (kept.purity, kept.life_closed, kept.use_by) == ("95 % w/w", "2 years", "2028-11-25")
    ended = stockroom.json("material", "retire", "agar")
    assert ended["lots"] == [kept.code]
    assert kept.code in stockroom("material", "show", "agar").out


def test_what_a_material_is_measured_by_can_never_be_edited(stockroom: Any) -> None:
    stockroom.json("material", "new", "Agar", "--measured-by", "mass")
    assert stockroom("material", "edit", "agar", "--measured-by", "volume").code == 2


def test_a_retired_material_is_listed_only_when_asked_for_and_can_come_back(stockroom: Any) -> None:
    stockroom.json("material", "new", "Agar", "--measured-by", "mass")
    assert stockroom.json("material", "retire", "agar")["retired_on"]
    assert stockroom.json("material", "list", "agar")["materials"] == []
    assert len(stockroom.json("material", "list", "agar", "--all")["materials"]) == 1
    assert stockroom.json("material", "retire", "agar", code=1)["error"]["kind"] == "refused"
    assert "retired_on" not in stockroom.json("material", "retire", "agar", "--undo")


def test_every_starter_material_reads_back_from_what_is_shown_of_it(store: Store) -> None:
    for material in all_materials(store):
        values = {name: value for name, value in written(material).items() if value is not None and value != []}
        again = read_material(values, "shown")
        assert written(again) == written(material)


def test_a_material_tells_from_its_use_below_what_to_order(stockroom: CommandLine) -> None:
    """Three uses in a year: 0.6187 and 8.7673 in that time (F. Garwood, Biometrika 28 (1936) 437-442)."""
    code = stockroom.json("--on", "2025-11-25", "receive", "blotter", "100 sheets", "--cost", "90")["code"]
    assert "use" not in stockroom("--on", "2026-11-24", "material", "show", "blotter").out
    for day in ("2026-01-10", "2026-05-10", "2026-09-10"):
        stockroom.json("--on", day, "take", code, "4 sheets", "--why", "test")
    use = stockroom.json("--on", "2026-11-24", "material", "show", "blotter")["use"]
    assert (use["rule"], use["uses"], use["unit"]) == ("plain rate", 3, "pieces")
    assert use["per_year"]["high"] == pytest.approx(8.7673 * 365.25 / 365, abs=1e-3)
    assert int(use["order_when_below"]) >= 4
    shown = stockroom("--on", "2026-11-24", "material", "show", "blotter").out
    assert "3 uses not booked ahead in 12 months: likely 0.6 to 8.8 a year." in shown
    assert f"order when below {use['order_when_below']} pieces." in shown
