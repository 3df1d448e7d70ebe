"""Places, measures and people from the command line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import Dimension
from stockroom.store.materials import add_material, find_material
from stockroom.store.open import Store
from stockroom.store.studio import find_place

HOSTILE = ("[A3]", "[/]", "=1+1", "1:100:5", "\"'; DROP TABLE lot; --", "🧪 jar", "رف المذيبات", "a\u202eb", "-q")
"""Text that markup, spreadsheets, SQL, terminals or option parsers would take for something else."""


def _lot_at(store: Store, occasion: Occasion, place: str) -> int:
    """Receive a litre of a liquid and put it in a place; return the lot's id."""
    with store.write() as booked_at:
        add_material(store, Material(key="test-liquid", name="test liquid", kind="solvent", dimension=Dimension.VOLUME))
        lot = NewLot(
            key=-1,
            material=find_material(store, "test-liquid"),
            kind="bought",
            fields={"place_id": find_place(store, place).id},
        )
        arrival = Movement(lot=-1, quantity=1_000_000, value=500, other_end="supplier", effect="base")
        posted = post(store, Draft(kind="receive", occasion=occasion, movements=(arrival,), new_lots=(lot,)), booked_at)
    return posted.entries[0].lot


@pytest.mark.parametrize("name", HOSTILE)
def test_what_a_place_is_called_comes_back_as_typed(stockroom: Any, name: str) -> None:
    assert stockroom.json("place", "new", "--", name)["name"] == name
    assert name in [place["name"] for place in stockroom.json("place", "list")["places"]]
    assert stockroom("place", "list").code == 0


@pytest.mark.parametrize("name", ["", "   ", "x" * 201])
def test_a_name_that_is_none_is_refused(stockroom: Any, name: str) -> None:
    failed = stockroom("--json", "place", "new", name)
    assert failed.code == 2
    assert failed.json["error"]["kind"] == "bad-input"


def test_a_renamed_place_keeps_who_when_and_what_it_was_called(stockroom: Any) -> None:
    changed = stockroom.json("place", "edit", "shelf", "--name", "long shelf", "--why", "there are two now")
    assert changed["changes"] == [{"field": "name", "was": "shelf", "became": "long shelf"}]
    (edit,) = stockroom.json("place", "show", "long shelf")["edits"]
    assert (edit["was"], edit["became"], edit["by"], edit["why"]) == ("shelf", "long shelf", "AB", "there are two now")


def test_two_places_never_share_a_name(stockroom: Any) -> None:
    assert stockroom("place", "new", "SHELF").code == 1
    assert stockroom("place", "edit", "refrigerator", "--name", "shelf").code == 1


def test_a_place_is_retired_only_when_it_is_empty(
    stockroom: Any, store: Store, occasion: Callable[..., Occasion]
) -> None:
    _lot_at(store, occasion(), "shelf")
    failed = stockroom.json("place", "retire", "shelf", code=1)
    (kept,) = stockroom.json("place", "show", "shelf")["lots"]
    assert failed["error"]["details"]["lots"] == [kept["code"]]
    assert (kept["amount"], kept["unit"]) == ("1000", "mL")
    assert stockroom.json("place", "retire", "refrigerator")["retired_on"]
    assert "refrigerator" not in stockroom("place", "list").out
    assert "refrigerator" in stockroom("place", "list", "--all").out
    assert "retired_on" not in stockroom.json("place", "retire", "refrigerator", "--undo")


def test_each_measure_keeps_what_its_kind_is_measured_by(stockroom: Any) -> None:
    spoon = stockroom.json("measure", "new", "tea spoon", "--kind", "spoon", "--capacity", "1/4 tsp")
    assert spoon["capacity"] == "1.232 mL"  # NIST SP 430: a teaspoon is 4.92892 mL
    tray = stockroom.json("measure", "new", "big tray", "--kind", "tray", "--size", "50 x 70 cm")
    assert tray["size"] == "50 x 70 cm"
    balance = stockroom.json("measure", "new", "fine balance", "--kind", "balance", "--resolution", "1 mg")
    assert balance["resolution"] == "1 mg"


@pytest.mark.parametrize(
    ("options", "named"),
    [
        (("--kind", "tray"), "size"),
        (("--kind", "spoon"), "capacity"),
        (("--kind", "balance", "--resolution", "0.1 g", "--capacity", "1 L"), "no capacity"),
        (("--kind", "beaker", "--capacity", "12"), "no unit"),
        (("--kind", "bucket", "--capacity", "1 L"), "bucket"),
    ],
)
def test_a_measure_without_its_size_is_refused_saying_what_it_needs(
    stockroom: Any, options: tuple[str, ...], named: str
) -> None:
    failed = stockroom("measure", "new", "thing", *options)
    assert failed.code == 2
    assert named in failed.err
    assert "thing" not in stockroom("measure", "list").out


def test_an_edited_measure_keeps_what_it_held_before(stockroom: Any) -> None:
    changed = stockroom.json("measure", "edit", "100 mL beaker", "--capacity", "105 mL", "--graduation", "5 mL")
    assert {change["field"]: change["was"] for change in changed["changes"]} == {
        "capacity": "100 mL",
        "graduation": "10 mL",
    }
    assert stockroom("measure", "retire", "100 mL beaker").code == 0
    assert stockroom("measure", "retire", "100 mL beaker").code == 2


def test_initials_belong_to_one_person_for_ever(stockroom: Any) -> None:
    stockroom.json("person", "new", "KM", "K. Mørk")
    stockroom.json("--by", "AB", "person", "retire", "KM")
    for initials in ("KM", "km", "ab"):
        assert stockroom.json("person", "new", initials, "Someone else", code=1)["error"]["kind"] == "already-exists"


def test_the_only_person_books_without_by_and_of_two_one_must_be_named(stockroom: Any) -> None:
    assert stockroom.json("place", "edit", "shelf", "--note", "by the door")["note"] == "by the door"
    stockroom.json("person", "new", "KM", "K. Mørk")
    failed = stockroom("place", "edit", "shelf", "--note", "")
    assert failed.code == 2
    assert "AB A. Bauer, KM K. Mørk" in failed.err
    stockroom.json("--by", "km", "place", "edit", "shelf", "--note", "")
    edits = stockroom.json("place", "show", "shelf")["edits"]
    assert [edit["by"] for edit in edits] == ["AB", "KM"]


def test_unknown_initials_are_refused_by_every_command(stockroom: Any) -> None:
    assert stockroom.json("--by", "ZZ", "place", "list", code=2)["error"]["kind"] == "not-found"


def test_someone_retired_books_nothing_more(stockroom: Any) -> None:
    stockroom.json("person", "new", "KM", "K. Mørk")
    stockroom.json("--by", "AB", "person", "retire", "AB")
    assert "retired" in stockroom("--by", "AB", "place", "edit", "shelf", "--note", "x").err
    assert stockroom("place", "edit", "shelf", "--note", "x").code == 0


def test_the_last_person_cannot_retire(stockroom: Any) -> None:
    assert stockroom.json("person", "retire", "AB", code=1)["error"]["kind"] == "refused"


def test_retiring_a_person_lists_the_loans_that_are_not_back(
    stockroom: Any, store: Store, occasion: Callable[..., Occasion]
) -> None:
    lot = _lot_at(store, occasion(), "shelf")
    stockroom.json("person", "new", "KM", "K. Mørk")
    with store.write() as booked_at:
        out = Movement(lot=lot, quantity=-400_000, other_end="studio", reason="lent")
        lent = post(
            store,
            Draft(
                kind="take",
                occasion=occasion(by="KM"),
                movements=(out,),
                loan=("the bindery", "2026-12-01"),
            ),
            booked_at,
        )
        back = Movement(
            lot=lot, quantity=100_000, value=50, other_end="studio", effect="base", refers=lent.entries[0].place
        )
        post(store, Draft(kind="bring-back", occasion=occasion(by="AB"), movements=(back,)), booked_at)
    (still_open,) = stockroom.json("--by", "AB", "person", "retire", "KM")["left_open"]
    assert still_open["code"] == lent.code
    assert still_open["by"] == "2026-12-01"
    assert still_open["what"].startswith("300 mL of test liquid")
    assert "the bindery" in still_open["what"]


@pytest.mark.parametrize("initials", ["", "A B", "=A1", "ABCDEFGHIJ"])
def test_what_cannot_be_initials_is_refused(stockroom: Any, initials: str) -> None:
    assert stockroom("person", "new", initials, "Someone").code == 2
