"""The demo studio: something is always due, the books balance, and the main job agrees with sums by hand."""

from __future__ import annotations

import re
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from conftest import CommandLine

from demo_db.build import build_demo
from stockroom.actions.reorder_points import order_point_of
from stockroom.actions.verifying import verify
from stockroom.actions.whats_due import due_items
from stockroom.errors import AlreadyExists
from stockroom.store.history import actions_of_person
from stockroom.store.materials import find_material
from stockroom.store.open import open_store
from stockroom.store.orders import all_orders

ZONE = ZoneInfo("Europe/Berlin")
_USED = {"gloves": "smoothed rate", "cotton-swabs": "plain rate", "sodium-chloride": "by hand"}
"""One material with use enough to smooth, one with some, one with too little to reckon with."""


@pytest.mark.parametrize(
    "now", ["2027-01-01T00:20", "2028-02-29T12:00", "2026-03-29T03:30", "2026-10-25T02:30", "2026-11-25T14:10"]
)
def test_something_is_due_on_any_day_and_the_books_balance(tmp_path: Path, now: str) -> None:
    """New Year's night, a leap day, both changes of the clock, and a plain afternoon."""
    moment = datetime.fromisoformat(now).replace(tzinfo=ZONE)
    path = tmp_path / "demo.db"
    build_demo(path, moment)
    with open_store(path) as store:
        kinds = {item.kind for item in due_items(store, moment)}
        assert {"past-use-by", "use-first", "low", "not-ready", "short", "make-by", "loan", "booking-passed"} <= kinds
        assert {"check", "remake", "solid-only", "not-used"} <= kinds
        assert {"reorder", "order-late"} <= kinds
        assert {order.state for order in all_orders(store)} == {"drafted", "placed", "closed"}
        rules = {key: order_point_of(store, find_material(store, key), moment.date(), 10).rule for key in _USED}
        assert rules == _USED
        assert not verify(store).problems
        assert 150 <= sum(len(actions_of_person(store, initials, 500)) for initials in ("AM", "TK")) <= 300


def test_nothing_is_left_of_a_demo_that_could_not_be_built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A demo cut short would be opened as if it were whole."""
    monkeypatch.setattr("demo_db.build.make", _fail)
    with pytest.raises(OSError, match="no room left"):
        build_demo(tmp_path / "demo.db", datetime.now(ZONE))
    assert not list(tmp_path.iterdir())


def _fail(*_: object, **__: object) -> None:
    raise OSError("no room left")


def test_a_file_that_is_there_is_never_built_over(tmp_path: Path) -> None:
    path = tmp_path / "demo.db"
    path.write_bytes(b"mine")
    with pytest.raises(AlreadyExists):
        build_demo(path, datetime.now(ZONE))
    assert path.read_bytes() == b"mine"
    assert [one.name for one in tmp_path.iterdir()] == ["demo.db"]


def test_without_a_terminal_the_main_job_is_done_and_told(tmp_path: Path) -> None:
    """By hand: 2 x 125 mL of solution, 2 x 50 mL of gel, 2 x 46 x 36 cm of web, two blotters at 29.50 for 25."""
    done = CommandLine(tmp_path / "unused.db").json("demo", str(tmp_path))
    amounts = {line["material"]: (line["amount"], line["unit"]) for line in done["drawn"]}
    assert amounts == {
        "calcium-hydroxide-solution": ("250", "mL"),
        "methyl-cellulose-gel": ("100", "mL"),
        "polyester-web-light": ("3312", "cm2"),
        "blotter": ("2", "pieces"),
    }
    costs = {line["material"]: line["cost"] for line in done["drawn"]}
    assert costs["blotter"] == "2.36"  # 29.50 x 2 / 25
    for line in [*done["drawn"], *done["made_from"]]:
        worth, amount, whole = re.fullmatch(r"([\d.]+) x ([\d.]+) / ([\d.]+) \w+ = [\d.]+", line["by_hand"]).groups()
        assert abs(Decimal(line["cost"]) - Decimal(worth) * Decimal(amount) / Decimal(whole)) < Decimal("0.01")
        assert amount == line["amount"]
    assert Decimal(done["total"]) == sum(Decimal(cost) for cost in costs.values())
    assert (done["made_from"][0]["amount"], done["amount"], done["unit"]) == ("3", "1000", "mL")
    assert Path(done["label"]).read_bytes().startswith(b"%PDF")
    assert Path(done["path"]).exists()


def test_a_demo_that_is_there_is_opened_as_it_is_and_told_again(tmp_path: Path) -> None:
    """The README's command may be run any number of times; nothing is booked twice, and nothing runs short."""
    line = CommandLine(tmp_path / "unused.db")
    first = line.json("demo", str(tmp_path))
    second = line.json("demo", str(tmp_path))
    assert first["action"] is not None
    assert second["action"] is None
    for key in ("path", "code", "label", "job", "drawn", "made_from", "total"):
        assert second[key] == first[key], key
    assert "gone through before" in line("demo", str(tmp_path)).out


def test_another_file_of_that_name_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "stockroom-demo.db").write_bytes(b"something else")
    assert CommandLine(tmp_path / "unused.db")("demo", str(tmp_path)).code == 1
    assert (tmp_path / "stockroom-demo.db").read_bytes() == b"something else"


def test_a_recalled_reagent_leads_to_two_jars_and_three_objects_and_back(tmp_path: Path) -> None:
    """Told in jars.toml and shelf.toml: two jars of citrate; two plates whose object was not stated, and one poster."""
    moment = datetime(2026, 11, 25, 14, 10, tzinfo=ZONE)
    build_demo(tmp_path / "demo.db", moment)
    line = CommandLine(tmp_path / "demo.db")
    recall = line.json("trace", "--maker-lot", "AC-119")
    jars = [one["code"] for one in recall["lots"] if one["way"] == "reached"]
    assert len(jars) == 2
    objects = {(one["job"], one["name"], one["stated"]) for one in recall["objects"]}
    assert {(name, stated) for _, name, stated in objects} == {
        ("Plate 1", False),
        ("Plate 2", False),
        ("Poster, morning", True),
    }
    for job, name, _ in objects:
        back = line.json("trace", job, "--object", name)
        found = {one["code"]: one for one in back["lots"]}
        assert set(recall["starts"]) <= set(found) and set(jars) & set(found)
        assert found[recall["starts"][0]]["maker_lot"] == "AC-119"
    with open_store(tmp_path / "demo.db") as store:
        withdrawn = [item for item in due_items(store, moment) if item.kind == "withdrawn"]
    assert [item.code for item in withdrawn] == recall["starts"]
    assert "the maker recalls it" in withdrawn[0].why


def test_the_page_for_the_door_has_a_sheet_in_order_an_old_one_and_a_missing_one(tmp_path: Path) -> None:
    """Told in deliveries.toml: ethanol's is of less than three years ago, acetone's older, isopropanol has none."""
    build_demo(tmp_path / "demo.db", datetime(2026, 11, 25, 14, 10, tzinfo=ZONE))
    line = CommandLine(tmp_path / "demo.db")
    found = line.json("--on", "2026-11-25", "held", "--place", "solvent cupboard")
    troubles = {one["material"]: one["trouble"] for one in found["safety_sheets"]}
    assert troubles == {"ethanol": None, "acetone": "3 years old or more", "isopropanol": "missing"}
    assert [one["key"] for one in line.json("register")["materials"]] == ["ethanol"]
    page = line.json("--on", "2026-11-25", "register", "ethanol")
    held = [one for one in found["containers"] if one["material"] == "ethanol"]
    assert page["left"]["amount"] == str(sum(Decimal(one["amount"]) for one in held))
    assert page["unexplained"] == []


def test_what_the_plan_wants_ordered_is_offered_and_some_of_what_was_booked_is_done(tmp_path: Path) -> None:
    moment = datetime(2026, 11, 25, 14, 10, tzinfo=ZONE)
    build_demo(tmp_path / "demo.db", moment)
    line = CommandLine(tmp_path / "demo.db")
    on = ("--on", "2026-11-25T14:10")
    wanted = {one["what"] for one in line.json(*on, "plan")["buy"]}
    offered = {one["material"]: one["supplier"] for one in line.json(*on, "buy")["lines"]}
    assert wanted and all(offered[material] for material in wanted)
    bookings = line.json("job", "show", "mosses")["bookings"]
    assert [one["state"] for one in bookings] == ["done", "done"]
