"""What was exported and imported into an empty stockroom is exported again the same."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from conftest import CommandLine
from exchange_files import TABLES
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from demo_db.build import build_demo
from stockroom.actions.beginning import begin
from stockroom.actions.exporting import exported, write_table
from stockroom.actions.importing import import_file
from stockroom.actions.studio import new_place
from stockroom.actions.suppliers import new_supplier
from stockroom.actions.verifying import verify
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store, open_store

NOW = ("--on", "2026-11-25T14:10", "--by", "AB")
LATER = ("--on", "2026-12-20T10:00", "--by", "AB")


@pytest.fixture
def full(stockroom: CommandLine) -> CommandLine:
    """A stockroom with something of every kind, retired, ended, recalled and hostile things among them."""
    for arguments in (
        ("person", "new", "NK", "N. Keller, guest"),
        ("person", "retire", "NK"),
        ("place", "new", " =Drawer 3 ", "--note", "wide\n+flat"),
        ("place", "new", "Attic"),
        ("place", "retire", "Attic"),
        ("material", "new", "Linen; for charts", "--measured-by", "area", "--sheet", "90 x 60 cm", "--grain", "along"),
        ("material", "edit", "linen", "--pack-word", "bale", "--pack", "40 sheets", "--low", "2 sheets"),
        ("material", "new", "Ox gall", "--measured-by", "volume", "--density", "1.30", "--vented"),
        ("material", "edit", "ox-gall", "--hazard", "H319 Causes eye irritation", "--why", "sheet of 2026"),
        ("material", "retire", "ox-gall"),
        ("supplier", "new", "@Paper goods", "--delivery-days", "10", "--minimum-order", "50", "--note", "-20 % in May"),
        ("supplier", "new", "Gone"),
        ("supplier", "offer", "gone", "ethanol", "1 L", "13.90", "--tax", "19"),
        ("supplier", "retire", "gone"),
        ("supplier", "offer", "paper", "blotter", "25 sheets", "31", "--day", "2026-05-01", "--break", "4 = 30"),
        ("supplier", "offer", "paper", "blotter", "25 sheets", "32.50", "--tax", "19.0", "--catalogue-number", "007"),
        ("supplier", "offer", "paper", "ethanol", "2.5 L", "30.00", "--currency", "usd", "--rate", "0.8713"),
        ("supplier", "end-offer", "paper", "blotter"),
        ("receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--lot-number", "0007731", "--use-by", "2028-02"),
        ("receive", "linen", "3 x 2 sheets", "--cost", "40", "--supplier", "@Paper goods", "--place", "=drawer"),
        ("receive", "ethanol", "about 300 mL", "--found", "--opened-before", "2026-11-01"),
        ("receive", "wheat-starch", "250 g", "--cost", "7.01", "--lot-number", "WS", "--purity", "95 % w/w"),
        ("withdraw", "--maker-lot", "WS", "--why", "recalled by the maker"),
        ("receive", "wheat-starch", "1 kg", "--cost", "9"),
        ("material", "edit", "wheat-starch", "--purity", "99 % w/w", "--life-opened", "3 months"),
        ("receive", "gluten", "1 kg", "--cost", "9", "--purity", "80 % w/w"),
        ("make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L", "--place", "shelf"),
    ):
        stockroom.json(*NOW, *arguments)
    linen = stockroom.json(*NOW, "shelf", "linen")["lots"][0]["code"]
    kept = ("--keep-offcut", "60 x 40 cm", "--why", "test")
    stockroom.json("--on", "2026-12-21", "--by", "AB", "take", linen, "30 x 60 cm", *kept)
    acetone = stockroom.json(*NOW, "receive", "acetone", "1 L", "--cost", "9")["code"]
    stockroom.json(*LATER, "open", acetone)
    stockroom.json(*LATER, "take", acetone, "33.3 mL", "--why", "test")
    stockroom.json("--on", "2026-12-21", "--by", "AB", "count", acetone, "950 mL", "--why", "evaporated")
    return stockroom


def texts(line: CommandLine, what: str, folder: Path) -> str:
    path = folder / f"{what}-{line.path.stem}.json"
    line.json("--by", "AB", "export", what, "--out", str(path), "--replace")
    return path.read_text("utf-8")


@pytest.mark.parametrize("form", ["csv", "xlsx", "json"])
def test_a_stockroom_comes_back_the_same(full: CommandLine, tmp_path: Path, form: str) -> None:
    other = CommandLine(tmp_path / "other.db")
    other.json("--by", "AB", "init", "--empty", "--name", "A. Bauer", "--time-zone", "Europe/Berlin")
    for what in TABLES:
        path = str(tmp_path / f"{what}.{form}")
        written = full.json("--by", "AB", "export", what, "--out", path)
        brought = other.json("--on", "2027-01-02", "--by", "AB", "import", path)
        assert brought["taken"] + brought["here"] == written["rows"] > 0, what
        assert texts(other, what, tmp_path) == texts(full, what, tmp_path), what
        again = full.json("--on", "2027-01-02", "--by", "AB", "import", path)
        assert (again["taken"], again["here"]) == (0, written["rows"]), what
    assert other.json("verify")["problems"] == []
    shelf = {lot["code"]: lot for lot in full.json("--on", "2027-01-02", "shelf")["lots"]}
    for lot in other.json("--on", "2027-01-02", "shelf")["lots"]:
        for same in ("amount", "use_by", "fit", "why", "value", "state", "ready_on", "cost_incomplete"):
            assert lot[same] == shelf[lot["code"]][same]


NAME = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), min_size=1, max_size=40)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(names=st.lists(NAME.filter(str.strip), min_size=1, max_size=4), form=st.sampled_from(["csv", "xlsx", "json"]))
def test_any_name_and_note_comes_back(
    names: list[str],
    form: str,
    new_store: Callable[[], Store],
    empty_file: Path,
    occasion: Callable[..., Occasion],
    tmp_path: Path,
) -> None:
    source, target = new_store(), tmp_path / "target.db"
    shutil.copy(empty_file, target)
    for number, name in enumerate(names):
        new_place(source, f"{number} place", name)
        new_supplier(source, f"{number} supplier", note=name)
    with open_store(target) as other:
        for what in ("places", "suppliers"):
            path = tmp_path / f"{what}.{form}"
            write_table(exported(source, what), path, replacing=True)
            import_file(other, occasion(), path, what=what)
            assert exported(other, what) == exported(source, what)


@pytest.fixture(scope="module")
def empty_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("empty") / "empty.db"
    begin(path, initials="AB", name="A. Bauer", empty=True, time_zone="Europe/Berlin")
    return path


def test_the_demo_comes_back_the_same(tmp_path: Path, occasion: Callable[..., Occasion]) -> None:
    """A year of a studio: offcuts, jars over solid, checks, put-rights, loans, a recall."""
    now = occasion("2026-11-25T14:10")
    source, target = tmp_path / "demo.db", tmp_path / "target.db"
    build_demo(source, now.now.astimezone(now.zone))
    begin(target, initials="AM", name="Alba Moreau", empty=True, time_zone=now.zone.key)
    with open_store(source) as demo, open_store(target) as other:
        for what in TABLES:
            table = exported(demo, what)
            if table.rows:
                path = tmp_path / f"{what}.csv"
                write_table(table, path)
                import_file(other, replace(now, by="AM"), path)
            assert exported(other, what) == table
        assert not verify(other).problems
